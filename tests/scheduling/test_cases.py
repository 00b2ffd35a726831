"""Bounds by cases, against an exhaustive search and against arithmetic done by hand."""

from __future__ import annotations

import time
from dataclasses import replace

from hypothesis import HealthCheck, given, settings
from oracle import best_values
from ortools.sat.python import cp_model
from small_problems import small_problems

from batchcook.scheduling.cases import Cases
from batchcook.scheduling.constraints import constrain
from batchcook.scheduling.energy import shortest_day
from batchcook.scheduling.network import network
from batchcook.scheduling.orders import open_pairs
from batchcook.scheduling.problem import Lag, Mode, Occupancy, Problem, Resource, Task
from batchcook.scheduling.searching import OWN, Effort, search
from batchcook.scheduling.variables import Variables, declare

_SLOW = settings(
    max_examples=120,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)


def _stated(problem: Problem) -> tuple[cp_model.CpModel, Variables]:
    model = cp_model.CpModel()
    variables = declare(model, problem)
    constrain(model, problem, variables)
    return model, variables


def _effort(seconds: float = 20) -> Effort:
    return Effort(2, time.monotonic() + seconds)


def _shortest(model: cp_model.CpModel, variables: Variables) -> int:
    model.minimize(variables.makespan)
    solver, status = search(model, OWN, seconds=20, workers=2)
    assert status == cp_model.OPTIMAL
    return int(solver.value(variables.makespan))


@_SLOW
@given(small_problems())
def test_cases_lose_no_shortest_day_and_their_floor_never_passes_it(problem: Problem) -> None:
    best = best_values(problem)
    if best is None:
        return
    for length in (best[0], best[0] + 1, problem.horizon + 1):
        model, variables = _stated(problem)
        cases = Cases(model, problem, variables, 0)
        floor = cases.raise_floor(length, 5, _effort())
        assert floor <= best[0]
        assert _shortest(model, variables) == best[0]
        assert cases.note(cases.likeliest, floor) == floor


def _baths() -> Problem:
    """Three pots that go into the only bath, one after another, for 30 minutes each.

    Each is cut in 10 minutes and boils 5, 20 or 40 minutes, after which it does not wait.
    """
    tasks: dict[str, Task] = {}
    lags: list[Lag] = []
    baths: list[Occupancy] = []
    for name, boil in (("pasta", 5), ("soup", 20), ("stew", 40)):
        for step, minutes in (("cut", 10), ("boil", boil), ("put in", 1), ("take out", 1)):
            tasks[f"{name} {step}"] = Task(f"{name} {step}", (Mode("m", minutes, {}),))
        lags += [
            Lag(f"{name} cut", "end", f"{name} boil", "start", 0),
            Lag(f"{name} boil", "end", f"{name} put in", "start", 0, 0),
            Lag(f"{name} put in", "end", f"{name} take out", "start", 28),
        ]
        baths.append(Occupancy(name, "bath", 1, (f"{name} put in",), f"{name} take out"))
    return Problem({"bath": Resource("bath", 1)}, tasks, 600, tuple(lags), (), tuple(baths))


def test_pots_that_share_a_bath_may_come_in_either_order() -> None:
    problem = _baths()
    pairs = open_pairs(problem, network(problem))
    assert len(pairs) == 3
    paths = {
        (order.lags[0].before, order.lags[0].after): order.path for pair in pairs for order in pair
    }
    # Cut 10, boil 5, cool 30, cool 30; and cut 10, boil 40, cool 30, cool 30.
    assert paths["pasta take out", "soup put in"] == 75
    assert paths["stew take out", "soup put in"] == 110


def test_an_order_that_the_lags_settle_is_no_case() -> None:
    problem = _baths()
    settled = Lag("pasta take out", "end", "soup put in", "start", 0)
    ordered = replace(problem, lags=(*problem.lags, settled))
    names = {
        frozenset((order.lags[0].before, order.lags[0].after))
        for pair in open_pairs(ordered, network(ordered))
        for order in pair
    }
    assert len(open_pairs(ordered, network(ordered))) == 2
    assert all("stew put in" in name or "stew take out" in name for name in names)


def test_room_for_two_leaves_no_order_open() -> None:
    problem = _baths()
    roomy = replace(problem, resources={"bath": Resource("bath", 2)})
    assert open_pairs(roomy, network(roomy)) == []


def _bakes(*settings_of: tuple[int, ...]) -> Problem:
    tasks = {
        str(number): Task(str(number), (Mode("m", 30, {"oven": 1}),), settings=each)
        for number, each in enumerate(settings_of)
    }
    return Problem({"oven": Resource("oven", 2, warm_up=12, keeps=12)}, tasks, 600)


def test_bakes_at_no_common_temperature_have_a_warm_up_between_them() -> None:
    problem = _bakes((325, 350), (400, 425))
    ((one, other),) = open_pairs(problem, network(problem))
    assert one.lags == (Lag("0", "end", "1", "start", 12),)
    assert other.lags == (Lag("1", "end", "0", "start", 12),)
    assert one.path == other.path == 30 + 12 + 30


def test_bakes_at_a_common_temperature_share_the_oven() -> None:
    problem = _bakes((325, 350), (350, 375))
    assert open_pairs(problem, network(problem)) == []


def test_cases_prove_what_arithmetic_does_not() -> None:
    """A sauce is cut for 10 minutes, in the bath for 10 and in the freezer for 20; a stock is in
    the bath for 30. Its 40 minutes are arithmetic's bound; but with the sauce first the bath waits
    for it until 10 and ends at 50, and with the stock first the sauce ends at 60."""
    tasks = {
        name: Task(name, (Mode("m", minutes, demands),))
        for name, minutes, demands in (
            ("cut", 10, {}),
            ("cool the sauce", 10, {"bath": 1}),
            ("freeze", 20, {}),
            ("cool the stock", 30, {"bath": 1}),
        )
    }
    lags = (
        Lag("cut", "end", "cool the sauce", "start", 0),
        Lag("cool the sauce", "end", "freeze", "start", 0),
    )
    problem = Problem({"bath": Resource("bath", 1)}, tasks, 600, lags)
    assert shortest_day(problem, network(problem)) == 40
    model, variables = _stated(problem)
    cases = Cases(model, problem, variables, 40)
    assert cases.raise_floor(55, 0.0, _effort()) == 50
    assert cases.likeliest == (Lag("cool the sauce", "end", "cool the stock", "start", 0),)


def test_what_all_open_cases_have_in_common_is_added_to_the_model() -> None:
    problem = _baths()
    model, variables = _stated(problem)
    shortest = _shortest(model.clone(), variables)
    Cases(model, problem, variables, 0).raise_floor(shortest, 5, _effort())
    late = model.clone()
    start = variables.tasks["pasta put in"].start
    late.add(start >= variables.tasks["stew take out"].end)
    _, status = search(late, OWN, seconds=20, workers=1)
    assert status == cp_model.INFEASIBLE


def test_without_time_nothing_is_split() -> None:
    problem = _baths()
    model, variables = _stated(problem)
    cases = Cases(model, problem, variables, 7)
    assert cases.raise_floor(500, 5, _effort(seconds=0)) == 7
    assert cases.likeliest == ()
