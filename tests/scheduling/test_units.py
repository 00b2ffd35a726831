"""Who does what, once the times are settled."""

from __future__ import annotations

from dataclasses import replace

import pytest

from batchcook.scheduling.check import check
from batchcook.scheduling.problem import Mode, Problem, Resource, Task
from batchcook.scheduling.schedule import Done, InUse, Schedule
from batchcook.scheduling.solver import solve
from batchcook.scheduling.units import assign_units

COOKS = ("cook:first", "cook:second")
WORK = (Mode("by hand", 10, {"cooks": 1}),)


def _two_dishes() -> tuple[Problem, Schedule]:
    """Two dishes of two tasks each, side by side for two cooks who can do the same."""
    tasks = {
        f"{dish}/{step}": Task(f"{dish}/{step}", WORK, group=dish)
        for dish in ("soup", "stew")
        for step in ("cut", "stir")
    }
    times = {"cut": (0, 10), "stir": (20, 30)}
    done = {
        name: Done(start, start, end, end, "by hand")
        for name in tasks
        for start, end in (times[name.partition("/")[2]],)
    }
    problem = Problem(
        resources={"cooks": Resource("cooks", 2, units=COOKS)},
        tasks=tasks,
        horizon=100,
        hands=("cooks",),
    )
    return problem, Schedule(done)


def _cook(schedule: Schedule, task: str) -> str:
    (cook,) = schedule.tasks[task].units["cooks"]
    return cook


def test_a_dish_stays_with_its_cook() -> None:
    problem, schedule = _two_dishes()
    named, hand_overs = assign_units(problem, schedule, {})
    assert check(problem, named) == []
    assert (hand_overs.value, hand_overs.bound) == (0, 0)
    assert _cook(named, "soup/cut") == _cook(named, "soup/stir")


def test_who_was_to_do_a_task_does_it_though_that_costs_a_hand_over() -> None:
    problem, schedule = _two_dishes()
    wanted = {"soup/cut": "cook:first", "soup/stir": "cook:second", "stew/cut": "cook:second"}
    named, hand_overs = assign_units(problem, schedule, {}, wanted)
    assert check(problem, named) == []
    assert {task: _cook(named, task) for task in wanted} == wanted
    assert hand_overs.value == 2


def test_whoever_is_not_there_any_more_is_not_waited_for() -> None:
    problem, schedule = _two_dishes()
    wanted = {"soup/cut": "cook:third", "stew/cut": "cook:second"}
    named, _ = assign_units(problem, schedule, {}, wanted)
    assert check(problem, named) == []
    assert _cook(named, "stew/cut") == "cook:second"


def test_what_is_as_good_at_any_time_stays_where_it_was_in_a_schedule_in_use() -> None:
    problem, _ = _two_dishes()
    simmer = Task("simmer", (Mode("by itself", 90),))
    problem = replace(problem, tasks={**problem.tasks, "simmer": simmer})
    starts = {"soup/cut": 35, "soup/stir": 61, "stew/cut": 47, "stew/stir": 35, "gone": 5}
    units = {"soup/cut": COOKS[1], "stew/stir": COOKS[0]}
    outcome = solve(problem, seconds=5, in_use=InUse(starts, units))
    assert outcome.schedule is not None
    assert check(problem, outcome.schedule) == []
    done = outcome.schedule.tasks
    assert {name: done[name].start for name in starts if name in done} == {
        name: start for name, start in starts.items() if name != "gone"
    }
    assert {task: _cook(outcome.schedule, task) for task in units} == units


def test_a_shorter_day_is_worth_moving_what_was_in_use() -> None:
    problem, _ = _two_dishes()
    outcome = solve(problem, seconds=5, in_use=InUse(dict.fromkeys(problem.tasks, 40), {}))
    assert [level.value for level in outcome.levels[:2]] == [20, 40]


@pytest.mark.parametrize("cook", COOKS)
def test_who_has_just_ended_goes_on_where_nothing_else_decides(cook: str) -> None:
    order = ("long", "short", "next")
    times = {"long": (0, 10), "short": (0, 9), "next": (10, 20)}
    tasks = {
        name: Task(name, (Mode("by hand", times[name][1] - times[name][0], {"cooks": 1}),))
        for name in order
    }
    problem = Problem({"cooks": Resource("cooks", 2, units=COOKS)}, tasks, 100, hands=("cooks",))
    done = {
        name: Done(start, start, end, end, "by hand")
        for name in order
        for start, end in (times[name],)
    }
    named, _ = assign_units(problem, Schedule(done), {}, {"long": cook})
    assert _cook(named, "next") == _cook(named, "long") == cook
