"""Why the rest of a day cannot be done: which food's limit, or what is missing."""

from __future__ import annotations

from batchcook.foodsafety.limits import time_out_limit
from batchcook.quantities import Quantity
from batchcook.restofday import RestOfDay
from batchcook.scheduling.conflict import explain
from batchcook.scheduling.problem import Problem
from batchcook.scheduling.relaxing import Reference
from batchcook.scheduling.remaining import NOW

__all__ = ["why_not"]

_SECONDS = 6.0


def why_not(rest: RestOfDay, room: Quantity) -> tuple[str, ...]:
    """The limits that clash, in words; food's own limits first.

    Args:
        rest: The rest of the day, of which it is proved that it cannot be done.
        room: How warm the kitchen is.
    """
    found = explain(rest.problem, seconds=_SECONDS)
    limits = sorted(found.references, key=lambda each: each.kind not in {"budget", "lag"})
    said = dict.fromkeys(words for each in limits if (words := _words(rest, each, room)))
    return tuple(said) or ("The limits that are still open cannot all be kept.",)


def _words(rest: RestOfDay, limit: Reference, room: Quantity) -> str:
    problem = rest.problem
    if limit.kind == "budget":
        return _budget(rest, limit.id, room)
    if limit.kind == "lag":
        return _lag(rest, problem, int(limit.id))
    if limit.kind == "capacity":
        resource = problem.resources[limit.id]
        name = "the cooks" if resource.units else limit.id
        return f"of {name} there are only {resource.capacity}"
    if limit.kind == "absence":
        resource = problem.resources[limit.id.rpartition("#")[0]]
        return "a cook is away" if resource.units else f"{resource.id} is not to be had all day"
    if limit.kind == "window" and limit.id != NOW and limit.id not in rest.begun:
        return problem.tasks[limit.id].reason
    return "the day ends at midnight" if limit.kind == "horizon" else ""


def _budget(rest: RestOfDay, name: str, room: Quantity) -> str:
    """A food that would be out too long; its minutes so far are counted."""
    left = next(budget.limit for budget in rest.problem.budgets if budget.id == name)
    food = name.partition(" out of refrigeration")[0]
    if left < 0:
        return f"{food} has been out of the refrigerator for more than {time_out_limit(room)} min"
    return f"{food} may be out of the refrigerator for {left} min more, and no longer"


def _lag(rest: RestOfDay, problem: Problem, place: int) -> str:
    lag = problem.lags[place]
    titles = {job.id: job.title for job in rest.whole.work.jobs}
    if lag.before == NOW:
        what = (
            f"{titles.get(lag.after, lag.after)!r} must follow within {max(lag.high or 0, 0)} min"
        )
    else:
        what = f"{titles.get(lag.after, lag.after)!r} must follow {titles.get(lag.before)!r}"
    return f"{what}: {lag.reason}" if lag.reason else what
