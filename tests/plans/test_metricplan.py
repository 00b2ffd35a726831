"""A metric kitchen reads no degF and no inch, on no paper and no screen."""

from __future__ import annotations

import re
from dataclasses import replace
from unittest import mock

import pytest
from planned_days import day_of, planned, starter

from batchcook import planning
from batchcook.day.solving import Effort
from batchcook.documents.kitchenscreen import screen_day
from batchcook.documents.labelwords import Shortening, label_words
from batchcook.documents.runsheet import run_sheet_html
from batchcook.plan import Plan
from batchcook.planning import plan_day
from batchcook.plans.metricplan import in_measures_of, in_own_measures
from batchcook.plans.milestones import milestones

FOREIGN = re.compile(r"degF|°F|\binch|\d in deep")


@pytest.fixture(scope="module")
def metric() -> Plan:
    with mock.patch.object(planning, "one_after_another", return_value=0):
        day = replace(day_of(cottage_pie=1), system="metric")
        return plan_day(day, starter(), Effort(8.0))


def test_the_run_sheet_is_in_celsius_and_centimetres(metric: Plan) -> None:
    shown = re.sub(r"<[^>]+>", " ", run_sheet_html(metric).partition("<body>")[2])
    assert not FOREIGN.search(shown)
    assert "Bake at 205\u00a0°C" in shown
    assert "Heat to 205\u00a0°C" in shown
    assert "To at least 74\u00a0°C in the middle" in shown
    assert "20 x 20 cm" in shown


def test_labels_are_in_celsius_however_short(metric: Plan) -> None:
    assert metric.containers
    for box in metric.containers:
        for cut in Shortening:
            assert not FOREIGN.search(str(label_words(box, cut)))
        assert "reheat to 74\u00a0°C" in label_words(box, Shortening.NOTHING).state


def test_the_kitchen_screen_and_the_calendar_are_in_celsius(metric: Plan) -> None:
    day = screen_day(metric)
    said = [f"{task['title']} {task.get('words', '')}" for task in day["tasks"]]
    said += [f"{each.title} {each.words}" for each in milestones(metric)]
    assert not [each for each in said if FOREIGN.search(each)]
    assert day["hot"] == "60\u00a0°C"


def test_what_the_program_reads_again_is_left_alone(metric: Plan) -> None:
    us = planned(cottage_pie=1)
    assert [task.id for task in metric.tasks] == [task.id for task in us.tasks]
    assert [each.degF for each in metric.settings] == [each.degF for each in us.settings]
    assert [box.holds for box in metric.containers] == [box.holds for box in us.containers]
    assert in_own_measures(metric) == metric
    assert in_own_measures(us) == us


def test_a_text_about_a_plan_is_in_the_measures_of_its_kitchen(metric: Plan) -> None:
    hot = "keep it hot, at 140 degF or above"
    assert in_measures_of(metric, hot) == "keep it hot, at 60 degC or above"
    assert in_measures_of(planned(cottage_pie=1), hot) == hot
