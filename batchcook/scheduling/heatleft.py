"""What of a resource is left from a minute on: its absences, and the heat that it still keeps."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from batchcook.scheduling.begun import Begun
from batchcook.scheduling.problem import Absence, Mode, Problem, Resource, Task

__all__ = ["from_now", "hot_tasks", "unheated"]


def from_now(resource: Resource, now: int, unheated: Iterable[tuple[int, int]]) -> Resource:
    """The resource with the absences that are left, and out of reach of warm-ups in the past."""
    pairs = [
        (replace(absence, start=max(absence.start, now)), place)
        for place, absence in enumerate(resource.absences)
        if absence.end > now
    ]
    absences = [absence for absence, _ in pairs]
    absences += [Absence(start, end, resource.capacity) for start, end in unheated if start < end]
    units = tuple(resource.absence_units[place] for _, place in pairs) if resource.units else ()
    return replace(resource, absences=tuple(absences), absence_units=units)


def unheated(
    problem: Problem,
    begun: Mapping[str, Begun],
    resource: Resource,
    warming: Mapping[str, int],
    now: int,
) -> list[tuple[int, int]]:
    """When the resource did not warm up for what runs or comes; never, for an ordinary one."""
    if resource.warm_up is None:
        return []
    if any(not begun[name].over for name in _users(problem, begun, resource)):
        return [(0, now - resource.warm_up)]
    if resource.id in warming:
        return [(0, now - max(resource.warm_up - warming[resource.id], 0))]
    last = _left_hot(problem, begun, resource, warming, now)
    if last is None:
        return [(0, now)]
    return [(0, begun[last].end - resource.warm_up), (begun[last].end, now)]


def _left_hot(
    problem: Problem,
    begun: Mapping[str, Begun],
    resource: Resource,
    warming: Mapping[str, int],
    now: int,
) -> str | None:
    """The last task on a resource, where that keeps its setting from there; None where not."""
    users = _users(problem, begun, resource)
    last = max(users, key=lambda name: begun[name].end, default=None)
    if last is None or resource.id in warming or not all(begun[name].over for name in users):
        return None
    kept = begun[last].setting is not None and begun[last].end >= now - resource.keeps
    return last if kept else None


def _users(problem: Problem, begun: Mapping[str, Begun], resource: Resource) -> list[str]:
    """What has begun on a resource that keeps a setting."""
    if resource.warm_up is None:
        return []
    return [
        name
        for name, each in begun.items()
        if name in problem.tasks
        and any(
            mode.id == each.mode and mode.demands.get(resource.id, 0)
            for mode in problem.tasks[name].modes
        )
    ]


def hot_tasks(
    problem: Problem, begun: Mapping[str, Begun], warming: Mapping[str, int], now: int
) -> Iterator[tuple[str, Task]]:
    """What is over but left a resource at its setting, for others to join: without length."""
    for resource in problem.resources.values():
        last = _left_hot(problem, begun, resource, warming, now)
        if last is not None:
            state = begun[last]
            settings = () if state.setting is None else (state.setting,)
            mode = Mode(state.mode, 0, {resource.id: 1})
            yield last, Task(last, (mode,), settings=settings, earliest=state.end, latest=state.end)
