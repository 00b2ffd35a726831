"""Constraints on what resources can give at once."""

from __future__ import annotations

from ortools.sat.python import cp_model

from batchcook.scheduling.classes import UnitClass, classes_of, missing
from batchcook.scheduling.problem import Problem, Resource, Task
from batchcook.scheduling.variables import Expression, TaskVariables, Variables

__all__ = ["limit_capacities"]

_Use = tuple[cp_model.IntervalVar, Expression | int]


def limit_capacities(model: cp_model.CpModel, problem: Problem, variables: Variables) -> None:
    """At every minute the demands on a resource are within its capacity."""
    for resource in problem.resources.values():
        classes = classes_of(resource)
        uses = _demands(model, problem, variables, resource)
        whole = UnitClass(resource.capacity, resource.units, resource.absences)
        uses += _occupied(model, problem, variables, resource)
        uses += _warm_ups(model, problem, variables, resource)
        _limit(model, uses, whole)
        if len(classes) > 1:
            for place, units in enumerate(classes):
                _limit(model, _class_demands(model, problem, variables, resource, place), units)


def _limit(model: cp_model.CpModel, uses: list[_Use], units: UnitClass) -> None:
    if not uses:
        return
    for absence in missing(units.absences, units.capacity):
        interval = model.new_fixed_size_interval_var(
            absence.start, absence.end - absence.start, f"absence {absence.start}"
        )
        uses.append((interval, absence.amount))
    intervals, demands = zip(*uses, strict=True)
    ones = all(isinstance(demand, int) and demand == 1 for demand in demands)
    if units.capacity == 1 and ones and all(_lasts(interval) for interval in intervals):
        model.add_no_overlap(intervals)
    else:
        model.add_cumulative(intervals, demands, units.capacity)


def _lasts(interval: cp_model.IntervalVar) -> bool:
    """Whether an interval is at least a minute; an empty one may lie inside another."""
    size = interval.size_expr()
    if isinstance(size, int):
        return size > 0
    if isinstance(size, cp_model.IntVar):
        return bool(size.proto.domain[0] > 0)
    return False


def _demands(
    model: cp_model.CpModel, problem: Problem, variables: Variables, resource: Resource
) -> list[_Use]:
    """The intervals of the tasks that demand the resource, one a task where modes do not differ."""
    uses: list[_Use] = []
    for task in problem.tasks.values():
        of = variables.tasks[task.id]
        amounts = {mode.id: mode.demands.get(resource.id, 0) for mode in task.modes}
        if len(task.modes) > 1 and len(set(amounts.values())) == 1 and min(amounts.values()) > 0:
            uses.append((_whole(model, task, of, of.done), min(amounts.values())))
            continue
        uses += [
            (of.held[mode.id], amounts[mode.id])
            for mode in task.modes
            if amounts[mode.id] > 0 and (task.family is not None or mode.duration > 0)
        ]
    return uses


def _whole(
    model: cp_model.CpModel, task: Task, of: TaskVariables, present: cp_model.IntVar
) -> cp_model.IntervalVar:
    return model.new_optional_interval_var(of.start, of.size, of.release, present, task.id)


def _class_demands(
    model: cp_model.CpModel,
    problem: Problem,
    variables: Variables,
    resource: Resource,
    place: int,
) -> list[_Use]:
    """The intervals of the tasks with the amount each takes of one class of units."""
    uses: list[_Use] = []
    for task in problem.tasks.values():
        share = variables.shares.get((task.id, resource.id, place))
        if share is None:
            continue
        of = variables.tasks[task.id]
        if max(mode.demands.get(resource.id, 0) for mode in task.modes) == 1:
            uses.append((_whole(model, task, of, share), 1))
        else:
            uses.append((_whole(model, task, of, of.done), share))
    return uses


def _occupied(
    model: cp_model.CpModel, problem: Problem, variables: Variables, resource: Resource
) -> list[_Use]:
    """The intervals of the occupancies of the resource."""
    uses: list[_Use] = []
    for occupancy in problem.occupancies:
        if occupancy.resource != resource.id:
            continue
        first, present = variables.occupied[occupancy.id]
        until = variables.tasks[occupancy.until].end
        size = variables.kept[occupancy.id]
        interval = model.new_optional_interval_var(first, size, until, present, occupancy.id)
        uses.append((interval, occupancy.amount))
    return uses


def _warm_ups(
    model: cp_model.CpModel, problem: Problem, variables: Variables, resource: Resource
) -> list[_Use]:
    """The intervals in which warm-ups take all of the resource, or some for that of another."""
    uses: list[_Use] = []
    for (task, name), warmed in variables.warmed.items():
        warming = problem.resources[name]
        amount = warming.warm_up_takes(resource.id)
        if amount and warming.warm_up:
            end = variables.tasks[task].start
            interval = model.new_optional_interval_var(
                end - warming.warm_up, warming.warm_up, end, warmed, f"warm-up {task}"
            )
            uses.append((interval, amount))
    return uses
