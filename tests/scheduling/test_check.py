"""The checker against an oracle, on schedules that were tampered with."""

from __future__ import annotations

import random
from dataclasses import replace

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from oracle import is_sound
from small_problems import small_problems

from batchcook.scheduling.check import check
from batchcook.scheduling.problem import Absence, Lag, Mode, Problem, Resource, Task
from batchcook.scheduling.schedule import Answer, Done, Schedule, WarmUp
from batchcook.scheduling.solver import solve

_SLOW = settings(
    max_examples=80,
    deadline=None,
    derandomize=True,
    suppress_health_check=[
        HealthCheck.too_slow,
        HealthCheck.data_too_large,
        HealthCheck.filter_too_much,
    ],
)


def _tampered(schedule: Schedule, rng: random.Random) -> Schedule:
    """The schedule with one thing changed."""
    tasks = dict(schedule.tasks)
    if not tasks:
        return replace(schedule, choices={})
    name = rng.choice(sorted(tasks))
    done = tasks[name]
    shift = rng.choice((-2, -1, 1, 2))
    kind = rng.randrange(8)
    if kind == 0:
        tasks[name] = replace(
            done,
            start=done.start + shift,
            work=done.work + shift,
            end=done.end + shift,
            release=done.release + shift,
        )
    elif kind == 1:
        tasks[name] = replace(done, end=done.end + shift, release=done.release + shift)
    elif kind == 2:
        tasks[name] = replace(done, follows=rng.choice([None, *sorted(tasks)]))
    elif kind == 3:
        tasks[name] = replace(done, mode=rng.choice(("m", "n")))
    elif kind == 4:
        tasks[name] = replace(done, setting=rng.choice((None, 1, 2)))
    elif kind == 5:
        units = {key: ("u", "v")[: len(given)] for key, given in done.units.items()}
        tasks[name] = replace(done, units=units)
    elif kind == 6:
        return replace(schedule, warm_ups=schedule.warm_ups[1:])
    elif kind == 7:
        del tasks[name]
    return replace(schedule, tasks=tasks)


@_SLOW
@given(small_problems(), st.integers(0, 10_000))
def test_a_tampered_schedule_is_rejected_exactly_when_an_oracle_finds_a_breach(
    problem: Problem, seed: int
) -> None:
    outcome = solve(problem, seconds=20, workers=2)
    assume(outcome.answer is Answer.PLAN)
    assert outcome.schedule is not None
    rng = random.Random(seed)  # noqa: S311 - variety, not secrecy
    for _ in range(12):
        changed = _tampered(outcome.schedule, rng)
        assert (check(problem, changed) == []) == is_sound(problem, changed)


def _one(**changes: object) -> Problem:
    task = Task("t", (Mode("m", 3, {"r": 1}),))
    problem = Problem(resources={"r": Resource("r", 1)}, tasks={"t": task}, horizon=10)
    return replace(problem, **changes)  # type: ignore[arg-type]  # fields are named by the tests


def _messages(problem: Problem, schedule: Schedule) -> str:
    return "; ".join(str(breach) for breach in check(problem, schedule))


def test_an_unknown_task_is_named() -> None:
    schedule = Schedule({"other": Done(0, 0, 3, 3, "m")})
    assert _messages(_one(), schedule) == "other is no task of the problem"


def test_a_task_left_out_is_named() -> None:
    assert _messages(_one(), Schedule({})) == "t is due but not done"


def test_a_lag_missed_by_a_minute_is_told_with_its_minutes() -> None:
    tasks = {name: Task(name, (Mode("m", 3),)) for name in ("a", "b")}
    problem = _one(tasks=tasks, lags=(Lag("a", "end", "b", "start", 0, 2),))
    good = {"a": Done(0, 0, 3, 3, "m"), "b": Done(5, 5, 8, 8, "m")}
    assert check(problem, Schedule(good)) == []
    late = good | {"b": Done(6, 6, 9, 9, "m")}
    assert _messages(problem, Schedule(late)) == (
        "from the end of a to the start of b are 3 min, more than 2"
    )


def test_a_minute_in_an_absence_is_too_much() -> None:
    problem = _one(resources={"r": Resource("r", 1, (Absence(3, 5, 1),))})
    assert check(problem, Schedule({"t": Done(0, 0, 3, 3, "m")})) == []
    assert check(problem, Schedule({"t": Done(5, 5, 8, 8, "m")})) == []
    assert _messages(problem, Schedule({"t": Done(1, 1, 4, 4, "m")})) == (
        "at minute 3 1 of r are in use, of 0"
    )


def test_a_setting_kept_a_minute_too_short_is_cold() -> None:
    bake = (Mode("m", 3, {"r": 1}),)
    tasks = {name: Task(name, bake, settings=(350,)) for name in ("a", "b")}
    problem = _one(resources={"r": Resource("r", 1, warm_up=2, keeps=1)}, tasks=tasks, horizon=20)
    warm_ups = (WarmUp("r", 0, 2, 350, "a"),)
    first = Done(2, 2, 5, 5, "m", setting=350)
    kept = {"a": first, "b": Done(6, 6, 9, 9, "m", setting=350)}
    cold = {"a": first, "b": Done(7, 7, 10, 10, "m", setting=350)}
    assert check(problem, Schedule(kept, warm_ups=warm_ups)) == []
    assert _messages(problem, Schedule(cold, warm_ups=warm_ups)) == "r is not warm for b"
