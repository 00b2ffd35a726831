"""The rest of a day planned anew: the past stays, what runs goes on, food keeps its clock."""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import replace
from functools import cache
from unittest import mock

import pytest
from plan_oracle import breaches
from planned_days import day_of, planned, starter

from batchcook import planning
from batchcook.complaints import InputFault
from batchcook.day.solving import Effort
from batchcook.day.tonight import Tonight
from batchcook.documents.columns import columns
from batchcook.documents.dishkeys import dish_keys
from batchcook.documents.kitchenscreen import screen_day
from batchcook.plan import Plan, Task, WhatIf, write_plan
from batchcook.planning import plan_day
from batchcook.plans.progress import DayState
from batchcook.replan.daysofar import as_planned, but_for, so_far
from batchcook.replan.replanning import Drift, NoContinuation, replan

EFFORT = Effort(8.0)
BRIEF = Effort(3.0)
LIMIT = 120


def day() -> Plan:
    return planned(sausage_lentil_soup=1, salmon_potato_cakes=1)


def when(plan: Plan, clock: str) -> dt.datetime:
    return dt.datetime.combine(plan.date, dt.time.fromisoformat(clock))


def middle(plan: Plan) -> dt.datetime:
    """An hour and a half in."""
    return plan.start + dt.timedelta(minutes=90)


def by_id(plan: Plan) -> dict[str, Task]:
    return {task.id: task for task in plan.tasks}


def sound(plan: Plan) -> list[str]:
    return breaches(json.loads(write_plan(plan)), LIMIT)


def test_a_day_on_time_goes_on_as_it_was_planned() -> None:
    plan = day()
    after = replan(plan, Drift(middle(plan)), EFFORT)
    assert after.finish == plan.finish
    assert after.replanned is not None
    assert after.replanned.changes == ()
    assert {t.id: (t.start, t.end) for t in after.tasks} == {
        t.id: (t.start, t.end) for t in plan.tasks
    }
    assert sound(after) == []


def test_what_is_done_stays_done_and_what_runs_keeps_running() -> None:
    plan = day()
    at = middle(plan)
    after = by_id(replan(plan, Drift(at, drop=("salmon-potato-cakes",)), EFFORT))
    over = [task for task in plan.tasks if task.end <= at]
    running = [
        task for task in plan.tasks if task.start < at < task.end and "salmon" not in task.id
    ]
    assert over
    for task in over + running:
        assert (after[task.id].start, after[task.id].end) == (task.start, task.end)


def test_nothing_that_is_open_begins_in_the_past() -> None:
    plan = day()
    at = middle(plan)
    late = replan(plan, Drift(at, DayState()), EFFORT)
    assert all(task.start >= at for task in late.tasks)
    assert late.finish - at >= plan.finish - plan.start - dt.timedelta(minutes=1)
    assert sound(late) == []


def test_a_task_that_takes_longer_is_waited_for() -> None:
    plan = day()
    simmer = by_id(plan)["sausage-lentil-soup/simmer"]
    at = simmer.start + dt.timedelta(minutes=5)
    state = as_planned(plan, at)
    after = replan(plan, Drift(at, replace(state, late={simmer.id: 25})), EFFORT)
    moved = by_id(after)
    assert moved[simmer.id].start == simmer.start
    assert moved[simmer.id].end == simmer.end + dt.timedelta(minutes=25)
    season = moved["sausage-lentil-soup/season"]
    assert season.start >= moved[simmer.id].end
    assert "Changed: " in season.words
    assert sound(after) == []


def test_a_cook_who_leaves_does_nothing_more() -> None:
    plan = day()
    at = next(
        task.end
        for task in plan.tasks
        if task.cook == "second-cook" and task.end >= plan.start + dt.timedelta(minutes=30)
    )
    after = replan(plan, Drift(at, cooks=("second-cook",)), EFFORT)
    assert not [t.id for t in after.tasks if t.cook == "second-cook" and t.end > at]
    assert after.finish >= plan.finish
    again = replan(after, Drift(at + dt.timedelta(minutes=20)), EFFORT)
    assert not [t.id for t in again.tasks if t.cook == "second-cook" and t.end > at]
    assert sound(after) == []
    assert sound(again) == []


def test_what_would_have_helped_the_whole_day_is_not_told_of_its_rest() -> None:
    helps = (WhatIf(change="one more burner", minutes=-5, proved=True),)
    plan = day().model_copy(update={"what_if": helps})
    assert replan(plan, Drift(middle(plan)), EFFORT).what_if == ()


