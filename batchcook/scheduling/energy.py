"""Lower bounds from work: what must be done between heads and tails takes resource-minutes.

And from rounds: of three slow cookers one is filled three times at least for seven dishes.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from batchcook.scheduling.classes import missing
from batchcook.scheduling.network import Network
from batchcook.scheduling.problem import Occupancy, Problem, Resource, Span, Task

__all__ = ["Stretch", "Use", "least_kept", "lost_minutes", "shortest_day", "stretches"]


@dataclass(frozen=True)
class Use:
    """Something that uses a resource.

    Attributes:
        of: The task or the occupancy.
        head: Minutes from the origin before which it does not start.
        tail: Minutes before the last release after which it does not work.
        amount: How much of the resource it takes at a time, at the least.
        minutes: The least time it takes, set-ups left out; 0 if it may be absent.
        least: The least resource-minutes it takes, set-ups left out; 0 if it may be absent.
        sure: Whether it is always done.
    """

    of: Task | Occupancy
    head: int
    tail: int
    amount: int
    minutes: int
    least: int
    sure: bool


@dataclass(frozen=True)
class Stretch:
    """A resource between a head and a tail of the day, and what must lie there."""

    resource: Resource
    head: int
    tail: int
    uses: tuple[Use, ...]


def stretches(problem: Problem, bounds: Network) -> Iterator[Stretch]:
    """Every stretch of the day that is bounded by heads and tails of its uses.

    One of the uses at least is always there, since a day without any need not reach so far.
    """
    for resource in problem.resources.values():
        uses = [*_by_tasks(problem, bounds, resource), *_by_kept(problem, bounds, resource)]
        for head in sorted({use.head for use in uses}):
            late = [use for use in uses if use.head >= head]
            for tail in sorted({use.tail for use in late}):
                inside = tuple(use for use in late if use.tail >= tail)
                if len(inside) > 1 and any(use.sure for use in inside):
                    yield Stretch(resource, head, tail, inside)


def _by_tasks(problem: Problem, bounds: Network, resource: Resource) -> Iterator[Use]:
    for task in problem.tasks.values():
        amounts = [mode.demands.get(resource.id, 0) for mode in task.modes]
        lasts = [mode.duration for mode in task.modes]
        energies = [amount * minutes for amount, minutes in zip(amounts, lasts, strict=True)]
        if any(energies):
            head, tail = bounds.heads[task.id], bounds.tails[task.id]
            sure = not task.when
            least = min(energies) if sure else 0
            yield Use(task, head, tail, min(amounts), min(lasts) if least else 0, least, sure)


def _by_kept(problem: Problem, bounds: Network, resource: Resource) -> Iterator[Use]:
    for occupancy in problem.occupancies:
        if occupancy.resource != resource.id or occupancy.until not in problem.tasks:
            continue
        present = not occupancy.when and bounds.sure.issuperset(occupancy.fillers)
        kept = least_kept(bounds, occupancy)
        yield Use(
            occupancy,
            min(bounds.heads[name] for name in occupancy.fillers),
            bounds.tails[occupancy.until],
            occupancy.amount,
            kept if present else 0,
            occupancy.amount * kept if present else 0,
            present,
        )


def least_kept(bounds: Network, occupancy: Occupancy) -> int:
    """The least minutes an occupancy lasts, whichever filler comes first."""
    lengths = [
        bounds.apart(Span(name, "start", occupancy.until, "end")) or 0 for name in occupancy.fillers
    ]
    sure = [
        length
        for name, length in zip(occupancy.fillers, lengths, strict=True)
        if name in bounds.sure
    ]
    # It lasts at least as long as each filler that is done asks for.
    return max([0, min(lengths), *sure])


def lost_minutes(problem: Problem, resource: Resource, start: int, end: int) -> int:
    """Resource-minutes missing between two minutes; none where the origin is free to move."""
    if problem.free_origin:
        return 0
    return sum(
        absence.amount * max(min(absence.end, end) - max(absence.start, start), 0)
        for absence in missing(resource.absences, resource.capacity)
    )


def shortest_day(problem: Problem, bounds: Network) -> int:
    """The shortest day in which every stretch has room for its work, and time for its rounds."""
    day = bounds.length
    for stretch in stretches(problem, bounds):
        work = sum(use.least for use in stretch.uses)
        longest = max(use.minutes for use in stretch.uses)
        around = stretch.head + stretch.tail
        # No use is divided, which adds less than the longest of them to the work.
        if around + -(-work // max(stretch.resource.capacity, 1)) + longest > day:
            day = max(day, around + _rounds(stretch))
        while (lacking := work - _room(problem, stretch, day)) > 0 and day <= problem.horizon:
            day += max(-(-lacking // max(stretch.resource.capacity, 1)), 1)
    return day


def _rounds(stretch: Stretch) -> int:
    """The least minutes for uses of which only so many have room side by side.

    Of *m* units one serves *k* + 1 at least of the *km* + 1 longest uses, and no shorter ones than
    the shortest *k* + 1 of these: the pigeonhole bound of identical parallel machines (as in
    Dell'Amico and Martello, ORSA Journal on Computing 7 (1995) 191-200; from memory).
    """
    sure = [use for use in stretch.uses if use.minutes > 0]
    if not sure:
        return 0
    lengths = sorted((use.minutes for use in sure), reverse=True)
    side_by_side = max(stretch.resource.capacity // min(use.amount for use in sure), 1)
    return max(
        sum(lengths[last - rounds : last + 1])
        for rounds, last in enumerate(range(0, len(lengths), side_by_side))
    )


def _room(problem: Problem, stretch: Stretch, day: int) -> int:
    """Resource-minutes that a stretch offers in a day of a length."""
    end = day - stretch.tail
    room = stretch.resource.capacity * max(end - stretch.head, 0)
    return room - lost_minutes(problem, stretch.resource, stretch.head, end)
