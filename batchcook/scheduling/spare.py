"""What there is always enough of limits nothing."""

from __future__ import annotations

from batchcook.scheduling.problem import Mode, Problem, Resource

__all__ = ["most_at_once", "suffices"]


def most_at_once(problem: Problem, resource: Resource) -> int:
    """As much of a resource as all that asks for it could use at one time, warm-ups included."""
    demands = sum(
        max(_asked(problem, resource, mode) for mode in task.modes)
        for task in problem.tasks.values()
    )
    kept = sum(each.amount for each in problem.occupancies if each.resource == resource.id)
    return demands + kept


def _asked(problem: Problem, resource: Resource, mode: Mode) -> int:
    """What a task takes of a resource, or takes before it begins while another warms up for it."""
    warming = (
        problem.resources[name].warm_up_takes(resource.id)
        for name in mode.demands
        if name != resource.id and problem.resources[name].warm_up
    )
    return max(mode.demands.get(resource.id, 0), *warming, 0)


def suffices(problem: Problem, resource: Resource) -> bool:
    """Whether there is enough of a resource, come what may, so that it limits nothing."""
    if resource.units or resource.warm_up:
        return False
    missing = sum(each.amount for each in resource.absences)
    return most_at_once(problem, resource) + missing <= resource.capacity
