"""A formulated day solved, checked, or explained; the only door to the solver."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from batchcook.complaints import InputFault
from batchcook.cookbook import Cookbook
from batchcook.day.formulation import Formulation, formulate
from batchcook.day.prepday import PrepDay
from batchcook.day.tonight import WARMING_AND_PLATING, Tonight, with_dinner
from batchcook.day.workday import day_work, ordered_dishes
from batchcook.scheduling.problem import Problem
from batchcook.scheduling.reserve import with_reserve
from batchcook.scheduling.schedule import Answer, Outcome, Schedule
from batchcook.scheduling.settling import settled
from batchcook.scheduling.shifting import begun_at_once, begun_late
from batchcook.withheld import Withheld

if TYPE_CHECKING:
    from batchcook.day.clash import Clash

__all__ = [
    "RESERVE",
    "Effort",
    "NoAnswer",
    "NoPlan",
    "checked",
    "moved_to_its_time",
    "runs_into_dinner",
    "solved",
    "solved_or_explained",
]

_TO_EXPLAIN = 8.0
"""Seconds to look for what clashes, and again for what would help, however short the search was:
an answer without its reason helps nobody."""

_TO_REFUTE = 3.0
"""Seconds at the most to look for a dish that cannot be done by itself, before any search."""

RESERVE = 0.125
"""Share of the time a food may be out that is not planned with, where a day can be done so: work
takes a few percent longer than planned on average, and now and then a good deal. Our own figure."""

_PATIENCE = 0.5
"""Share of the time in which such a day is to be found; then all of food's time is planned with."""

Progress = Callable[[str, int, int], None]


@dataclass(frozen=True)
class Effort:
    """How long to search, in seconds of wall clock, and who is told how it goes."""

    seconds: float = 20.0
    progress: Progress | None = None


class NoPlan(Exception):  # noqa: N818 - an answer, not an error
    """It is proved that the day cannot be done as ordered; with what clashes, where looked for."""

    def __init__(self, clash: Clash | None = None, part: frozenset[str] | None = None) -> None:
        """A clash is this exception's text; of a part it is known that it cannot be done."""
        self.clash, self.part = clash, part
        super().__init__("" if clash is None else str(clash))


class NoAnswer(Exception):  # noqa: N818 - the same
    """Neither a plan nor a proof in the time given."""


def solved(
    formulation: Formulation,
    effort: Effort,
    *,
    depth: int | None = None,
    hint: Schedule | None = None,
) -> Outcome:
    """The best schedule that the effort finds.

    Args:
        formulation: The day.
        effort: How long to search.
        depth: How many levels of the objective to look at; all where None.
        hint: A schedule to start from.

    Raises:
        NoPlan: It is proved that there is none.
        NoAnswer: The time ran out first.
    """
    from batchcook.scheduling.refuting import refuted  # noqa: PLC0415 - CP-SAT takes long to load

    refutation = refuted(formulation.problem, seconds=min(_TO_REFUTE, effort.seconds))
    if refutation is not None:
        raise NoPlan(part=refutation.tasks)
    outcome = _solved_with_reserve(formulation.problem, effort, depth, hint)
    if outcome.answer is Answer.IMPOSSIBLE:
        raise NoPlan
    if outcome.answer is Answer.UNKNOWN:
        raise NoAnswer
    return outcome


def _solved_with_reserve(
    problem: Problem, effort: Effort, depth: int | None, hint: Schedule | None
) -> Outcome:
    """The best schedule that keeps something of food's time in hand; any, where there is none."""
    from batchcook.scheduling.solver import solve  # noqa: PLC0415 - CP-SAT takes long to load

    careful = with_reserve(problem, RESERVE)
    left = effort.seconds
    if careful is not None:
        outcome = solve(
            careful,
            seconds=effort.seconds,
            progress=effort.progress,
            depth=depth,
            hint=hint,
            patience=_PATIENCE,
        )
        if outcome.answer is Answer.PLAN:
            return replace(outcome, reserved=True)
        left -= outcome.seconds
    return solve(problem, seconds=left, progress=effort.progress, depth=depth, hint=hint)


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
    except NoPlan as none:
        from batchcook.day.clash import find_clash  # noqa: PLC0415 - loads CP-SAT

        def possible(changed: PrepDay, seconds: float) -> Schedule | None:
            return _possible(changed, cookbook, seconds)

        def shortest(changed: PrepDay, seconds: float) -> tuple[Formulation, Schedule] | None:
            try:
                work = day_work(ordered_dishes(changed, cookbook), changed)
                free = formulate(work, changed)
                return free, checked(free, solved(free, Effort(seconds), depth=1))
            except (InputFault, NoPlan, NoAnswer):
                return None

        clash = find_clash(
            formulation,
            day,
            possible,
            seconds=_TO_EXPLAIN,
            part=none.part,
            shortest=shortest,
        )
        raise NoPlan(clash) from None


def moved_to_its_time(formulation: Formulation, day: PrepDay, schedule: Schedule) -> Schedule:
    """The schedule begun as soon as it may, or as late where the day has only a finish."""
    begun = begun_late if day.start is None else begun_at_once
    return begun(formulation.problem, schedule)


def runs_into_dinner(formulation: Formulation, schedule: Schedule, tonight: Tonight) -> bool:
    """Whether the day, at its time, still goes on when work for its dinner has to begin."""
    last = max(done.release for done in schedule.tasks.values())
    return last > formulation.clock.minute(tonight.at) - WARMING_AND_PLATING


def _possible(day: PrepDay, cookbook: Cookbook, seconds: float) -> Schedule | None:
    """A schedule of a day, its dinner with it where it runs into that; None where none is found."""
    if seconds <= 0:
        return None
    try:
        work = day_work(ordered_dishes(day, cookbook), day)
        plain = formulate(work, day)
        found = _any(plain, seconds)
        if found is None or day.tonight is None:
            return found
        if not runs_into_dinner(plain, moved_to_its_time(plain, day, found), day.tonight):
            return found
        return _any(formulate(with_dinner(work, day.tonight), day), seconds)
    except InputFault:
        return None


def _any(formulation: Formulation, seconds: float) -> Schedule | None:
    """A schedule of a day, however long; None where none is found in the time."""
    from batchcook.scheduling.refuting import refuted  # noqa: PLC0415 - CP-SAT takes long to load
    from batchcook.scheduling.solver import satisfy  # noqa: PLC0415 - the same

    if refuted(formulation.problem, seconds=seconds / 2):
        return None
    return satisfy(formulation.problem, seconds=seconds).schedule


def checked(formulation: Formulation, outcome: Outcome) -> Schedule:
    """The schedule, ovens as the recipes have them, once the independent checker has passed it.

    Raises:
        Withheld: It did not; the plan is withheld.
    """
    from batchcook.scheduling.check import check  # noqa: PLC0415 - beside its solver

    if outcome.schedule is None:
        raise Withheld("a plan comes with its schedule")
    own = {job.id: job.oven.own for job in formulation.work.jobs if job.oven is not None}
    schedule = settled(formulation.problem, outcome.schedule, own)
    breaches = check(formulation.problem, schedule)
    if breaches:
        raise Withheld("\n".join(map(str, breaches)))
    return schedule
