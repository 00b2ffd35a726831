"""Budgets with something in hand, so that what takes longer than planned does not break them."""

from __future__ import annotations

from dataclasses import replace

from batchcook.scheduling.network import network
from batchcook.scheduling.problem import Budget, Problem

__all__ = ["with_reserve"]


def with_reserve(problem: Problem, share: float) -> Problem | None:
    """The problem with a share of each budget kept in hand, as far as its spans allow.

    Args:
        problem: The problem.
        share: How much of each limit not to plan with, 0 to 1.

    Returns:
        A narrower problem: its schedules are schedules of the other. It may have none where the
        other has some. None where there is nothing to keep.
    """
    if not problem.budgets:
        return None
    bounds = network(problem)

    def reserved(budget: Budget) -> Budget:
        least = sum(max(bounds.apart(span) or 0, 0) for span in budget.spans)
        spare = min(int(share * budget.limit), max(budget.limit - least, 0))
        return replace(budget, limit=budget.limit - spare)

    return replace(problem, budgets=tuple(map(reserved, problem.budgets)))
