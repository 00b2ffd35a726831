"""Budgets with something in hand."""

from __future__ import annotations

from dataclasses import replace

from batchcook.scheduling.problem import Budget, Lag, Mode, Problem, Resource, Span, Task
from batchcook.scheduling.reserve import with_reserve
from batchcook.scheduling.solver import solve

_BUDGET = Budget("out", (Span("cut", "start", "fry", "end"),), 120)


def _waiting(least: int) -> Problem:
    """Meat is cut and fried, a cook of something else between; frying comes so much later."""
    return Problem(
        resources={"cook": Resource("cook", 1)},
        tasks={name: Task(name, (Mode("cook", 10, {"cook": 1}),)) for name in ("cut", "fry")},
        horizon=500,
        lags=(Lag("cut", "end", "fry", "start", least),),
        budgets=(_BUDGET,),
        hands=("cook",),
    )


def test_a_share_of_the_limit_is_not_planned_with() -> None:
    careful = with_reserve(_waiting(0), 0.125)
    assert careful is not None
    assert careful.budgets == (replace(_BUDGET, limit=105),)


def test_what_the_spans_need_at_the_least_is_left_to_them() -> None:
    """10 minutes of cutting, 95 of waiting and 10 of frying: 5 of the 15 are left to keep."""
    careful = with_reserve(_waiting(95), 0.125)
    assert careful is not None
    assert careful.budgets[0].limit == 115
    assert solve(careful, seconds=5).schedule is not None


def test_where_nothing_is_limited_there_is_nothing_to_keep() -> None:
    assert with_reserve(replace(_waiting(0), budgets=()), 0.125) is None
