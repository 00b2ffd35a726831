"""What there is always enough of limits nothing."""

from __future__ import annotations

from batchcook.scheduling.problem import Problem, Resource

__all__ = ["most_at_once", "suffices"]


def most_at_once(problem: Problem, resource: Resource) -> int:
    """As much of a resource as all that asks for it could use at one time."""
    demands = sum(
        max(mode.demands.get(resource.id, 0) for mode in task.modes)
        for task in problem.tasks.values()
    )
    kept = sum(each.amount for each in problem.occupancies if each.resource == resource.id)
    return demands + kept


def suffices(problem: Problem, resource: Resource) -> bool:
    """Whether there is enough of a resource, come what may, so that it limits nothing."""
    if resource.units or resource.warm_up:
        return False
    missing = sum(each.amount for each in resource.absences)
    return most_at_once(problem, resource) + missing <= resource.capacity
