"""The prep day in a calendar."""

from __future__ import annotations

import datetime as dt
import itertools
from pathlib import Path
from typing import Any

import pytest
from icalendar import Calendar, Event

from batchcook.plan import Plan, read_plan
from batchcook.plans.milestones import milestones, prep_day_ics

SAMPLE = Path(__file__).parents[2] / "output_samples" / "prep-day"


@pytest.fixture(scope="module")
def plan() -> Plan:
    return read_plan(SAMPLE)


def entries(content: bytes) -> list[Event]:
    return [each for each in Calendar.from_ical(content).walk("VEVENT") if isinstance(each, Event)]


def test_the_file_is_a_calendar_that_another_reads_without_a_fault(plan: Plan) -> None:
    content = prep_day_ics(plan)
    calendar = Calendar.from_ical(content)
    assert str(calendar["version"]) == "2.0"
    assert calendar["prodid"]
    assert len(entries(content)) == len(milestones(plan))
    assert not [each.errors for each in calendar.walk() if each.errors]
    assert b"\r\n" in content
    assert b"\n" not in content.replace(b"\r\n", b"")
    assert max(len(line) for line in content.split(b"\r\n")) <= 75


def test_every_entry_has_an_alarm_with_a_description(plan: Plan) -> None:
    told = entries(prep_day_ics(plan))
    assert told
    for entry in told:
        [alarm] = entry.walk("VALARM")
        assert alarm["action"] == "DISPLAY"
        assert alarm["description"]
        assert alarm.decoded("trigger") <= dt.timedelta(0)


def test_times_are_wall_clock_times_without_a_zone(plan: Plan) -> None:
    for entry, milestone in zip(entries(prep_day_ics(plan)), milestones(plan), strict=True):
        start: Any = entry.decoded("dtstart")
        assert start == milestone.at
        assert start.tzinfo is None


def test_the_stamp_comes_from_the_date_and_the_bytes_are_always_the_same(plan: Plan) -> None:
    content = prep_day_ics(plan)
    assert content == prep_day_ics(plan)
    midnight = dt.datetime.combine(plan.date, dt.time(0), dt.UTC)
    assert {entry.decoded("dtstamp") for entry in entries(content)} == {midnight}


def test_uids_are_unique_and_stay_when_the_day_moves(plan: Plan) -> None:
    hour = dt.timedelta(hours=1)
    later = plan.model_copy(
        update={
            "start": plan.start + hour,
            "finish": plan.finish + hour,
            "tasks": tuple(
                task.model_copy(update={"start": task.start + hour, "end": task.end + hour})
                for task in plan.tasks
            ),
        }
    )
    uids = [str(entry["uid"]) for entry in entries(prep_day_ics(plan))]
    assert len(uids) == len(set(uids))
    assert set(uids) == {str(entry["uid"]) for entry in entries(prep_day_ics(later))}


def test_frozen_meat_is_called_up_a_day_for_each_four_pounds_before_the_evening_before(
    plan: Plan,
) -> None:
    # USDA FSIS, The Big Thaw: 24 hours for each 4 to 5 lb.
    meat = [line for line in plan.shopping if line.section == "meat and fish"]
    pounds = [6804 if line is meat[0] else 900 for line in meat]
    heavy = {id(line): grams for line, grams in zip(meat, pounds, strict=True)}
    lines = tuple(
        line.model_copy(update={"grams": heavy[id(line)]}) if id(line) in heavy else line
        for line in plan.shopping
    )
    found = {each.name: each for each in milestones(plan.model_copy(update={"shopping": lines}))}
    evening = dt.datetime.combine(plan.date, dt.time(18)) - dt.timedelta(days=1)
    assert found["thaw"].at == evening - dt.timedelta(days=1)
    assert "24 hours for each 4 lb in one pack" in found["thaw"].words
    large = found[f"thaw/{meat[0].food}"]
    assert large.at == evening - dt.timedelta(days=4)
    assert f"15 lb {meat[0].food}" in large.title
    assert len([name for name in found if name.startswith("thaw")]) == 2
    without = tuple(line for line in plan.shopping if line.section != "meat and fish")
    vegetables = milestones(plan.model_copy(update={"shopping": without}))
    assert not [each for each in vegetables if each.name.startswith("thaw")]


def test_the_day_itself_spans_it_and_rings_half_an_hour_before(plan: Plan) -> None:
    [day] = [each for each in milestones(plan) if each.name == "day"]
    assert (day.at, day.until) == (plan.start, plan.finish)
    assert day.warning == dt.timedelta(minutes=30)
    assert all(dish.title in day.title for dish in plan.dishes)


def test_what_cooks_by_itself_is_called_out_when_it_is_done(plan: Plan) -> None:
    ends = {each.name: each.at for each in milestones(plan)}
    pots = [task for task in plan.tasks if task.cook is None and task.technique == "simmer"]
    assert pots
    for task in pots:
        assert ends[f"done/{task.id}"] == task.end


def test_the_oven_is_turned_on_in_time_and_each_dish_is_cold_in_time(plan: Plan) -> None:
    found = {each.name: each for each in milestones(plan)}
    heated = [task for task in plan.tasks if task.technique == "preheat"]
    assert heated
    for task in heated:
        assert found[f"on/{task.id}"].at == task.start
    cold = [each for each in plan.deadlines if each.task.endswith("/portion")]
    assert len(cold) == len(plan.dishes)
    for each in cold:
        assert found[f"cold/{each.task}"].at == each.at
        assert found[f"cold/{each.task}"].warning == dt.timedelta(minutes=15)


def test_everything_for_the_freezer_has_its_time(plan: Plan) -> None:
    found = [each for each in milestones(plan) if each.name.startswith("freeze/")]
    assert sorted(each.at for each in found) == sorted(each.at for each in plan.freezing)


def test_the_evening_before_says_what_to_get_ready(plan: Plan) -> None:
    [before] = [each for each in milestones(plan) if each.name == "day-before"]
    assert before.at.date() == plan.date - dt.timedelta(days=1)
    entry = next(e for e in entries(prep_day_ics(plan)) if "day-before" in str(e["uid"]))
    for words in plan.day_before:
        assert words.replace(" degF", " °F") in str(entry["description"])


def test_milestones_are_in_order_of_time_and_a_bare_plan_has_only_its_day(plan: Plan) -> None:
    found = milestones(plan)
    assert all(one.at <= other.at for one, other in itertools.pairwise(found))
    nothing = ("tasks", "deadlines", "freezing", "day_before", "dishes", "shopping")
    bare = plan.model_copy(update=dict.fromkeys(nothing, ()))
    assert [each.title for each in milestones(bare)] == ["Prep day"]


def test_dinner_that_is_warmed_after_the_day_has_its_alarm(plan: Plan) -> None:
    at = plan.finish + dt.timedelta(hours=3)
    words = "Tonight: keep 4 portions of soup in the refrigerator; warm them."
    kept = plan.model_copy(update={"tonight": words, "tonight_at": at})
    (dinner,) = [each for each in milestones(kept) if each.name == "dinner"]
    assert (dinner.at, dinner.words) == (at, words)
    assert not [each for each in milestones(plan) if each.name == "dinner"]
