"""Why there is no schedule, and what little would have to change for one.

A set of limits that clash is found by dividing (Junker, "QuickXPlain: preferred explanations and
relaxations for over-constrained problems", AAAI 2004, 167-172) and is minimal: without any one
of them it is not proved that there is no schedule.
"""

from __future__ import annotations

import time
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from batchcook.scheduling.problem import Problem
from batchcook.scheduling.refuting import impossible_part, refuted
from batchcook.scheduling.relaxing import (
    Kind,
    Reference,
    elements,
    group_of,
    loosened,
    reason_of,
    reduced,
)
from batchcook.scheduling.schedule import Answer, Schedule
from batchcook.scheduling.solver import satisfy
from batchcook.scheduling.spare import suffices
from batchcook.scheduling.tied import alone, with_budgets

__all__ = ["Conflict", "Reference", "Repair", "explain", "repairs"]

_STEP_SHARE = 0.1  # of the time given that one proof may take
_TRY_SHARE = 0.4  # the same, of the time for one repair
_PART_SHARE = 0.4  # of the time given for a part that is impossible by itself
_Group = tuple[Reference, ...]
_ORDER: tuple[Kind, ...] = (
    "horizon",
    "window",
    "absence",
    "capacity",
    "budget",
    "lag",
    "occupancy",
)


@dataclass(frozen=True)
class Conflict:
    """Limits that cannot all be kept.

    Attributes:
        references: The limits; empty where durations and precedence alone clash, or where
            nothing was proved.
        proved: Whether it is proved that no schedule keeps them all.
        minimal: Whether every one of them was shown to be needed within the time given; those of
            one kind, reason and group of tasks count as one.
        tasks: The tasks that cannot keep them, whatever else is done; None for all.
    """

    references: tuple[Reference, ...]
    proved: bool
    minimal: bool
    tasks: frozenset[str] | None = None


@dataclass(frozen=True)
class Repair:
    """The least by which one limit would have to give way.

    Attributes:
        reference: The limit.
        amount: By how much: units of a capacity, minutes of anything else.
        schedule: A schedule that shows that it is enough.
        least: Whether it is proved that less is not enough.
    """

    reference: Reference
    amount: int
    schedule: Schedule
    least: bool


class _Judge:
    """Says what is proved impossible, until the time is up."""

    def __init__(self, seconds: float, share: float = _STEP_SHARE) -> None:
        self._ends = time.monotonic() + seconds
        self._step = seconds * share
        self.certain = True

    def answer(self, problem: Problem) -> tuple[Answer, Schedule | None]:
        """Whether a problem has a schedule, and one if it has."""
        if refuted(problem, seconds=self._left()) is not None:
            return Answer.IMPOSSIBLE, None
        if self._left() <= 0:
            self.certain = False
            return Answer.UNKNOWN, None
        outcome = satisfy(problem, seconds=self._left())
        if outcome.answer is Answer.UNKNOWN:
            self.certain = False
        return outcome.answer, outcome.schedule

    def _left(self) -> float:
        """Seconds that the next proof may take."""
        return min(self._step, self._ends - time.monotonic())

    def refutes(self, problem: Problem) -> bool:
        """Whether it is proved that a problem has no schedule."""
        return self.answer(problem)[0] is Answer.IMPOSSIBLE


def explain(problem: Problem, *, seconds: float, part: frozenset[str] | None = None) -> Conflict:
    """A minimal set of limits of an impossible problem that clash.

    Limits of one kind, reason and group of tasks are one, as one is told of them once.
    Where some of the tasks cannot be done by themselves already, the limits are of these alone.

    Args:
        problem: A problem without a schedule.
        seconds: Wall-clock time to spend; when it is up, the set may not be minimal.
        part: Tasks known to be impossible by themselves; looked for where None.

    Returns:
        The conflict; not ``proved`` where no proof of impossibility was found in the time.
    """
    began = time.monotonic()
    part = part or impossible_part(problem, seconds=seconds * _PART_SHARE)
    if part is not None:
        wider = with_budgets(problem, part)
        judge = _Judge(seconds - (time.monotonic() - began))
        if judge.refutes(_however_long(alone(problem, wider))):
            return _of_part(problem, wider, judge)
    judge = _Judge(seconds - (time.monotonic() - began))
    if not judge.refutes(problem):
        return Conflict((), proved=False, minimal=False)
    return _explained(problem, judge)


