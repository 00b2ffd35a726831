"""Conflicts are small and proved; repairs are the least and work."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import HealthCheck, assume, given, settings
from oracle import best_values
from plain_model import clash
from small_problems import small_problems

from batchcook.scheduling.check import check
from batchcook.scheduling.conflict import Reference, explain, repairs
from batchcook.scheduling.problem import Budget, Lag, Mode, Problem, Resource, Span, Task
from batchcook.scheduling.relaxing import loosened, reduced


def _slow_cookers() -> Problem:
    """Two loads of eight hours for one slow cooker, in a day of fifteen."""
    tasks = {
        "ragu": Task("ragu", (Mode("m", 480, {"slow cooker": 1}),), latest=900),
        "pork": Task("pork", (Mode("m", 480, {"slow cooker": 1}),)),
        "soup": Task("soup", (Mode("m", 60, {"pot": 1}),), earliest=10),
    }
    resources = {"slow cooker": Resource("slow cooker", 1), "pot": Resource("pot", 1)}
    return Problem(resources, tasks, 930)


def test_a_conflict_names_what_clashes_and_nothing_else() -> None:
    conflict = explain(_slow_cookers(), seconds=30)
    assert conflict.proved
    assert conflict.minimal
    assert set(conflict.references) == {Reference("horizon"), Reference("capacity", "slow cooker")}


def test_repairs_are_the_least_and_each_has_a_sound_schedule() -> None:
    problem = _slow_cookers()
    found = {
        repair.reference.kind: repair
        for repair in repairs(problem, explain(problem, seconds=30).references, seconds=30)
    }
    assert found["horizon"].amount == 30
    assert found["horizon"].least
    assert found["capacity"].amount == 1
    for repair in found.values():
        changed = loosened(problem, repair.reference, repair.amount)
        assert changed is not None
        assert check(changed, repair.schedule) == []


def test_a_budget_and_a_lag_that_contradict_each_other_are_both_named() -> None:
    tasks = {name: Task(name, (Mode("m", 10),)) for name in ("cut", "sear", "rest")}
    lags = (Lag("cut", "end", "sear", "start", 30), Lag("cut", "end", "rest", "start", 0, 5))
    budget = Budget("out", (Span("cut", "start", "sear", "start"),), 35, "out of the refrigerator")
    problem = Problem({}, tasks, 200, lags, (budget,))
    conflict = explain(problem, seconds=30)
    assert conflict.references == (Reference("budget", "out"),)
    (repair,) = repairs(problem, conflict.references, seconds=30)
    assert repair.amount == 5


def test_limits_of_one_reason_and_group_are_told_as_one() -> None:
    tasks = {name: Task(name, (Mode("m", 10),), group="pie") for name in ("cut", "sear", "rest")}
    lags = (
        Lag("cut", "end", "sear", "start", 30, 20, reason="cut fruit browns"),
        Lag("cut", "end", "rest", "start", 0, 500, reason="cut fruit browns"),
        Lag("sear", "end", "rest", "start", 0, 500, reason="it cools"),
    )
    conflict = explain(Problem({}, tasks, 2000, lags), seconds=30)
    assert conflict.minimal
    assert set(conflict.references) == {Reference("lag", "0"), Reference("lag", "1")}


def test_what_clashes_whenever_it_begins_is_not_put_down_to_the_day_being_short() -> None:
    """Two pots of 50 minutes for one cook, the second soon after the first, in a day of 60."""
    tasks = {name: Task(name, (Mode("m", 50, {"cook": 1}),)) for name in ("stew", "soup")}
    soon = Lag("stew", "start", "soup", "start", -10, 10, reason="served together")
    problem = Problem({"cook": Resource("cook", 1)}, tasks, 60, (soon,))
    conflict = explain(problem, seconds=30)
    assert conflict.tasks == frozenset({"stew", "soup"})
    assert set(conflict.references) == {Reference("capacity", "cook"), Reference("lag", "0")}
    assert clash(problem, conflict.references, conflict.tasks) == "impossible"


def test_a_possible_problem_has_no_proved_conflict() -> None:
    problem = replace(_slow_cookers(), horizon=2000)
    assert not explain(problem, seconds=5).proved


@settings(
    max_examples=25,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
@given(small_problems())
def test_a_conflict_of_a_random_problem_is_impossible_and_minimal(problem: Problem) -> None:
    assume(best_values(problem) is None)
    conflict = explain(problem, seconds=30)
    assert conflict.proved
    assert conflict.minimal
    if Reference("horizon") in conflict.references:
        assert best_values(reduced(problem, conflict.references)) is None
    for reference in conflict.references:
        rest = set(conflict.references) - {reference}
        assert not explain(reduced(problem, rest), seconds=10).proved