def test_a_change_names_the_dishes_it_is_of() -> None:
    plan = day()
    after = replan(plan, Drift(middle(plan), cooks=("second-cook",)), EFFORT)
    assert after.replanned is not None
    tasks = by_id(plan) | by_id(after)
    assert any(each.dishes for each in after.replanned.changes)
    assert all(each.dishes == tuple(tasks[each.task].dishes) for each in after.replanned.changes)


def test_what_a_cook_who_leaves_is_clearing_up_is_cleared_up_by_another() -> None:
    plan = day()
    washing = next(
        task
        for task in plan.tasks
        if task.technique == "clean-down"
        and task.cook == "second-cook"
        and task.end - task.start > dt.timedelta(minutes=1)
    )
    at = washing.start + dt.timedelta(minutes=1)
    after = replan(plan, Drift(at, cooks=("second-cook",)), EFFORT)
    assert not [t.id for t in after.tasks if t.cook == "second-cook" and t.end > at]
    assert by_id(after)[washing.id].cook == "first-cook"
    assert by_id(after)[washing.id].start >= at
    assert sound(after) == []


def test_a_dropped_dish_is_gone_but_for_washing_up() -> None:
    plan = day()
    after = replan(plan, Drift(middle(plan), drop=("sausage-lentil-soup",)), EFFORT)
    to_come = [t.id for t in after.tasks if t.end > middle(plan) and "sausage" in t.id]
    assert to_come == ["sausage-lentil-soup/put-away"]
    assert [dish.id for dish in after.dishes] == ["salmon-potato-cakes"]
    assert {each.dish for each in after.containers} == {"salmon-potato-cakes"}
    assert sound(after) == []


def test_letters_on_labels_already_printed_keep_meaning_the_same_dish() -> None:
    plan = day()
    after = replan(plan, Drift(middle(plan), drop=("sausage-lentil-soup",)), EFFORT)
    before, now = dish_keys(plan.dishes), dish_keys(after.dishes)
    assert [key.letter for key in before.values()] == ["A", "B"]
    assert now["salmon-potato-cakes"] == before["salmon-potato-cakes"]
    assert now["salmon-potato-cakes"].letter == "B"
    cakes = [each for each in plan.containers if each.dish == "salmon-potato-cakes"]
    assert [each.code for each in after.containers] == [each.code for each in cakes]
    assert {each.code[0] for each in cakes} == {"B"}


def test_food_of_a_dropped_dish_is_watched_no_more() -> None:
    plan = day()
    after = replan(plan, Drift(middle(plan), drop=("sausage-lentil-soup",)), EFFORT)
    assert {each.dish for each in plan.budgets} == {dish.id for dish in plan.dishes}
    assert {each.dish for each in after.budgets} == {"salmon-potato-cakes"}


def test_a_day_planned_anew_says_how_sure_its_finish_is_from_there_on() -> None:
    plan = day()
    after = replan(plan, Drift(middle(plan)), EFFORT)
    assert plan.sure is not None
    assert after.sure is not None
    spread = after.sure.nine_of_ten - after.sure.half
    assert after.sure.half >= after.finish
    assert spread <= plan.sure.nine_of_ten - plan.sure.half


def test_the_kitchen_screen_of_a_day_planned_anew_holds_all_of_it() -> None:
    plan, at = day(), middle(day())
    after = replan(plan, Drift(at), EFFORT)
    shown = screen_day(after)
    ids = [task["id"] for task in shown["tasks"]]
    assert set(ids) == {task.id for task in after.tasks}
    over = {ids[place] for place, _, end in shown["past"] if end is not None}
    assert over == {task.id for task in after.tasks if task.start < at and task.end <= at}
    assert shown["since"] == (at - after.start).total_seconds() / 60


def test_when_no_burner_is_left_it_says_what_to_do_with_hot_food() -> None:
    plan = day()
    simmer = by_id(plan)["sausage-lentil-soup/simmer"]
    at = simmer.start + dt.timedelta(minutes=10)
    burners = next(each.capacity for each in plan.resources if each.id == "burner")
    with pytest.raises(NoContinuation) as told:
        replan(plan, Drift(at, without={"burner": burners}), EFFORT)
    assert any("burner" in words for words in told.value.why)
    assert any(
        words.startswith("Sausage and lentil soup") and "140 degF" in words
        for words in told.value.what_to_do
    )


