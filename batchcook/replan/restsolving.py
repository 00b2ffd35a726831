"""The rest of a day solved, and checked."""

from __future__ import annotations

from dataclasses import dataclass, replace

from batchcook.day.solving import RESERVE, Effort, NoAnswer
from batchcook.replan.restofday import RestOfDay
from batchcook.scheduling.problem import Problem
from batchcook.scheduling.reserve import with_reserve
from batchcook.scheduling.schedule import Answer, InUse, Level, Outcome, Schedule
from batchcook.withheld import Withheld

__all__ = ["Before", "check_rest", "solve_rest"]

_LISTS = 5
"""Lists tried for a first schedule, where the order of the old plan does not do."""


_PATIENCE = 0.4
"""Share of the time in which a rest that keeps some of food's time in hand is to be found."""


@dataclass(frozen=True)
class Before:
    """What hangs on the cupboard.

    Attributes:
        order: The rest of the day in the old order, or None where that cannot be any more.
        plan: When each task was to begin, and who was to do it.
    """

    order: Schedule | None
    plan: InUse


def solve_rest(rest: RestOfDay, before: Before, effort: Effort) -> Outcome:
    """The shortest rest of the day; the old order of work where none is shorter.

    Raises:
        NoAnswer: Neither a schedule nor a proof that there is none was found in the time given.
    """
    from batchcook.scheduling.listing import list_schedule  # noqa: PLC0415 - beside the solver
    from batchcook.scheduling.network import network  # noqa: PLC0415 - the same

    if not network(rest.problem).consistent:
        return Outcome(Answer.IMPOSSIBLE)
    first = before.order or list_schedule(rest.problem, by_group=True)
    first = first or list_schedule(rest.problem, samples=_LISTS, by_group=True, seed=2)
    careful = with_reserve(rest.problem, RESERVE)
    if careful is not None:
        outcome = _solved(careful, before, first, effort, _PATIENCE)
        if outcome.answer is Answer.PLAN:
            return replace(outcome, reserved=outcome.schedule is not before.order)
    outcome = _solved(rest.problem, before, first, effort, 1.0)
    if outcome.answer is Answer.UNKNOWN and first is None:
        raise NoAnswer
    if outcome.answer is Answer.UNKNOWN and first is not None:
        return Outcome(Answer.PLAN, first, (Level("makespan", _length(first), 0),))
    return outcome


def _solved(
    problem: Problem,
    before: Before,
    first: Schedule | None,
    effort: Effort,
    patience: float,
) -> Outcome:
    """The shortest schedule, or the old order where none is shorter."""
    from batchcook.scheduling.solver import solve  # noqa: PLC0415 - CP-SAT takes long to load

    half = effort.seconds / 2
    if before.order is not None:
        shortest = solve(problem, seconds=half, hint=first, depth=1, patience=patience)
        # What nobody would be done sooner by is left as it hangs on the cupboard.
        if shortest.levels and shortest.levels[0].value >= _length(before.order):
            return replace(shortest, schedule=before.order)
    return solve(
        problem,
        seconds=effort.seconds,
        progress=effort.progress,
        hint=first,
        in_use=before.plan,
        patience=patience,
    )


def _length(schedule: Schedule) -> int:
    """The last minute of a schedule."""
    return max(done.release for done in schedule.tasks.values())


def check_rest(rest: RestOfDay, schedule: Schedule) -> None:
    """The independent checker passes what was found.

    Raises:
        Withheld: It does not; the plan is withheld.
    """
    from batchcook.scheduling.check import check  # noqa: PLC0415 - beside its solver

    breaches = check(rest.problem, schedule)
    if breaches:
        raise Withheld("\n".join(map(str, breaches)))
