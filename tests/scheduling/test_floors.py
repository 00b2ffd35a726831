"""Bounds by refutation, and shortening by turns, against an exhaustive search."""

from __future__ import annotations

import time

from hypothesis import HealthCheck, given, settings
from oracle import best_values
from ortools.sat.python import cp_model
from small_problems import small_problems

from batchcook.scheduling.cases import Cases
from batchcook.scheduling.check import check
from batchcook.scheduling.constraints import constrain
from batchcook.scheduling.extraction import extract, shares_taken
from batchcook.scheduling.floors import least_hands, raised_floor
from batchcook.scheduling.objective import levels
from batchcook.scheduling.problem import Family, Mode, Problem, Resource, Task
from batchcook.scheduling.searching import Effort, Kind, search
from batchcook.scheduling.shortening import Shortening
from batchcook.scheduling.units import assign_units
from batchcook.scheduling.variables import Expression, Variables, declare

_SLOW = settings(
    max_examples=40,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)


def _stated(problem: Problem) -> tuple[cp_model.CpModel, Variables, Expression | None]:
    model = cp_model.CpModel()
    variables = declare(model, problem)
    constrain(model, problem, variables)
    return model, variables, dict(levels(model, problem, variables))["hands"]


def _effort(seconds: float = 20) -> Effort:
    return Effort(2, time.monotonic() + seconds)


@_SLOW
@given(small_problems())
def test_a_floor_reaches_the_shortest_day_and_never_passes_it(problem: Problem) -> None:
    best = best_values(problem)
    model, variables, _ = _stated(problem)
    ceiling = problem.horizon + 1 if best is None else best[0] + 3
    floor = raised_floor(model, variables.makespan, 0, ceiling, _effort())
    assert floor == (ceiling if best is None else best[0])


@_SLOW
@given(small_problems())
def test_no_schedule_has_less_work_by_hand_than_the_least(problem: Problem) -> None:
    best = best_values(problem)
    model, _, hands = _stated(problem)
    if hands is None:
        return
    least = least_hands(model, hands, _effort())
    if best is None:
        assert least is None
    else:
        assert least is not None
        assert least <= best[1]


@_SLOW
@given(small_problems())
def test_shortening_by_turns_ends_with_a_sound_day_that_is_the_shortest(problem: Problem) -> None:
    best = best_values(problem)
    if best is None:
        return
    model, variables, hands = _stated(problem)
    first, _ = search(model, Kind(), seconds=20, workers=2)
    shortening = Shortening(
        model, variables, hands, first, best[0], Cases(model, problem, variables, best[0])
    )
    shortening.shorten("makespan", _effort())
    assert shortening.length == best[0]
    schedule = extract(shortening.best, problem, variables)
    schedule, _ = assign_units(problem, schedule, shares_taken(shortening.best, variables))
    assert check(problem, schedule) == []


@_SLOW
@given(small_problems())
def test_a_shorter_day_is_found_or_proved_not_to_be(problem: Problem) -> None:
    best = best_values(problem)
    if best is None:
        return
    model, variables, hands = _stated(problem)
    first, _ = search(model, Kind(), seconds=20, workers=2)
    shortening = Shortening(model, variables, hands, first, 0, Cases(model, problem, variables, 0))
    while shortening.length > shortening.floor:
        before = shortening.length
        shortening.decide(seconds=20)
        assert (shortening.length < before) is not (shortening.floor == before)
    assert shortening.length == best[0]


def test_runs_that_cost_work_are_joined_where_the_day_grows_shorter_by_it() -> None:
    """Four parts of a minute with a set-up of nine: 4 + 9 minutes in one run, by one cook."""
    part = (Mode("cook", 1, {"cook": 1}),)
    problem = Problem(
        resources={"cook": Resource("cook", 1)},
        tasks={str(number): Task(str(number), part, family="dice") for number in range(4)},
        horizon=60,
        families={"dice": Family("dice", 9, 0)},
        hands=("cook",),
    )
    model, variables, hands = _stated(problem)
    apart = model.clone()
    for link in variables.links.values():
        apart.add_bool_and(~link)
    first, _ = search(apart, Kind(), seconds=20, workers=1)
    assert first.value(variables.makespan) >= 40
    shortening = Shortening(
        model, variables, hands, first, 13, Cases(model, problem, variables, 13)
    )
    shortening.shorten("makespan", _effort())
    assert shortening.length == 13


def test_what_takes_no_time_leaves_the_start_as_it_is() -> None:
    problem = Problem(
        resources={"cook": Resource("cook", 1)},
        tasks={"a": Task("a", (Mode("cook", 5, {"cook": 1}),))},
        horizon=60,
        hands=("cook",),
    )
    model, variables, hands = _stated(problem)
    first, _ = search(model, Kind(), seconds=20, workers=1)
    shortening = Shortening(model, variables, hands, first, 0, Cases(model, problem, variables, 0))
    shortening.shorten("makespan", _effort(seconds=0))
    assert shortening.best is first