def test_food_out_too_long_is_named_and_thrown_out() -> None:
    plan = day()
    at = middle(plan) + dt.timedelta(hours=3)
    off = next(e for e in plan.events if e.event == "off-heat" and "cook-the-sausage" in e.task)
    state = DayState(started={off.task: plan.start}, ended={off.task: plan.start})
    with pytest.raises(NoContinuation) as told:
        replan(plan, Drift(at, state), EFFORT)
    why = " ".join(told.value.why)
    assert "italian sausage" in why
    assert "more than 120 min" in why
    assert any("throw it out" in words for words in told.value.what_to_do)


def test_what_comes_before_something_done_is_done_too() -> None:
    plan = day()
    at = middle(plan)
    fill = "sausage-lentil-soup/simmer/add"
    far = so_far(plan, DayState(ended={fill: at}), at)
    assert "sausage-lentil-soup/cut/onion" in far.implied
    assert all(far.stands[name].over for name in far.implied)


def test_what_comes_after_a_late_task_has_not_begun() -> None:
    plan = day()
    at = plan.finish
    late = DayState(started={"sausage-lentil-soup/simmer": at})
    state = but_for(plan, as_planned(plan, at), late)
    assert "sausage-lentil-soup/season" not in state.started
    assert "salmon-potato-cakes/portion" in state.ended
    assert "sausage-lentil-soup/simmer" not in state.ended


def test_everything_unknown_is_told_at_once() -> None:
    plan = day()
    with pytest.raises(InputFault) as told:
        replan(
            plan,
            Drift(when(plan, "09:00"), without={"moon": 1}, cooks=("nobody",), drop=("pizza",)),
            EFFORT,
        )
    assert len(told.value.complaints) == 3


def test_a_plan_without_its_order_is_refused() -> None:
    plan = day().model_copy(update={"order": None})
    with pytest.raises(InputFault, match="made from"):
        replan(plan, Drift(when(plan, "09:00")), EFFORT)


def _pans(plan: Plan) -> list[tuple[str, str]]:
    return [
        (each.from_task, each.to_task)
        for each in plan.occupancies
        if each.resource.startswith("sheet-pan")
    ]


def test_pans_that_are_lost_are_done_without_or_it_is_said_that_they_are_missing() -> None:
    plan = planned(turkey_meatballs=2, salmon_potato_cakes=1)
    sheets = "sheet-pan:13x18 inch"
    at = plan.start + dt.timedelta(minutes=30)
    after = replan(plan, Drift(at, without={sheets: 2}), EFFORT)
    assert sound(after) == []
    (kept,) = (each for each in after.resources if each.id == sheets)
    assert [away.amount for away in kept.away] == [2]
    assert len(_pans(after)) == 2
    with pytest.raises(NoContinuation) as caught:
        replan(plan, Drift(at, without={sheets: 4}), EFFORT)
    assert "sheet pan of 13x18 inch" in str(caught.value)


def test_the_pans_of_a_dropped_dish_are_free_when_it_is_put_away() -> None:
    plan = planned(turkey_meatballs=2, salmon_potato_cakes=1)
    shaped = by_id(plan)["salmon-potato-cakes/shape"]
    drift = Drift(shaped.end, drop=("salmon-potato-cakes",))
    after = replan(plan, drift, EFFORT)
    assert sound(after) == []
    assert ("salmon-potato-cakes/shape", "salmon-potato-cakes/put-away") in _pans(after)


def test_who_was_to_do_a_task_goes_on_to_where_the_times_allow_it() -> None:
    # Of cooks who can do the same, any one could be named; what hangs on the cupboard decides.
    plan = day()
    early = plan.start + dt.timedelta(minutes=20)
    after = replan(plan, Drift(early, without={"burner": 3}), EFFORT)
    assert after.replanned is not None
    assert after.replanned.changes
    old = by_id(plan)
    for task in after.tasks:
        before = old.get(task.id)
        # Whoever did a part cleans up after it.
        whole = task.run is None and not task.id.endswith("/clean-down")
        if before is None or before.cook == task.cook or not whole:
            continue
        beside = [
            other
            for other in after.tasks
            if other.cook == before.cook and other.start < task.end and task.start < other.end
        ]
        assert beside, f"{task.id} went from {before.cook}, who is free, to {task.cook}"


def test_when_a_dish_goes_into_the_freezer_is_told_once_however_often_the_day_is_replanned() -> (
    None
):
    plan = day()
    packed = next(task for task in plan.tasks if task.technique == "portion")
    once = replan(plan, Drift(packed.start + dt.timedelta(minutes=1)), EFFORT)
    twice = replan(once, Drift(packed.start + dt.timedelta(minutes=2)), EFFORT)
    told = [task.words.count("To the freezer") for task in twice.tasks]
    assert max(told) == 1


