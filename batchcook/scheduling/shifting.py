"""A schedule moved as a whole to where it may best begin."""

from __future__ import annotations

from dataclasses import replace

from batchcook.scheduling.check import check
from batchcook.scheduling.problem import Problem
from batchcook.scheduling.schedule import Schedule

__all__ = ["begun_at_once", "begun_late", "moved"]


def begun_late(problem: Problem, schedule: Schedule) -> Schedule:
    """The same schedule, begun as late as the horizon, windows and absences let it.

    Args:
        problem: A problem whose origin means nothing: only the horizon is fixed.
        schedule: A schedule that keeps all its rules.
    """
    if not schedule.tasks:
        return schedule
    most = problem.horizon - max(done.release for done in schedule.tasks.values())
    for minutes in range(most, 0, -1):
        later = moved(schedule, minutes)
        if not check(problem, later):
            return later
    return schedule


def begun_at_once(problem: Problem, schedule: Schedule) -> Schedule:
    """The same schedule without idle minutes before its first task, as far as the rules let it.

    A search that had little time may leave some, where something makes the day long anyhow.

    Args:
        problem: A problem whose day begins at 0.
        schedule: A schedule that keeps all its rules.
    """
    for minutes in range(schedule.first, 0, -1):
        earlier = moved(schedule, -minutes)
        if not check(problem, earlier):
            return earlier
    return schedule


def moved(schedule: Schedule, minutes: int) -> Schedule:
    """The schedule with everything so many minutes later, or earlier where it is less than none."""
    tasks = {
        name: replace(
            done,
            start=done.start + minutes,
            work=done.work + minutes,
            end=done.end + minutes,
            release=done.release + minutes,
        )
        for name, done in schedule.tasks.items()
    }
    warm_ups = tuple(
        replace(each, start=each.start + minutes, end=each.end + minutes)
        for each in schedule.warm_ups
    )
    return replace(schedule, tasks=tasks, warm_ups=warm_ups)
