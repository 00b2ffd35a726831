"""Why the rest of a day cannot be done: which food's limit, or what is missing."""

from __future__ import annotations

from batchcook.foodsafety.limits import time_out_limit
from batchcook.quantities import Quantity
from batchcook.replan.restofday import RestOfDay
from batchcook.scheduling.conflict import explain
from batchcook.scheduling.network import network
from batchcook.scheduling.problem import Problem
from batchcook.scheduling.relaxing import Reference
from batchcook.scheduling.remaining import NOW
from batchcook.scheduling.schedule import Answer
from batchcook.scheduling.solver import satisfy

__all__ = ["possible", "why_not"]

_SECONDS = 6.0
_TO_TRY = 3.0


def possible(rest: RestOfDay) -> bool:
    """Whether a schedule of the rest is found in a few seconds."""
    if not network(rest.problem).consistent:
        return False
    return satisfy(rest.problem, seconds=_TO_TRY).answer is Answer.PLAN


def why_not(rest: RestOfDay, room: Quantity) -> tuple[str, ...]:
    """The limits that clash, in words; food's own limits first.

    Args:
        rest: The rest of the day, of which it is proved that it cannot be done.
        room: How warm the kitchen is.
    """
    found = explain(rest.problem, seconds=_SECONDS)
    missing = {each.id.rpartition("#")[0] for each in found.references if each.kind == "absence"}
    scarce = {each.id for each in found.references if each.kind == "capacity"}
    limits = sorted(found.references, key=lambda each: each.kind not in {"budget", "lag"})
    said = dict.fromkeys(
        f"what is under way and must follow needs more {_called(rest.problem, name)} than is left"
        for name in sorted(missing & scarce)
    )
    said |= dict.fromkeys(
        words
        for each in limits
        if each.id.rpartition("#")[0] not in scarce
        and each.id not in missing
        and (words := _words(rest, each, room))
    )
    return tuple(said) or ("The limits that are still open cannot all be kept.",)


def _words(rest: RestOfDay, limit: Reference, room: Quantity) -> str:
    problem = rest.problem
    if limit.kind == "budget":
        return _budget(rest, limit.id, room)
    if limit.kind == "lag":
        return _lag(rest, problem, int(limit.id))
    if limit.kind == "capacity":
        resource = problem.resources[limit.id]
        return f"there is no more than {resource.capacity} x {_called(problem, limit.id)}"
    if limit.kind == "absence":
        resource = problem.resources[limit.id.rpartition("#")[0]]
        return f"{_called(problem, resource.id)} cannot be had all day"
    if limit.kind == "window" and limit.id != NOW and limit.id not in rest.begun:
        return problem.tasks[limit.id].reason
    return "the day ends at midnight" if limit.kind == "horizon" else ""


def _called(problem: Problem, resource: str) -> str:
    """A resource in kitchen words."""
    if problem.resources[resource].units:
        return "cooks"
    return resource.replace(":", " of ").replace("-", " ")


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
