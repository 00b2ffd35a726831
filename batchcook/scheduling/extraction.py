"""From the values of the CP-SAT variables to a schedule."""

from __future__ import annotations

from typing import TYPE_CHECKING

from batchcook.scheduling.problem import Problem, Task
from batchcook.scheduling.schedule import Done, Schedule, WarmUp

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

    from batchcook.scheduling.variables import Variables

__all__ = ["extract", "shares_taken"]


def extract(solver: cp_model.CpSolver, problem: Problem, variables: Variables) -> Schedule:
    """The schedule that a solver found, units not yet given out."""
    follows = {
        later: earlier
        for (earlier, later), link in variables.links.items()
        if solver.boolean_value(link)
    }
    tasks = {
        task.id: _done(solver, problem, variables, task, follows.get(task.id))
        for task in problem.tasks.values()
        if solver.boolean_value(variables.tasks[task.id].done)
    }
    choices = {
        choice: option
        for (choice, option), literal in variables.options.items()
        if solver.boolean_value(literal)
    }
    return Schedule(tasks=tasks, choices=choices, warm_ups=_warm_ups(solver, problem, variables))


def shares_taken(
    solver: cp_model.CpSolver, variables: Variables
) -> dict[tuple[str, str, int], int]:
    """What each task takes of each class of units, where a resource has several."""
    return {key: solver.value(share) for key, share in variables.shares.items()}


def _done(
    solver: cp_model.CpSolver,
    problem: Problem,
    variables: Variables,
    task: Task,
    follows: str | None,
) -> Done:
    of = variables.tasks[task.id]
    start = solver.value(of.start)
    opens = of.opens is not None and solver.boolean_value(of.opens)
    set_up = problem.families[task.family].set_up if task.family and opens else 0
    chosen = next(name for name, literal in of.modes.items() if solver.boolean_value(literal))
    settings = [value for value, literal in of.settings.items() if solver.boolean_value(literal)]
    return Done(
        start=start,
        work=start + set_up,
        end=solver.value(of.end),
        release=solver.value(of.release),
        mode=chosen,
        follows=follows,
        setting=settings[0] if settings else None,
    )


def _warm_ups(
    solver: cp_model.CpSolver, problem: Problem, variables: Variables
) -> tuple[WarmUp, ...]:
    found = []
    for (task, resource), warmed in variables.warmed.items():
        if not solver.boolean_value(warmed):
            continue
        end = solver.value(variables.tasks[task].start)
        length = problem.resources[resource].warm_up or 0
        settings = variables.tasks[task].settings
        setting = next(value for value, lit in settings.items() if solver.boolean_value(lit))
        found.append(WarmUp(resource, end - length, end, setting, task))
    return tuple(sorted(found, key=lambda item: (item.start, item.resource, item.task)))
