"""From a prep day to its plan."""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import replace
from pathlib import Path
from unittest import mock

import pytest
from plan_oracle import breaches
from planned_days import day_of, planned, starter

from batchcook import planning
from batchcook.complaints import InputFault
from batchcook.day.prepday import PrepDay, load_prep_day
from batchcook.day.solving import Effort, NoAnswer, NoPlan
from batchcook.kitchens.kitchen import Away
from batchcook.plan import read_plan, write_plan
from batchcook.planning import plan_day
from batchcook.withheld import Withheld

SAMPLE = Path(__file__).parent.parent / "recipes" / "sample-prep-day.toml"
SMALL = {"lemon_herb_chicken_kit": 1, "squash_red_lentil_soup": 1}


def _plan(day: PrepDay, seconds: float = 8) -> str:
    return write_plan(plan_day(day, starter(), Effort(seconds)))


def test_the_sample_day_has_a_sound_plan() -> None:
    with mock.patch.object(planning, "one_after_another", return_value=0):
        made = plan_day(load_prep_day(SAMPLE), starter(), Effort(10))
    assert breaches(json.loads(write_plan(made))) == []
    assert len(made.dishes) == 5
    assert any(len({bowl.dish for bowl in run.bowls}) > 2 for run in made.shared)
    assert made.summary.sharing_saved_minutes > 0


def test_the_same_day_has_the_same_plan_where_it_is_proved() -> None:
    first, second = _plan(day_of(**SMALL)), _plan(day_of(**SMALL))
    assert json.loads(first)["summary"]["proved_shortest"]
    assert json.loads(first)["summary"]["hands_on_proved"]
    assert first == second


def test_a_plan_is_read_back_as_it_was_written(tmp_path: Path) -> None:
    plan = planned(**SMALL)
    (tmp_path / "plan.json").write_text(write_plan(plan), "utf-8")
    assert read_plan(tmp_path) == plan


def test_one_dish_alone_takes_as_long_as_one_after_another() -> None:
    summary = plan_day(day_of(lemon_herb_chicken_kit=1), starter(), Effort(8)).summary
    assert summary.proved_shortest
    assert summary.one_after_another_minutes == summary.makespan_minutes


def test_it_does_so_too_where_all_is_planned_with_time_to_spare() -> None:
    plain = plan_day(day_of(lemon_herb_chicken_kit=1), starter(), Effort(8)).summary
    padded = plan_day(replace(day_of(lemon_herb_chicken_kit=1), pad=50), starter(), Effort(8))
    summary = padded.summary
    assert summary.one_after_another_minutes == summary.makespan_minutes > plain.makespan_minutes


def test_two_dishes_together_are_done_sooner_than_one_after_another() -> None:
    summary = plan_day(day_of(**SMALL), starter(), Effort(8)).summary
    assert summary.one_after_another_minutes is not None
    assert summary.makespan_minutes < summary.one_after_another_minutes


def test_a_second_cook_shortens_the_day_and_never_lengthens_it() -> None:
    day = day_of(**SMALL)
    alone = replace(day, kitchen=replace(day.kitchen, cooks=day.kitchen.cooks[:1]))
    one, two = (json.loads(_plan(each, 40))["summary"] for each in (alone, day))
    assert one["proved_shortest"]
    assert two["proved_shortest"]
    assert two["makespan_minutes"] < one["makespan_minutes"]


def test_nobody_works_while_away() -> None:
    day = day_of(**SMALL)
    cooks = tuple(
        replace(cook, away=(Away(dt.time(8, 20), dt.time(9), "the school run"),) * (number == 0))
        for number, cook in enumerate(day.kitchen.cooks)
    )
    plan = json.loads(_plan(replace(day, kitchen=replace(day.kitchen, cooks=cooks))))
    assert breaches(plan) == []
    busy = [task for task in plan["tasks"] if task["cook"] == cooks[0].id]
    assert all(task["end"][11:] <= "08:20" or task["start"][11:] >= "09:00" for task in busy)


def test_a_day_with_only_a_finish_ends_by_it() -> None:
    day = replace(day_of(**SMALL), start=None, finish_by=dt.time(15))
    plan = json.loads(_plan(day, 2))
    assert breaches(plan) == []
    assert plan["finish"][11:] <= "15:00"


def test_a_day_too_short_for_its_dishes_has_no_plan() -> None:
    with pytest.raises(NoPlan):
        _plan(replace(day_of(cider_pulled_pork=1), finish_by=dt.time(10)))


def test_a_search_cut_short_says_that_it_does_not_know() -> None:
    orders = dict.fromkeys(sorted(set(starter()) - {"beef-mushroom-ragu"}), 1)
    with pytest.raises(NoAnswer):
        _plan(replace(day_of(), orders=orders), 0.01)


def test_every_unknown_dish_is_told_at_once() -> None:
    with pytest.raises(InputFault) as caught:
        _plan(day_of(cotage_pie=1, beef_barley_stow=1))
    assert [each.suggestion for each in caught.value.complaints] == [
        "cottage-pie",
        "beef-barley-stew",
    ]


def test_what_several_dishes_lack_is_told_at_once() -> None:
    day = day_of(cottage_pie=1, cider_pulled_pork=1)
    kitchen = replace(day.kitchen, ovens=(), slow_cookers=())
    with pytest.raises(InputFault) as caught:
        _plan(replace(day, kitchen=kitchen))
    told = str(caught.value)
    assert "no oven" in told
    assert "no slow cooker" in told


def test_a_plan_that_breaks_a_limit_is_withheld() -> None:
    broken = mock.Mock(dish="soup", food="milk", what="out too long")
    with (
        mock.patch.object(planning, "replay", return_value=(broken,)),
        pytest.raises(Withheld, match="out too long"),
    ):
        _plan(day_of(lemon_herb_chicken_kit=1))


def test_a_schedule_that_its_checker_rejects_is_withheld() -> None:
    with (
        mock.patch("batchcook.scheduling.check.check", return_value=["two at one board"]),
        pytest.raises(Withheld, match="two at one board"),
    ):
        _plan(day_of(lemon_herb_chicken_kit=1))
