"""Limits of taste that give way where a day has drifted past them; those of safety never do."""

from __future__ import annotations

from dataclasses import replace

from batchcook.dishwork.work import STRAIGHT_ON
from batchcook.replan.restofday import RestOfDay
from batchcook.scheduling.breach import at
from batchcook.scheduling.problem import Lag
from batchcook.scheduling.remaining import NOW
from batchcook.scheduling.schedule import Schedule

__all__ = ["given_way", "giving_way"]

_HURRY = 20
"""Weight of each minute by which what has waited too long waits on."""


def giving_way(rest: RestOfDay) -> RestOfDay:
    """The rest of the day with what has begun going on as soon as it can, if not in time."""
    lags = tuple(_loose(rest, lag) for lag in rest.problem.lags)
    return replace(rest, problem=replace(rest.problem, lags=lags))


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
    for lag in strict.problem.lags:
        before, after = schedule.tasks.get(lag.before), schedule.tasks.get(lag.after)
        if before is None or after is None or lag.high is None or not lag.reason:
            continue
        over = at(after, lag.to) - at(before, lag.origin) - lag.high
        if over > 0:
            found[f"{titles[lag.after]}: {over} min later than is good ({lag.reason})."] = None
    return tuple(found)
