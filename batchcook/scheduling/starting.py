"""A good schedule to start the search from: by list, then by search over whole runs."""

from __future__ import annotations

import time

from ortools.sat.python import cp_model

from batchcook.scheduling.constraints import constrain
from batchcook.scheduling.energy import shortest_day
from batchcook.scheduling.extraction import extract
from batchcook.scheduling.hints import suggest
from batchcook.scheduling.listing import list_schedule
from batchcook.scheduling.merging import merge
from batchcook.scheduling.network import network
from batchcook.scheduling.problem import Problem
from batchcook.scheduling.schedule import Schedule
from batchcook.scheduling.searching import FOUND, Kind, search
from batchcook.scheduling.variables import declare

__all__ = ["first_schedule"]

# Schedules are wanted here, not bounds, which the linear relaxation would give.
_SCHEDULES = Kind(linear=0)
_LISTED_TASKS = 300  # placed in all, over the lists tried for a first schedule
_LISTED_RUNS = 200  # the same for the smaller problem


def first_schedule(problem: Problem, *, seconds: float, workers: int) -> Schedule | None:
    """A schedule found fast, where lags and occupancies or set-ups make one hard to find.

    Args:
        problem: What to schedule.
        seconds: Wall-clock time for the search over whole runs.
        workers: Searches run side by side.

    Returns:
        A schedule without named units, not always sound, or None if none was found.
    """
    ends = time.monotonic() + seconds
    searched = _by_runs(problem, ends, workers) if problem.families else None
    if searched is not None:
        return searched
    return list_schedule(problem, samples=_samples(problem, _LISTED_TASKS), by_group=True)


def _samples(problem: Problem, tasks: int) -> int:
    return max(1, min(8, tasks // max(len(problem.tasks), 1)))


def _by_runs(problem: Problem, ends: float, workers: int) -> Schedule | None:
    """Search the problem in which each family is done in few whole runs."""
    merged = merge(problem)
    smaller = merged.problem
    model = cp_model.CpModel()
    variables = declare(model, smaller)
    constrain(model, smaller, variables)
    floor = shortest_day(problem, network(problem))
    model.add(variables.makespan >= max(floor, shortest_day(smaller, network(smaller))))
    start = list_schedule(smaller, samples=_samples(smaller, _LISTED_RUNS), by_group=True)
    if start is not None:
        suggest(model, smaller, variables, start)
    model.minimize(variables.makespan)
    solver, status = search(model, _SCHEDULES, seconds=ends - time.monotonic(), workers=workers)
    if status not in FOUND:
        return None
    return merged.expand(extract(solver, smaller, variables))
