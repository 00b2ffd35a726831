"""Lower bounds of the day by work and by rounds, against what can be done at best."""

from __future__ import annotations

import random
from dataclasses import replace
from itertools import product

import pytest

from batchcook.scheduling.energy import least_kept, shortest_day
from batchcook.scheduling.network import network
from batchcook.scheduling.problem import (
    Absence,
    Choice,
    Condition,
    Lag,
    Mode,
    Occupancy,
    Problem,
    Resource,
    Task,
)


def _cookers(minutes: list[int], count: int, amount: int = 1) -> Problem:
    """Slow cooks of these lengths, each of which keeps so much of one resource."""
    tasks = {
        f"cook {number}": Task(f"cook {number}", (Mode("alone", length, {"cooker": amount}),))
        for number, length in enumerate(minutes)
    }
    return Problem(resources={"cooker": Resource("cooker", count)}, tasks=tasks, horizon=5000)


def _floor(problem: Problem) -> int:
    return shortest_day(problem, network(problem))


def _best(minutes: list[int], machines: int) -> int:
    """The shortest makespan on identical machines, by trying every way to divide the work."""
    ways = product(range(machines), repeat=len(minutes))
    return min(
        max(
            sum(length for length, on in zip(minutes, way, strict=True) if on == machine)
            for machine in range(machines)
        )
        for way in ways
    )


def test_seven_slow_cooks_in_three_cookers_take_three_rounds() -> None:
    # The work alone would fit into seven thirds of a round.
    assert _floor(_cookers([240] * 7, 3)) == 720


def test_what_takes_half_of_a_resource_goes_two_by_two() -> None:
    assert _floor(_cookers([60] * 3, 4, amount=2)) == 120
    assert _floor(_cookers([60] * 3, 5, amount=2)) == 120
    assert _floor(_cookers([60] * 3, 6, amount=2)) == 60


@pytest.mark.parametrize("seed", range(30))
def test_a_bound_by_rounds_never_passes_what_can_be_done(seed: int) -> None:
    rng = random.Random(seed)  # noqa: S311 - variety, not secrecy
    machines = rng.randint(1, 3)
    minutes = [rng.randint(1, 30) for _ in range(rng.randint(2, 7))]
    best = _best(minutes, machines)
    floor = _floor(_cookers(minutes, machines))
    assert floor <= best
    assert floor >= max(-(-sum(minutes) // machines), *minutes)


def test_as_many_go_side_by_side_as_the_least_of_them_would() -> None:
    # Two small ones and a large one fit at once, though no two large ones and more would.
    small, large = _cookers([60, 60], 4), _cookers([60] * 3, 4, amount=2)
    tasks = {**small.tasks, "cook 2": large.tasks["cook 2"]}
    assert _floor(Problem(small.resources, tasks, 5000)) == 60


def test_what_is_missing_at_a_time_of_day_lengthens_no_day_that_may_begin_at_any() -> None:
    away = (Absence(0, 100, 1),)
    tasks = _cookers([30, 30], 1).tasks
    timed = Problem({"cooker": Resource("cooker", 1, away)}, tasks, 5000)
    assert _floor(timed) == 160
    assert _floor(replace(timed, free_origin=True)) == 60


def test_a_vessel_is_kept_as_long_as_the_shorter_of_two_ways_to_fill_it_asks() -> None:
    ways = {way: (Condition("how", frozenset({way})),) for way in ("raw", "cooked")}
    tasks = {way: Task(way, (Mode("m", 5),), when=when) for way, when in ways.items()}
    tasks["wash"] = Task("wash", (Mode("m", 10),))
    problem = Problem(
        {"pot": Resource("pot", 1)},
        tasks,
        500,
        (Lag("raw", "end", "wash", "start", 60), Lag("cooked", "end", "wash", "start", 20)),
        choices={"how": Choice("how", ("raw", "cooked"))},
    )
    bounds = network(problem)
    either = Occupancy("either", "pot", 1, ("raw", "cooked"), "wash")
    assert least_kept(bounds, either) == 5 + 20 + 10
    assert least_kept(bounds, replace(either, fillers=("raw",))) == 5 + 60 + 10


def test_what_may_be_left_out_makes_no_round() -> None:
    problem = _cookers([100, 100, 100], 2)
    when = (Condition("third", frozenset({"yes"})),)
    tasks = {**problem.tasks, "cook 2": Task("cook 2", problem.tasks["cook 2"].modes, when=when)}
    choices = {"third": Choice("third", ("yes", "no"))}
    left_out = Problem(problem.resources, tasks, 5000, choices=choices)
    assert _floor(problem) == 200
    assert _floor(left_out) == 100


def test_a_pot_that_is_kept_until_it_is_washed_counts_as_long_as_that() -> None:
    tasks = {
        f"{step} {dish}": Task(f"{step} {dish}", (Mode("by hand", length),))
        for dish in range(3)
        for step, length in (("fill", 5), ("wash", 10))
    }
    kept = tuple(
        Occupancy(f"pot {dish}", "pot", 1, (f"fill {dish}",), f"wash {dish}") for dish in range(3)
    )
    lags = tuple(Lag(f"fill {dish}", "end", f"wash {dish}", "start", 45) for dish in range(3))
    problem = Problem(
        resources={"pot": Resource("pot", 2)},
        tasks=tasks,
        horizon=1000,
        occupancies=kept,
        lags=lags,
    )
    assert _floor(problem) == 2 * (5 + 45 + 10)
