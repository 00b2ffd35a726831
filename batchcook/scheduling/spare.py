"""What there is always enough of limits nothing, and need not be searched over."""

from __future__ import annotations

from dataclasses import replace

from batchcook.scheduling.problem import Occupancy, Problem, Resource

__all__ = ["most_at_once", "suffices", "without_spare"]


def most_at_once(problem: Problem, resource: Resource) -> int:
    """As much of a resource as all that asks for it could use at one time."""
    demands = sum(
        max(mode.demands.get(resource.id, 0) for mode in task.modes)
        for task in problem.tasks.values()
    )
    kept = sum(each.amount for each in problem.occupancies if each.resource == resource.id)
    return demands + kept


def without_spare(problem: Problem) -> Problem:
    """The problem without occupancies of resources that cannot run short.

    Its schedules are the same: those resources suffice even for everything at once, less all that
    is ever missing. An occupancy that obliges to an optional task stays.
    """
    spare = {each.id for each in problem.resources.values() if suffices(problem, each)}

    def limits(each: Occupancy) -> bool:
        until = problem.tasks.get(each.until)
        return each.resource not in spare or until is None or bool(until.when)

    return replace(problem, occupancies=tuple(filter(limits, problem.occupancies)))


def suffices(problem: Problem, resource: Resource) -> bool:
    """Whether there is enough of a resource, come what may, so that it limits nothing."""
    if resource.units or resource.warm_up:
        return False
    missing = sum(each.amount for each in resource.absences)
    return most_at_once(problem, resource) + missing <= resource.capacity
