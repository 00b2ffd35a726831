"""Gives CP-SAT a schedule to start from."""

from __future__ import annotations

from ortools.sat.python import cp_model

from batchcook.scheduling.problem import Problem
from batchcook.scheduling.schedule import Schedule
from batchcook.scheduling.variables import Variables

__all__ = ["keep_solution", "suggest"]


def suggest(
    model: cp_model.CpModel, problem: Problem, variables: Variables, schedule: Schedule
) -> None:
    """Hint every variable that a schedule decides; it need not be feasible."""
    model.proto.clear_solution_hint()
    values: dict[int, int] = {}
    for (choice, option), literal in variables.options.items():
        _put(values, literal, schedule.choices.get(choice) == option)
    for name, done in schedule.tasks.items():
        of = variables.tasks.get(name)
        if of is None:
            continue
        times = ((of.start, done.start), (of.end, done.end), (of.release, done.release))
        for expression, minute in (*times, (of.size, done.release - done.start)):
            _put(values, expression, minute)
        for mode, literal in of.modes.items():
            _put(values, literal, mode == done.mode)
        for setting, literal in of.settings.items():
            _put(values, literal, setting == done.setting)
        _put(values, of.opens, done.follows is None)
    continued = {done.follows for done in schedule.tasks.values()}
    for name, of in variables.tasks.items():
        _put(values, of.closes, name in schedule.tasks and name not in continued)
    for (earlier, later), link in variables.links.items():
        follower = schedule.tasks.get(later)
        _put(values, link, follower is not None and follower.follows == earlier)
    warmed = {(item.task, item.resource) for item in schedule.warm_ups}
    for key, literal in variables.warmed.items():
        _put(values, literal, key in warmed)
    _hint_makespan(values, problem, variables, schedule)
    proto = model.proto.solution_hint
    proto.vars.extend(list(values))
    proto.values.extend(list(values.values()))


def _put(values: dict[int, int], expression: object, value: int) -> None:
    """Note a value where the expression is a variable of its own."""
    if isinstance(expression, cp_model.IntVar) and expression.index >= 0:
        values[expression.index] = int(value)


def _hint_makespan(
    values: dict[int, int], problem: Problem, variables: Variables, schedule: Schedule
) -> None:
    if not schedule.tasks:
        return
    first = schedule.first if problem.free_origin else 0
    last = max(done.release for done in schedule.tasks.values())
    _put(values, variables.origin, first)
    _put(values, variables.makespan, last - first)


def keep_solution(model: cp_model.CpModel, solver: cp_model.CpSolver) -> None:
    """Hint the solution of an earlier level, whole."""
    model.proto.clear_solution_hint()
    solution = list(solver.response_proto.solution)
    proto = model.proto.solution_hint
    proto.vars.extend(list(range(len(solution))))
    proto.values.extend(solution)
