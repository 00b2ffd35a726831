"""Takes elements out of a problem, or gives way a little in one of them."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass, replace
from typing import Literal

from batchcook.scheduling.problem import Absence, Lag, Problem, Resource, Task
from batchcook.scheduling.spare import most_at_once

__all__ = ["Kind", "Reference", "elements", "group_of", "loosened", "reason_of", "reduced"]

Kind = Literal["horizon", "window", "lag", "budget", "absence", "capacity", "occupancy"]


@dataclass(frozen=True, order=True)
class Reference:
    """An element of a problem that limits its schedules.

    Attributes:
        kind: What it is.
        id: Which: a task for a window, a resource for a capacity, a budget, an occupancy; the
            place among the problem's lags for a lag, ``resource#place`` for an absence, empty
            for the horizon.
    """

    kind: Kind
    id: str = ""


def elements(problem: Problem) -> Iterator[Reference]:
    """Whatever limits the schedules, but durations and plain precedence."""
    yield Reference("horizon")
    for task in problem.tasks.values():
        if task.earliest is not None or task.latest is not None:
            yield Reference("window", task.id)
    for place, lag in enumerate(problem.lags):
        if lag.high is not None:
            yield Reference("lag", str(place))
    for budget in problem.budgets:
        yield Reference("budget", budget.id)
    for resource in problem.resources.values():
        yield Reference("capacity", resource.id)
        for place, _ in enumerate(resource.absences):
            yield Reference("absence", f"{resource.id}#{place}")
    for occupancy in problem.occupancies:
        yield Reference("occupancy", occupancy.id)


def reason_of(problem: Problem, reference: Reference) -> str:
    """Why an element is as it is, in the words of who stated the problem; empty where unsaid."""
    if reference.kind == "window":
        return problem.tasks[reference.id].reason
    if reference.kind == "lag":
        return problem.lags[int(reference.id)].reason
    if reference.kind == "budget":
        return next(each.reason for each in problem.budgets if each.id == reference.id)
    return ""


def group_of(problem: Problem, reference: Reference) -> str | None:
    """The group of the task at which an element begins to count; None where it has none."""
    if reference.kind == "lag":
        return problem.tasks[problem.lags[int(reference.id)].before].group
    if reference.kind == "budget":
        budget = next(each for each in problem.budgets if each.id == reference.id)
        return problem.tasks[budget.spans[0].before].group if budget.spans else None
    return None


def reduced(problem: Problem, kept: Collection[Reference]) -> Problem:
    """The problem without the elements that are not kept."""
    return replace(
        problem,
        horizon=problem.horizon if Reference("horizon") in kept else _ample(problem),
        tasks={
            task.id: task
            if Reference("window", task.id) in kept
            else replace(task, earliest=None, latest=None)
            for task in problem.tasks.values()
        },
        lags=tuple(
            lag if Reference("lag", str(place)) in kept else replace(lag, high=None)
            for place, lag in enumerate(problem.lags)
        ),
        budgets=tuple(item for item in problem.budgets if Reference("budget", item.id) in kept),
        resources={
            resource.id: _reduced_resource(problem, resource, kept)
            for resource in problem.resources.values()
        },
        occupancies=tuple(
            item for item in problem.occupancies if Reference("occupancy", item.id) in kept
        ),
    )


def _ample(problem: Problem) -> int:
    """A horizon within which everything could be done one after another."""
    longest = sum(max(mode.duration for mode in task.modes) for task in problem.tasks.values())
    around = sum(
        problem.families[task.family].set_up + problem.families[task.family].clean_down
        for task in problem.tasks.values()
        if task.family is not None
    )
    waits = sum(abs(lag.low or 0) for lag in problem.lags)
    warm_ups = sum(item.warm_up or 0 for item in problem.resources.values()) * len(problem.tasks)
    return problem.horizon + longest + around + waits + warm_ups


def _reduced_resource(
    problem: Problem, resource: Resource, kept: Collection[Reference]
) -> Resource:
    places = [
        place
        for place, _ in enumerate(resource.absences)
        if Reference("absence", f"{resource.id}#{place}") in kept
    ]
    limited = Reference("capacity", resource.id) in kept
    named = limited and bool(resource.units)
    return replace(
        resource,
        capacity=resource.capacity if limited else _plenty(problem, resource),
        units=resource.units if named else (),
        absences=tuple(resource.absences[place] for place in places) if limited else (),
        absence_units=tuple(resource.absence_units[place] for place in places) if named else (),
    )


def _plenty(problem: Problem, resource: Resource) -> int:
    """As much of a resource as everything at once could use."""
    return max(resource.capacity, most_at_once(problem, resource), 1)


def loosened(problem: Problem, reference: Reference, amount: int) -> Problem | None:
    """The problem with one element giving way by minutes or units; None where none can."""
    change = _CHANGES.get(reference.kind)
    return None if change is None else change(problem, reference.id, amount)


def _later_horizon(problem: Problem, _: str, amount: int) -> Problem:
    return replace(problem, horizon=problem.horizon + amount)


def _wider_window(problem: Problem, name: str, amount: int) -> Problem:
    return replace(problem, tasks={**problem.tasks, name: _wider(problem.tasks[name], amount)})


def _longer_lag(problem: Problem, place: str, amount: int) -> Problem:
    lags = list(problem.lags)
    lags[int(place)] = _longer(lags[int(place)], amount)
    return replace(problem, lags=tuple(lags))


def _larger_budget(problem: Problem, name: str, amount: int) -> Problem:
    budgets = tuple(
        replace(item, limit=item.limit + amount) if item.id == name else item
        for item in problem.budgets
    )
    return replace(problem, budgets=budgets)


def _more_capacity(problem: Problem, name: str, amount: int) -> Problem:
    resource = _more(problem.resources[name], amount)
    return replace(problem, resources={**problem.resources, name: resource})


def _later_absence(problem: Problem, which: str, amount: int) -> Problem:
    name, _, place = which.rpartition("#")
    resource = _shorter_absence(problem.resources[name], int(place), amount)
    return replace(problem, resources={**problem.resources, name: resource})


_CHANGES: dict[Kind, Callable[[Problem, str, int], Problem]] = {
    "horizon": _later_horizon,
    "window": _wider_window,
    "lag": _longer_lag,
    "budget": _larger_budget,
    "capacity": _more_capacity,
    "absence": _later_absence,
}


def _wider(task: Task, amount: int) -> Task:
    """A later latest, or an earlier earliest where the task has no latest."""
    if task.latest is not None:
        return replace(task, latest=task.latest + amount)
    return replace(task, earliest=max((task.earliest or 0) - amount, 0))


def _longer(lag: Lag, amount: int) -> Lag:
    return lag if lag.high is None else replace(lag, high=lag.high + amount)


def _more(resource: Resource, amount: int) -> Resource:
    """More units, which are never away."""
    added = tuple(f"{resource.id} +{number}" for number in range(1, amount + 1))
    return replace(
        resource,
        capacity=resource.capacity + amount,
        units=resource.units + added if resource.units else (),
    )


def _shorter_absence(resource: Resource, place: int, amount: int) -> Resource:
    """An absence that begins later, by minutes."""
    absences = list(resource.absences)
    old = absences[place]
    absences[place] = Absence(min(old.start + amount, old.end), old.end, old.amount)
    return replace(resource, absences=tuple(absences))
