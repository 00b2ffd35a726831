"""What a lane of the live screen says: whose work it is, and how long it still takes."""

from __future__ import annotations

import datetime as dt

import pytest
from planned_days import planned

from batchcook.follow.following import Following, Lane
from batchcook.follow.words import food_lines, lane_parts
from batchcook.plan import Plan, Task
from batchcook.plans.network import network_of_plan
from batchcook.plans.progress import Mark
from batchcook.plans.takenout import done_at
from batchcook.quantities import ureg


@pytest.fixture
def plan() -> Plan:
    return planned(sausage_lentil_soup=1, salmon_potato_cakes=1)


def lane_of(plan: Plan, task: Task, now: dt.datetime) -> str:
    """The lane in which a task is under way, all before it done as planned."""
    marks = tuple(
        mark
        for each in plan.tasks
        for mark in (Mark("start", each.start, each.id), Mark("done", each.end, each.id))
        if each.start <= task.start and mark.at <= now
        if each.id != task.id or mark.kind == "start"
    )
    following = Following(plan, marks, now, network_of_plan(plan))
    lane = next(
        lane for lane in following.lanes() if any(each.task.id == task.id for each in lane.now)
    )
    return "\n".join(part.plain for part in lane_parts(following, lane, 0))


def test_work_bears_the_letter_of_its_dish_as_paper_and_containers_do(plan: Plan) -> None:
    letters = {dish.id: dish.letter for dish in plan.dishes}
    task = next(each for each in plan.tasks if each.technique == "simmer" and each.cook is None)
    (dish,) = task.dishes
    said = lane_of(plan, task, task.start + dt.timedelta(minutes=1))
    assert f"{letters[dish]} {task.title}" in said


def test_the_last_minute_is_still_a_minute(plan: Plan) -> None:
    task = next(each for each in plan.tasks if each.technique == "simmer" and each.cook is None)
    for seconds, words in ((54, "1 min left"), (0, "time is up"), (-90, "time is up, 1 min ago")):
        said = lane_of(plan, task, task.end - dt.timedelta(seconds=seconds))
        assert words in said


def test_temperatures_are_set_as_on_paper(plan: Plan) -> None:
    task = next(each for each in plan.tasks if each.cook is not None and "degF" in each.words)
    said = lane_of(plan, task, task.start + dt.timedelta(minutes=1))
    assert "degF" not in said
    assert "\u00a0°F" in said


def test_what_is_done_by_itself_says_then_what_to_do_with_it(plan: Plan) -> None:
    task = next(each for each in plan.tasks if each.technique == "simmer" and each.cook is None)
    kept = "Then on low heat, at 140\u00a0°F or above, until the next step."
    assert kept in lane_of(plan, task, task.end)
    assert kept not in lane_of(plan, task, task.start + dt.timedelta(minutes=1))


def test_a_bake_is_up_when_it_is_to_be_taken_out() -> None:
    plan = planned(turkey_meatballs=1, vegetable_egg_bake=2)
    bake = next(each for each in plan.tasks if each.id.endswith("bake/oven"))
    assert "time is up" in lane_of(plan, bake, done_at(plan, bake))
    assert "1 min left" in lane_of(plan, bake, done_at(plan, bake) - dt.timedelta(minutes=1))


def test_how_many_batches_is_no_amount(plan: Plan) -> None:
    task = next(
        each for each in plan.tasks if each.cook and set(each.dishes.values()) == {"1 batch"}
    )
    bare = task.model_copy(update={"amounts": ()})
    day = plan.model_copy(
        update={"tasks": tuple(bare if each is task else each for each in plan.tasks)}
    )
    assert "batch" not in lane_of(day, bare, task.start + dt.timedelta(minutes=1))


def test_long_spans_are_hours_and_minutes(plan: Plan) -> None:
    task = next(each for each in plan.tasks if each.technique == "simmer" and each.cook is None)
    longer = Mark("late", task.start, task.id, minutes=120)
    left = round((task.end - task.start).total_seconds() / 60) + 120
    following = Following(plan, (Mark("start", task.start, task.id), longer), task.start)
    lane = Lane(None, "By itself", (following.timed(task.id),), ())
    (said,) = (part.plain for part in lane_parts(following, lane, 0))
    assert left > 60
    assert f"{left // 60} h {left % 60:02} min left" in said


def test_once_all_is_done_the_evening_and_the_days_after_are_told(plan: Plan) -> None:
    plan = plan.model_copy(update={"tonight": "Tonight: keep 2 portions, warmed to 165 degF."})
    marks = [
        mark
        for each in plan.tasks
        for mark in (Mark("start", each.start, each.id), Mark("done", each.end, each.id))
    ]
    room = ureg.Quantity(72, "degF")
    at_work = food_lines(Following(plan, [], plan.start), room).plain
    assert at_work == "No food is out."
    over = food_lines(Following(plan, marks, plan.finish), room).plain
    assert "Tonight: keep 2 portions, warmed to 165\u00a0°F." in over
    assert plan.morning_after[-1] in over