def _of_part(problem: Problem, part: frozenset[str], judge: _Judge) -> Conflict:
    """The conflict of some of the tasks alone, in terms of the whole problem."""
    lags = [
        place for place, lag in enumerate(problem.lags) if lag.before in part and lag.after in part
    ]
    found = _explained(_however_long(alone(problem, part)), judge)
    references = tuple(
        Reference("lag", str(lags[int(each.id)])) if each.kind == "lag" else each
        for each in found.references
        if each.kind != "horizon"
    )
    return replace(found, references=references, tasks=part)


def _however_long(part: Problem) -> Problem:
    """A part without the day's end, which is no limit of its own: it may come at any time."""
    return reduced(part, {*elements(part)} - {Reference("horizon")})


def _explained(problem: Problem, judge: _Judge) -> Conflict:
    """A minimal set of limits that clash in a problem of which it is proved that they do."""
    if judge.refutes(reduced(problem, set())):
        return Conflict((), proved=True, minimal=True)
    judge.certain = True
    found = _divided(judge, problem, [], [], _groups(problem))
    references = tuple(each for group in found for each in group)
    return Conflict(references, proved=True, minimal=judge.certain)


def _groups(problem: Problem) -> list[_Group]:
    """What may limit the schedules, by preference; all of one reason and group together."""
    groups: dict[object, list[Reference]] = {}
    for each in sorted(elements(problem), key=lambda item: _ORDER.index(item.kind)):
        if each.kind != "capacity" or not suffices(problem, problem.resources[each.id]):
            reason = reason_of(problem, each)
            of = group_of(problem, each)
            groups.setdefault((each.kind, reason, of) if reason else each, []).append(each)
    return [tuple(group) for group in groups.values()]


def _divided(
    judge: _Judge,
    problem: Problem,
    background: list[_Group],
    added: Sequence[_Group],
    limits: list[_Group],
) -> list[_Group]:
    """The limits needed, beside the background, for there to be no schedule."""
    if added and judge.refutes(reduced(problem, {each for group in background for each in group})):
        return []
    if len(limits) == 1:
        return limits
    first, second = limits[: len(limits) // 2], limits[len(limits) // 2 :]
    needed = _divided(judge, problem, background + first, first, second)
    return needed + _divided(judge, problem, background + needed, needed, first)


def repairs(
    problem: Problem, references: Iterable[Reference], *, seconds: float
) -> tuple[Repair, ...]:
    """The least relaxation of each limit alone that makes the whole problem possible.

    Args:
        problem: A problem without a schedule.
        references: Limits that may give way, such as those of its conflict.
        seconds: Wall-clock time to spend on each.

    Returns:
        A repair for each limit that can help by itself, each with its schedule; the smallest
        first, units of a capacity after minutes.
    """
    found = []
    for reference in references:
        repair = _repair(_Judge(seconds, _TRY_SHARE), problem, reference)
        if repair is not None:
            found.append(repair)
    return tuple(sorted(found, key=lambda item: (item.reference.kind == "capacity", item.amount)))


def _repair(judge: _Judge, problem: Problem, reference: Reference) -> Repair | None:
    """Double the amount until it is enough, then halve the interval."""
    refused, amount = 0, 1
    enough: tuple[int, Schedule] | None = None
    least = True
    while enough is None and amount <= _most(problem, reference):
        answer, schedule = _answer(judge, problem, reference, amount)
        if schedule is not None:
            enough = (amount, schedule)
        else:
            least = least and answer is Answer.IMPOSSIBLE
            refused, amount = amount, 2 * amount
    if enough is None:
        return None
    while enough[0] - refused > 1:
        middle = (enough[0] + refused) // 2
        answer, schedule = _answer(judge, problem, reference, middle)
        if schedule is not None:
            enough = (middle, schedule)
        else:
            least = least and answer is Answer.IMPOSSIBLE
            refused = middle
    return Repair(reference, enough[0], enough[1], least)


def _most(problem: Problem, reference: Reference) -> int:
    """The most by which it makes sense to give way."""
    return 4 if reference.kind == "capacity" else 2 * problem.horizon


def _answer(
    judge: _Judge, problem: Problem, reference: Reference, amount: int
) -> tuple[Answer, Schedule | None]:
    changed = loosened(problem, reference, amount)
    return (Answer.IMPOSSIBLE, None) if changed is None else judge.answer(changed)
