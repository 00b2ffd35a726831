"""Constraints that follow from the others, stated because they make proofs fast."""

from __future__ import annotations

from ortools.sat.python import cp_model

from batchcook.scheduling.energy import (
    Stretch,
    least_kept,
    lost_minutes,
    shortest_day,
    stretches,
)
from batchcook.scheduling.network import Network, network
from batchcook.scheduling.problem import Occupancy, Problem, Task
from batchcook.scheduling.variables import Expression, Variables

__all__ = ["strengthen"]


def strengthen(model: cp_model.CpModel, problem: Problem, variables: Variables) -> int:
    """State what follows from the rules but is slow to find by search.

    Args:
        model: The model to add to.
        problem: The problem.
        variables: Its variables in the model.

    Returns:
        A lower bound of the makespan, in minutes.
    """
    bounds = network(problem)
    day = shortest_day(problem, bounds)
    model.add(variables.makespan >= day)
    _runs(model, problem, variables)
    _kept(model, problem, variables, bounds)
    _energies(model, problem, variables, bounds, day)
    return day


def _runs(model: cp_model.CpModel, problem: Problem, variables: Variables) -> None:
    """A family that is done at all has a first and a last part; two parts are not a circle."""
    parts: dict[str, list[Task]] = {}
    for task in problem.tasks.values():
        if task.family is not None:
            parts.setdefault(task.family, []).append(task)
    for family in parts.values():
        names = [task.id for task in family]
        for edges in ("opens", "closes"):
            ends = [getattr(variables.tasks[name], edges) for name in names]
            if _sure(problem, family):
                model.add_at_least_one(ends)
                continue
            for name in names:
                model.add(cp_model.LinearExpr.sum(ends) >= variables.tasks[name].done)
    for (one, other), link in variables.links.items():
        if one < other and (other, one) in variables.links:
            model.add_at_most_one(link, variables.links[other, one])


def _sure(problem: Problem, family: list[Task]) -> bool:
    """Whether one part at least is done, however the choices are taken."""
    covered: dict[str, set[str]] = {}
    for task in family:
        if not task.when:
            return True
        if len(task.when) == 1:
            condition = task.when[0]
            covered.setdefault(condition.choice, set()).update(condition.options)
    return any(
        options.issuperset(problem.choices[name].options) for name, options in covered.items()
    )


def _kept(model: cp_model.CpModel, problem: Problem, variables: Variables, bounds: Network) -> None:
    """An occupancy lasts at least as long as what is done in it."""
    for occupancy in problem.occupancies:
        _, present = variables.occupied[occupancy.id]
        least = least_kept(bounds, occupancy)
        model.add(variables.kept[occupancy.id] >= least).only_enforce_if(present)


def _energies(
    model: cp_model.CpModel, problem: Problem, variables: Variables, bounds: Network, day: int
) -> None:
    """What the tasks between a head and a tail demand must fit there."""
    for stretch in stretches(problem, bounds):
        terms = _work(problem, variables, bounds, stretch)
        work = cp_model.LinearExpr.weighted_sum(
            [variable for variable, _ in terms], [minutes for _, minutes in terms]
        )
        resource = stretch.resource
        lost = lost_minutes(problem, resource, stretch.head, day - stretch.tail)
        room = resource.capacity * (variables.makespan - stretch.head - stretch.tail)
        model.add(work + lost <= room)


def _work(
    problem: Problem, variables: Variables, bounds: Network, stretch: Stretch
) -> list[tuple[Expression, int]]:
    """Variables, each with the resource-minutes it brings into a stretch."""
    terms: list[tuple[Expression, int]] = []
    for use in stretch.uses:
        if isinstance(use.of, Occupancy):
            terms.append((variables.kept[use.of.id], use.of.amount))
            continue
        of = variables.tasks[use.of.id]
        amounts = [mode.demands.get(stretch.resource.id, 0) for mode in use.of.modes]
        for mode, amount in zip(use.of.modes, amounts, strict=True):
            terms.append((of.modes[mode.id], amount * mode.duration))
        if of.opens is None or of.closes is None or use.of.family is None:
            continue
        family = problem.families[use.of.family]
        terms.append((of.opens, min(amounts) * family.set_up))
        if bounds.tails[use.of.id] - family.clean_down >= stretch.tail:
            terms.append((of.closes, min(amounts) * family.clean_down))
    return terms
