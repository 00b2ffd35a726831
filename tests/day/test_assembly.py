"""A schedule read as a day in the kitchen."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Iterator
from dataclasses import replace
from unittest import mock

import pytest
from plan_oracle import breaches
from planned_days import day_of, planned, starter

from batchcook import planning
from batchcook.day.prepday import Busy
from batchcook.day.solving import Effort
from batchcook.day.tonight import Tonight
from batchcook.documents.runsheet import run_sheet_html
from batchcook.kitchens.kitchen import Away
from batchcook.plan import Task, write_plan
from batchcook.planning import plan_day

SHARED = {"sausage_lentil_soup": 1, "squash_red_lentil_soup": 1}


def _tasks(technique: str, **orders: int) -> Iterator[Task]:
    return (task for task in planned(**orders).tasks if task.technique == technique)


def test_tasks_are_told_in_order_of_time() -> None:
    starts = [task.start for task in planned(**SHARED).tasks]
    assert starts == sorted(starts)


def test_a_cook_is_named_and_held_and_what_cooks_by_itself_has_none() -> None:
    plan = planned(**SHARED)
    cooks = {cook.id for cook in plan.cooks}
    for task in plan.tasks:
        held = {use for use in task.uses if use.startswith("cook:")}
        assert held == ({f"cook:{task.cook}"} if task.cook else set())
        assert task.cook is None or task.cook in cooks
    assert any(task.cook is None for task in plan.tasks)


def test_a_shared_run_names_its_bowls_in_the_order_in_which_they_are_filled() -> None:
    plan = planned(**SHARED)
    several = [run for run in plan.shared if len({bowl.dish for bowl in run.bowls}) > 1]
    assert several
    for run in several:
        ready = [bowl.ready for bowl in run.bowls]
        assert ready == sorted(ready)
        assert len({bowl.name for bowl in run.bowls}) == len(run.bowls)
        assert run.minutes_saved > 0


def test_a_run_of_one_dish_saves_nothing_by_sharing() -> None:
    runs = planned(beef_barley_stew=2).shared
    assert runs
    assert {run.minutes_saved for run in runs} == {0}


def test_after_raw_meat_hands_are_washed_and_the_board_sanitized() -> None:
    raw = [task for task in _tasks("clean-down", beef_barley_stew=2) if "board:raw" in task.uses]
    assert raw
    assert all("sanitize" in task.title and "hands" in task.title for task in raw)


def test_no_board_is_washed_where_none_was_used() -> None:
    at_board = {
        "board" in task.title: any(use.startswith("board:") for use in task.uses)
        for task in _tasks("clean-down", turkey_meatballs=1)
    }
    assert at_board == {True: True, False: False}
    for task in _tasks("clean-down", turkey_meatballs=1):
        assert ("board" in task.title) == any(use.startswith("board:") for use in task.uses)


def test_an_oven_is_turned_on_before_what_is_baked_in_it() -> None:
    plan = planned(cottage_pie=1)
    (heat,) = _tasks("preheat", cottage_pie=1)
    (bake,) = plan.settings
    start = next(task.start for task in plan.tasks if task.id == bake.task)
    assert heat.end == start
    assert str(bake.degF) in heat.title
    assert heat.cook is None


def test_every_food_ends_its_day_in_the_cold() -> None:
    plan = planned(chicken_coconut_curry=1)
    foods = {event.food for event in plan.events if event.food != event.dish}
    assert len(foods) > 1
    for food in foods:
        last = [event.event for event in plan.events if event.food == food][-1]
        assert last == "refrigerated"


def test_browned_meat_stays_raw_until_it_is_cooked_through() -> None:
    events = planned(beef_barley_stew=1).events
    beef = next(event.food for event in events if event.food.startswith("beef chuck"))
    kinds = [event.kind for event in events if event.food == beef]
    assert kinds[:3] == ["raw-beef"] * 3
    assert kinds[-1] == "cooked"


def test_a_deadline_says_by_when_and_that_what_misses_it_is_thrown_out() -> None:
    plan = planned(beef_barley_stew=1)
    ends = {task.id: (task.start, task.end) for task in plan.tasks}
    assert plan.deadlines
    for each in plan.deadlines:
        assert f"{each.at:%H:%M}" in each.words
        assert "throw" in each.words
        assert each.at >= min(ends[each.task])


def test_the_times_away_of_a_cook_stand_in_the_plan() -> None:
    plan = planned(**SHARED)
    assert {each.id for each in plan.resources} >= {"cook:first-cook", "burner", "oven", "sink"}
    assert "somebody" not in {each.id for each in plan.resources}


def test_why_somebody_is_away_and_what_is_busy_is_told_on_paper() -> None:
    day = day_of(lemon_herb_chicken_kit=1)
    second = replace(day.kitchen.cooks[1], away=(Away(dt.time(8, 30), dt.time(9), "school run"),))
    kitchen = replace(day.kitchen, cooks=(day.kitchen.cooks[0], second))
    busy = (
        Busy("burner", 2, dt.time(6), dt.time(7), "breakfast"),
        Busy("burner", 2, dt.time(7, 30), dt.time(8, 15), "porridge"),
        Busy("burner", 1, dt.time(8, 20), dt.time(8, 40), "coffee"),
    )
    plan = plan_day(replace(day, kitchen=kitchen, busy=busy), starter(), Effort(8))
    told = {each.id: [away.why for away in each.away] for each in plan.resources}
    assert told["cook:second-cook"] == ["school run"]
    assert told["burner"] == ["porridge", "coffee"]
    page = run_sheet_html(plan)
    assert "school" in page
    assert "coffee" in page


@pytest.mark.parametrize("at", [dt.time(9, 40), dt.time(10, 30)])
def test_a_day_with_its_dinner_is_sound_whichever_way_it_is_served(at: dt.time) -> None:
    # Fresh from the pot or warmed again: only the limits of the way taken are told.
    day = replace(day_of(**SHARED), tonight=Tonight("squash-red-lentil-soup", 3, at))
    with mock.patch.object(planning, "one_after_another", return_value=0):
        plan = plan_day(day, starter(), Effort(8))
    (plate,) = [task for task in plan.tasks if task.technique == "plate"]
    assert plate.end.time() == at
    wrong = breaches(json.loads(write_plan(plan)))
    assert [each for each in wrong if not each.startswith("containers")] == []
