"""Lower bounds from work: what must be done between heads and tails takes resource-minutes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from batchcook.scheduling.classes import missing
from batchcook.scheduling.network import Network
from batchcook.scheduling.problem import Problem, Resource, Task

__all__ = ["Stretch", "lost_minutes", "shortest_day", "stretches"]


@dataclass(frozen=True)
class Stretch:
    """A resource between a head and a tail of the day, and the tasks that must lie there.

    Attributes:
        resource: The resource.
        head: Minutes from the origin before which none of the tasks starts.
        tail: Minutes before the last release after which none of them works.
        tasks: At least two tasks that may demand the resource.
    """

    resource: Resource
    head: int
    tail: int
    tasks: tuple[Task, ...]


def stretches(problem: Problem, bounds: Network) -> Iterator[Stretch]:
    """Every stretch of the day that is bounded by heads and tails of tasks."""
    for resource in problem.resources.values():
        users = [
            task
            for task in problem.tasks.values()
            if any(mode.demands.get(resource.id, 0) for mode in task.modes)
        ]
        for head in sorted({bounds.heads[task.id] for task in users}):
            late = [task for task in users if bounds.heads[task.id] >= head]
            # A later tail with the same tasks says more, so only the tails that occur count.
            for tail in sorted({bounds.tails[task.id] for task in late}):
                inside = tuple(task for task in late if bounds.tails[task.id] >= tail)
                if len(inside) > 1:
                    yield Stretch(resource, head, tail, inside)


def lost_minutes(problem: Problem, resource: Resource, start: int, end: int) -> int:
    """Resource-minutes missing between two minutes; none where the origin is free to move."""
    if problem.free_origin:
        return 0
    return sum(
        absence.amount * max(min(absence.end, end) - max(absence.start, start), 0)
        for absence in missing(resource.absences, resource.capacity)
    )


def shortest_day(problem: Problem, bounds: Network) -> int:
    """The shortest day in which every stretch has room for its work."""
    day = bounds.length
    for stretch in stretches(problem, bounds):
        work = _least_work(stretch)
        while _room(problem, stretch, day) < work and day <= problem.horizon:
            lacking = work - _room(problem, stretch, day)
            day += max(-(-lacking // max(stretch.resource.capacity, 1)), 1)
    return day


def _room(problem: Problem, stretch: Stretch, day: int) -> int:
    """Resource-minutes that a stretch offers in a day of a length."""
    end = day - stretch.tail
    room = stretch.resource.capacity * max(end - stretch.head, 0)
    return room - lost_minutes(problem, stretch.resource, stretch.head, end)


def _least_work(stretch: Stretch) -> int:
    """The least resource-minutes of a stretch's tasks, set-ups and clean-downs left out."""
    return sum(
        min(mode.demands.get(stretch.resource.id, 0) * mode.duration for mode in task.modes)
        for task in stretch.tasks
        if not task.when
    )
