"""What the live screen warns of: only what matters to the cook, and always with what to do."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

import pytest
from planned_days import planned

from batchcook.follow.following import Following
from batchcook.follow.worries import worries
from batchcook.plan import Absence, Plan
from batchcook.plans.network import minute_of, network_of_plan
from batchcook.plans.progress import Mark
from batchcook.quantities import ureg

ROOM = ureg.Quantity(72, "degF")


@pytest.fixture(scope="module")
def plan() -> Plan:
    return planned(sausage_lentil_soup=1, salmon_potato_cakes=1)


@pytest.fixture(scope="module")
def curry() -> Plan:
    return planned(chicken_coconut_curry=1)


def gone(plan: Plan, at: dt.datetime, but: Iterable[str] = ()) -> list[Mark]:
    """All marked to the minute, but for some tasks that were begun and never marked done."""
    marks = [Mark("start", task.start, task.id) for task in plan.tasks if task.start < at]
    marks += [
        Mark("done", task.end, task.id)
        for task in plan.tasks
        if task.end <= at and task.id not in but
    ]
    return marks


def told(plan: Plan, at: dt.datetime, marks: Iterable[Mark]) -> str:
    return worries(Following(plan, marks, at), ROOM).plain


def task_of(plan: Plan, part: str) -> str:
    return next(task.id for task in plan.tasks if task.id.endswith(part))


def test_a_day_that_goes_as_planned_warns_of_nothing(plan: Plan, curry: Plan) -> None:
    for day in (plan, curry):
        for minutes in range(0, minute_of(day, day.finish), 7):
            at = day.start + dt.timedelta(minutes=minutes)
            assert told(day, at, gone(day, at)) == ""


def test_what_begins_by_itself_is_never_late(curry: Plan) -> None:
    """A pot simmers from when it is filled; that the screen sees it minutes later is no fault."""
    network = network_of_plan(curry)
    assert any(limit.told for limit in network.limits)
    assert all(limit.reason for limit in network.limits if limit.told)
    fill = next(task for task in curry.tasks if task.id.endswith("simmer/add"))
    simmer = task_of(curry, "/simmer")
    at = fill.end + dt.timedelta(minutes=3)
    marks = [each for each in gone(curry, at) if each.task != simmer]
    assert told(curry, at, [*marks, Mark("start", at, simmer)]) == ""


def test_every_limit_of_a_plan_that_a_cook_can_be_late_for_says_why(
    plan: Plan, curry: Plan
) -> None:
    judged = 0
    for day in (plan, curry):
        cooks = {task.id: task.cook for task in day.tasks}
        for lag in day.lags:
            together = lag.min_minutes == lag.max_minutes == 0 and lag.from_ == lag.to == "start"
            if lag.max_minutes is not None and cooks[lag.after] is not None and not together:
                judged += 1
                assert lag.reason, (lag.before, lag.after)
    assert judged


def test_a_pot_that_waits_too_long_is_told_once_it_waits(curry: Plan) -> None:
    simmer = next(task for task in curry.tasks if task.id.endswith("/simmer"))
    season = next(task for task in curry.tasks if task.id.endswith("/season"))
    late = season.start + dt.timedelta(minutes=60)
    marks = [each for each in gone(curry, season.start) if each.at < season.start]
    marks += [Mark("done", simmer.end, simmer.id)]
    words = told(curry, late, marks)
    assert season.title in words
    assert f"{simmer.title}: ready, it keeps so long" in words
    assert f"by {simmer.end + dt.timedelta(minutes=40):%H:%M}" in words
    before = simmer.end - dt.timedelta(minutes=5)
    assert season.title not in told(curry, before, gone(curry, before))


def test_food_that_will_be_out_too_long_is_told_with_what_to_do(plan: Plan) -> None:
    portion = next(
        task
        for task in plan.tasks
        if task.technique == "portion" and "sausage-lentil-soup" in task.dishes
    )
    marks = [
        *gone(plan, portion.start),
        Mark("start", portion.start, portion.id),
        Mark("late", portion.start, portion.id, minutes=120),
    ]
    words = told(plan, portion.start + dt.timedelta(minutes=1), marks)
    assert "Sausage and lentil soup" in words
    assert "out too long from" in words
    assert "refrigerator" in words
    assert "140\u00a0°F" in words
    metric = plan.model_copy(update={"system": "metric"})
    assert "60\u00a0°C" in told(metric, portion.start + dt.timedelta(minutes=1), marks)


def test_food_that_was_out_too_long_is_thrown_out_though_it_is_packed(plan: Plan) -> None:
    portion = next(
        task
        for task in plan.tasks
        if task.technique == "portion" and "sausage-lentil-soup" in task.dishes
    )
    packed = portion.start + dt.timedelta(minutes=150)
    marks = [
        *gone(plan, portion.start),
        Mark("start", portion.start, portion.id),
        Mark("done", packed, portion.id),
    ]
    words = told(plan, packed + dt.timedelta(minutes=5), marks)
    assert "Sausage and lentil soup" in words
    assert "throw it out" in words


def test_scheduling_words_do_not_reach_the_cook(plan: Plan) -> None:
    """Every alarm of many disturbed minutes, read for words of the trade of scheduling."""
    words = ""
    for minutes in range(5, minute_of(plan, plan.finish), 25):
        at = plan.start + dt.timedelta(minutes=minutes)
        words += told(plan, at + dt.timedelta(minutes=70), gone(plan, at))
    assert words
    for word in ("lag", "makespan", "budget", "resource", "cook:", "network", "simulat"):
        assert word not in words.lower()


def test_a_cook_needed_while_away_is_called_by_name(plan: Plan) -> None:
    cook = plan.cooks[0]
    last = max((task for task in plan.tasks if task.cook == cook.id), key=lambda task: task.end)
    away = Absence.model_validate(
        {"from": last.end, "to": last.end + dt.timedelta(hours=1), "amount": 1}
    )
    resources = tuple(
        each.model_copy(update={"away": (away,)}) if each.id == f"cook:{cook.id}" else each
        for each in plan.resources
    )
    begun = [
        *gone(plan, last.start),
        Mark("start", last.start, last.id),
        Mark("late", last.start, last.id, minutes=30),
    ]
    words = told(
        plan.model_copy(update={"resources": resources}),
        last.start + dt.timedelta(minutes=1),
        begun,
    )
    assert f"{last.end:%H:%M}: {last.title} needs {cook.name}, away then" in words


def test_a_bake_that_needs_longer_is_taken_out_later_and_nobody_is_late() -> None:
    plan = planned(cottage_pie=1)
    bake = next(task for task in plan.tasks if task.id.endswith("bake/oven"))
    out = next(task for task in plan.tasks if task.id.endswith("bake/out"))
    at = bake.start + dt.timedelta(minutes=5)
    marks = [*gone(plan, at), Mark("late", at, bake.id, minutes=15)]
    following = Following(plan, marks, at)
    assert following.timed(out.id).start >= out.start + dt.timedelta(minutes=14)
    assert following.timed(out.id).end <= following.timed(bake.id).end
    assert out.title not in told(plan, at, marks)


def test_a_bake_that_is_done_and_left_in_the_oven_is_told() -> None:
    plan = planned(cottage_pie=1)
    out = next(task for task in plan.tasks if task.id.endswith("bake/out"))
    at = out.start + dt.timedelta(minutes=10)
    marks = [each for each in gone(plan, out.start) if each.task != out.id]
    words = told(plan, at, marks)
    assert f"{out.title}: by {out.start + dt.timedelta(minutes=1):%H:%M}" in words
    assert "it is done, and dries out in the oven" in words