def test_a_run_that_changed_is_read_without_saying_anything_twice() -> None:
    plan = planned(chicken_coconut_curry=2)
    after = replan(plan, Drift(plan.start, without={"burner": 2}), EFFORT)
    entries = [entry for column in columns(after) for entry in column.entries]
    assert any("Changed:" in entry.words for entry in entries)
    for entry in entries:
        sentences = entry.words.split(". ")
        assert len(sentences) == len(set(sentences)), entry.words


@cache
def with_dinner_at(clock: str) -> Plan:
    """A day from eight with a dinner out of its soup."""
    tonight = Tonight("sausage-lentil-soup", 3, dt.time.fromisoformat(clock))
    order = replace(day_of(sausage_lentil_soup=1), tonight=tonight)
    with mock.patch.object(planning, "one_after_another", return_value=0):
        return plan_day(order, starter(), BRIEF)


@pytest.mark.parametrize("late", [1, 25])
def test_a_dinner_that_cannot_be_in_time_is_late_and_not_refused(late: int) -> None:
    plan = with_dinner_at("10:30")
    (plate,) = [task for task in plan.tasks if task.technique == "plate"]
    at = plate.start + dt.timedelta(minutes=late)
    before = plate.start - dt.timedelta(minutes=1)
    assert plan.replanned is None
    after = replan(plan, Drift(at, as_planned(plan, before)), BRIEF)
    moved = by_id(after)[plate.id]
    assert at <= moved.start <= at + dt.timedelta(minutes=10)
    assert after.replanned is not None
    over = int((moved.end - plate.end).total_seconds() // 60)
    assert f"Plate 3 portions for dinner at 10:30: {over} min late." in after.replanned.notes
    # What is eaten tonight is in no container, which that oracle does not know.
    assert [each for each in sound(after) if not each.startswith("containers: ")] == []


def test_a_dinner_that_can_be_in_time_is_not_moved() -> None:
    plan = with_dinner_at("10:30")
    (plate,) = [task for task in plan.tasks if task.technique == "plate"]
    after = replan(plan, Drift(plate.start - dt.timedelta(minutes=20)), BRIEF)
    assert by_id(after)[plate.id].end == plate.end


def test_a_dead_oven_takes_nothing_more_however_it_is_counted() -> None:
    plan = planned(cottage_pie=1, sausage_lentil_soup=1)
    (bake,) = [task for task in plan.tasks if task.technique == "bake" and task.cook is None]
    (turned,) = [task for task in plan.tasks if task.technique == "preheat"]
    early = turned.start - dt.timedelta(minutes=10)
    with pytest.raises(NoContinuation, match="oven") as refused:
        replan(plan, Drift(early, without={"oven": 1}), BRIEF)
    assert refused.value.without == ("cottage-pie",)
    after = replan(plan, Drift(early, without={"oven": 1}, drop=("cottage-pie",)), BRIEF)
    assert bake.id not in by_id(after)
    assert after.replanned is not None
    assert "From now on without the oven." in after.replanned.notes


@pytest.mark.parametrize("late", [0, 5])
def test_an_oven_that_is_hot_is_not_turned_on_again(late: int) -> None:
    """Two dishes one after the other in an oven of one shelf, the second a little late."""
    order = day_of(vegetable_egg_bake=2, spinach_ricotta_shells=1)
    (oven,) = order.kitchen.ovens
    order = replace(order, kitchen=replace(order.kitchen, ovens=(replace(oven, shelves=1),)))
    with mock.patch.object(planning, "one_after_another", return_value=0):
        plan = plan_day(order, starter(), BRIEF)
    (heated,) = [task.id for task in plan.tasks if task.technique == "preheat"]
    first, second = [
        task for task in plan.tasks if "oven" in task.uses and task.technique != "preheat"
    ]
    assert first.end == second.start
    at = first.end + dt.timedelta(minutes=late)
    state = as_planned(plan, at)
    if late:
        into = by_id(plan)["spinach-ricotta-shells/part-bake/in"]
        state = as_planned(plan, into.start)
        state = replace(state, ended={**state.ended, first.id: first.end})
    after = replan(plan, Drift(at, state), BRIEF)
    assert [task.id for task in after.tasks if task.technique == "preheat"] == [heated]
    # Into it goes what is late, which takes a few minutes.
    assert by_id(after)[second.id].start - at <= dt.timedelta(minutes=late)
    assert sound(after) == []
