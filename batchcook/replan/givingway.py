"""Limits of taste that give way where a day has drifted past them; those of safety never do."""

from __future__ import annotations

from dataclasses import replace

from batchcook.dishwork.work import STRAIGHT_ON
from batchcook.replan.restofday import RestOfDay
from batchcook.scheduling.breach import at
from batchcook.scheduling.problem import Lag, Task
from batchcook.scheduling.remaining import NOW
from batchcook.scheduling.schedule import Schedule

__all__ = ["given_way", "giving_way", "how_late"]

_HURRY = 20
"""Weight of each minute by which what has waited too long waits on."""

_LATE = (0, 5, 10, 20, 30, 45, 60, 90, 120)
"""Minutes by which a dinner may be late, the fewest that do: our own steps."""


def how_late(rest: RestOfDay) -> tuple[int, ...]:
    """Minutes by which what has a time of day may be late, to be tried one after the other."""
    return _LATE if any(map(_is_timed, rest.problem.tasks.values())) else _LATE[:1]


def giving_way(rest: RestOfDay, late: int) -> RestOfDay:
    """The rest of the day with what has begun going on as soon as it can, if not in time.

    Args:
        rest: The rest of the day.
        late: Minutes by which what has a time of day may be late.
    """
    lags = [_loose(rest, lag) for lag in rest.problem.lags]
    if late:
        lags += [
            Lag(NOW, "start", task.id, "end", None, None, weight=_HURRY)
            for task in rest.problem.tasks.values()
            if _is_timed(task)
        ]
    tasks = {name: _later(task, late) for name, task in rest.problem.tasks.items()}
    return replace(rest, problem=replace(rest.problem, lags=tuple(lags), tasks=tasks))


def _is_timed(task: Task) -> bool:
    """Whether a task that has not begun has a time of day by which it is done, as a dinner has."""
    return task.latest is not None and bool(task.reason)


def _later(task: Task, late: int) -> Task:
    if task.latest is None or not _is_timed(task):
        return task
    return replace(task, latest=task.latest + late)


def _loose(rest: RestOfDay, lag: Lag) -> Lag:
    begun = lag.before == NOW or lag.before in rest.begun
    if lag.high is None or not begun or lag.reason.startswith(STRAIGHT_ON):
        return lag
    return replace(lag, high=None, weight=max(lag.weight, _HURRY))


def given_way(strict: RestOfDay, schedule: Schedule) -> tuple[str, ...]:
    """What now waits longer than it should, in words.

    Args:
        strict: The rest of the day before any limit gave way.
        schedule: What was found for it after.
    """
    titles = {job.id: job.title for job in strict.whole.work.jobs}
    found: dict[str, None] = {}
    for task in strict.problem.tasks.values():
        done = schedule.tasks.get(task.id)
        if done is not None and task.latest is not None and _is_timed(task):
            over = done.end - task.latest
            if over > 0:
                found[f"{titles[task.id]}: {over} min late."] = None
    for lag in strict.problem.lags:
        before, after = schedule.tasks.get(lag.before), schedule.tasks.get(lag.after)
        if before is None or after is None or lag.high is None or not lag.reason:
            continue
        over = at(after, lag.to) - at(before, lag.origin) - lag.high
        if over > 0:
            found[f"{titles[lag.after]}: {over} min later than is good ({lag.reason})."] = None
    return tuple(found)
