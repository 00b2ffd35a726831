"""Proofs that a problem has no schedule, which need no search of the whole of it."""

from __future__ import annotations

import time
from dataclasses import dataclass

from batchcook.scheduling.energy import shortest_day
from batchcook.scheduling.network import Network, network
from batchcook.scheduling.problem import Problem
from batchcook.scheduling.schedule import Answer
from batchcook.scheduling.solver import satisfy
from batchcook.scheduling.tied import anchored, tied, tightened

__all__ = ["Refutation", "impossible_part", "refuted", "too_tight"]

_TO_PROVE = 2.0  # seconds for one part at the most


@dataclass(frozen=True)
class Refutation:
    """Proof that a problem has no schedule.

    Attributes:
        tasks: Some that cannot be done even where nothing else is; None where it rests on all.
    """

    tasks: frozenset[str] | None = None


def refuted(problem: Problem, *, seconds: float) -> Refutation | None:
    """A proof, soon found, that there is no schedule; None proves nothing.

    Args:
        problem: What is to be scheduled.
        seconds: Wall-clock time for all proofs together.
    """
    ends = time.monotonic() + seconds
    whole = tightened(problem)
    bounds = network(whole)
    if bounds.consistent:
        part = _impossible(whole, bounds, ends)
        if part is not None:
            return Refutation(part)
    return Refutation() if _too_tight(whole, bounds) else None


def impossible_part(problem: Problem, *, seconds: float) -> frozenset[str] | None:
    """Tasks, tied to each other, that cannot be done even where nothing else is.

    Args:
        problem: The whole.
        seconds: Wall-clock time for all proofs together.

    Returns:
        The tasks; None where no such part was found in the time, which proves nothing.
    """
    ends = time.monotonic() + seconds
    whole = tightened(problem)
    bounds = network(whole)
    return _impossible(whole, bounds, ends) if bounds.consistent else None


def _impossible(whole: Problem, bounds: Network, ends: float) -> frozenset[str] | None:
    """The first group of tied tasks, the smallest first, that is impossible alone."""
    for group in tied(whole, bounds):
        part = anchored(whole, group)
        left = min(_TO_PROVE, ends - time.monotonic())
        if left <= 0:
            return None
        tight = _too_tight(part, network(part))
        if tight or satisfy(part, seconds=left).answer is Answer.IMPOSSIBLE:
            return frozenset(group.windows)
    return None


def too_tight(problem: Problem) -> bool:
    """Whether arithmetic alone shows that there is no schedule.

    Either lags and budgets contradict each other along some path, or the work between the heads
    and tails of some resource does not fit before the horizon.
    """
    whole = tightened(problem)
    return _too_tight(whole, network(whole))


def _too_tight(problem: Problem, bounds: Network) -> bool:
    return not bounds.consistent or shortest_day(problem, bounds) > problem.horizon
