"""The rest of a day solved, and checked."""

from __future__ import annotations

from dataclasses import replace

from batchcook.day.solving import Effort, NoAnswer
from batchcook.replan.restofday import RestOfDay
from batchcook.scheduling.schedule import Answer, Level, Outcome, Schedule

__all__ = ["check_rest", "solve_rest"]

_LISTS = 5
"""Lists tried for a first schedule, where the order of the old plan does not do."""


def solve_rest(rest: RestOfDay, as_before: Schedule | None, effort: Effort) -> Outcome:
    """The shortest rest of the day; the old order of work where none is shorter.

    Raises:
        NoAnswer: Neither a schedule nor a proof that there is none was found in the time given.
    """
    from batchcook.scheduling.listing import list_schedule  # noqa: PLC0415 - beside the solver
    from batchcook.scheduling.network import network  # noqa: PLC0415 - the same
    from batchcook.scheduling.solver import solve  # noqa: PLC0415 - CP-SAT takes long to load

    if not network(rest.problem).consistent:
        return Outcome(Answer.IMPOSSIBLE)
    first = as_before or list_schedule(rest.problem, by_group=True)
    first = first or list_schedule(rest.problem, samples=_LISTS, by_group=True, seed=2)
    if as_before is not None:
        shortest = solve(rest.problem, seconds=effort.seconds / 2, hint=first, depth=1)
        # What nobody would be done sooner by is left as it hangs on the cupboard.
        if shortest.levels and shortest.levels[0].value >= _length(as_before):
            return replace(shortest, schedule=as_before)
    outcome = solve(rest.problem, seconds=effort.seconds, progress=effort.progress, hint=first)
    if outcome.answer is Answer.UNKNOWN and first is None:
        raise NoAnswer
    if outcome.answer is Answer.UNKNOWN and first is not None:
        return Outcome(Answer.PLAN, first, (Level("makespan", _length(first), 0),))
    return outcome


def _length(schedule: Schedule) -> int:
    """The last minute of a schedule."""
    return max(done.release for done in schedule.tasks.values())


def check_rest(rest: RestOfDay, schedule: Schedule) -> None:
    """The independent checker passes what was found.

    Raises:
        AssertionError: It does not; the plan is withheld.
    """
    from batchcook.scheduling.check import check  # noqa: PLC0415 - beside its solver

    breaches = check(rest.problem, schedule)
    if breaches:
        raise AssertionError("\n".join(map(str, breaches)))
