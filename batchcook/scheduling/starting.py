"""A good schedule to start the search from: by search over whole runs, or else by list."""

from __future__ import annotations

from batchcook.scheduling.listing import list_schedule
from batchcook.scheduling.problem import Problem
from batchcook.scheduling.schedule import Schedule
from batchcook.scheduling.wholeruns import WholeRuns

__all__ = ["first_schedule"]

_LISTED_TASKS = 300  # placed in all, over the lists tried


def first_schedule(problem: Problem, runs: WholeRuns) -> Schedule | None:
    """A schedule found fast, where lags and occupancies or set-ups make one hard to find.

    Args:
        problem: What to schedule.
        runs: The search over its whole runs, of which this is the beginning.

    Returns:
        A schedule without named units, not always sound, or None if none was found.
    """
    if problem.families:
        found = runs.begin()
        if found is not None:
            return found
    samples = max(1, min(8, _LISTED_TASKS // max(len(problem.tasks), 1)))
    return list_schedule(problem, samples=samples, by_group=True)
