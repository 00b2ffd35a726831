"""A formulated day solved, checked, or explained; the only door to the solver."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from batchcook.complaints import InputFault
from batchcook.cookbook import Cookbook
from batchcook.day.formulation import Formulation, formulate
from batchcook.day.prepday import PrepDay
from batchcook.day.workday import day_work, ordered_dishes
from batchcook.scheduling.schedule import Answer, Outcome, Schedule
from batchcook.scheduling.settling import settled

__all__ = ["Effort", "NoAnswer", "NoPlan", "checked", "solved", "solved_or_explained"]

_TO_EXPLAIN = 10.0
"""Seconds at the least to look for what clashes: an answer without its reason helps nobody."""

_TO_VERIFY = 3.0
"""Seconds to verify one smaller order."""

Progress = Callable[[str, int, int], None]


@dataclass(frozen=True)
class Effort:
    """How long to search, in seconds of wall clock, and who is told how it goes."""

    seconds: float = 20.0
    progress: Progress | None = None


class NoPlan(Exception):  # noqa: N818 - an answer, not an error
    """It is proved that the day cannot be done as ordered."""


class NoAnswer(Exception):  # noqa: N818 - the same
    """Neither a plan nor a proof in the time given."""


def solved(formulation: Formulation, effort: Effort, *, depth: int | None = None) -> Outcome:
    """The best schedule that the effort finds.

    Args:
        formulation: The day.
        effort: How long to search.
        depth: How many levels of the objective to look at; all where None.

    Raises:
        NoPlan: It is proved that there is none.
        NoAnswer: The time ran out first.
    """
    from batchcook.scheduling.solver import solve  # noqa: PLC0415 - CP-SAT takes long to load

    outcome = solve(
        formulation.problem, seconds=effort.seconds, progress=effort.progress, depth=depth
    )
    if outcome.answer is Answer.IMPOSSIBLE:
        raise NoPlan
    if outcome.answer is Answer.UNKNOWN:
        raise NoAnswer
    return outcome


def solved_or_explained(
    formulation: Formulation, day: PrepDay, cookbook: Cookbook, effort: Effort
) -> Outcome:
    """The outcome; where the day is impossible, which limits clash and what would do.

    Raises:
        NoPlan: With the clash as its text.
        NoAnswer: The time ran out first.
    """
    try:
        return solved(formulation, effort)
    except NoPlan:
        from batchcook.day.clash import find_clash  # noqa: PLC0415 - loads CP-SAT

        def possible(changed: PrepDay) -> bool:
            from batchcook.scheduling.solver import satisfy  # noqa: PLC0415 - the same

            try:
                work = day_work(ordered_dishes(changed, cookbook), changed)
            except InputFault:
                return False
            found = satisfy(formulate(work, changed).problem, seconds=_TO_VERIFY)
            return found.answer is Answer.PLAN

        seconds = max(effort.seconds, _TO_EXPLAIN)
        raise NoPlan(str(find_clash(formulation, day, possible, seconds=seconds))) from None


def checked(formulation: Formulation, outcome: Outcome) -> Schedule:
    """The schedule, ovens as the recipes have them, once the independent checker has passed it.

    Raises:
        AssertionError: It did not; the plan is withheld.
    """
    from batchcook.scheduling.check import check  # noqa: PLC0415 - beside its solver

    if outcome.schedule is None:
        raise AssertionError("a plan comes with its schedule")
    own = {job.id: job.oven.own for job in formulation.work.jobs if job.oven is not None}
    schedule = settled(formulation.problem, outcome.schedule, own)
    breaches = check(formulation.problem, schedule)
    if breaches:
        raise AssertionError("\n".join(map(str, breaches)))
    return schedule
