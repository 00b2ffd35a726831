"""The constraints of the CP-SAT model, one function a rule."""

from __future__ import annotations

from ortools.sat.python import cp_model

from batchcook.scheduling.capacities import limit_capacities
from batchcook.scheduling.classes import classes_of
from batchcook.scheduling.problem import Occupancy, Problem, Resource, Task
from batchcook.scheduling.settings import keep_settings
from batchcook.scheduling.variables import (
    Expression,
    Literal,
    TaskVariables,
    Variables,
    conjunction,
    linkable,
)

__all__ = ["constrain"]


def constrain(model: cp_model.CpModel, problem: Problem, variables: Variables) -> None:
    """State every rule of the problem, in order."""
    _durations(model, problem, variables)
    _windows(model, problem, variables)
    _makespan(model, problem, variables)
    _links(model, problem, variables)
    _lags(model, problem, variables)
    _budgets(model, problem, variables)
    _occupancies(model, problem, variables)
    _shares(model, problem, variables)
    keep_settings(model, problem, variables)
    limit_capacities(model, problem, variables)


def _durations(model: cp_model.CpModel, problem: Problem, variables: Variables) -> None:
    """The work of a task lasts as long as its mode says, after a set-up where it has one."""
    for task in problem.tasks.values():
        of = variables.tasks[task.id]
        if isinstance(of.size, int):
            continue
        work = cp_model.LinearExpr.weighted_sum(
            [of.modes[mode.id] for mode in task.modes], [mode.duration for mode in task.modes]
        )
        if of.opens is None or of.closes is None:
            model.add(of.size == work).only_enforce_if(of.done)
            continue
        family = problem.families[task.family or ""]
        model.add(of.end == of.start + family.set_up * of.opens + work).only_enforce_if(of.done)
        model.add(of.release == of.end + family.clean_down * of.closes).only_enforce_if(of.done)


def _windows(model: cp_model.CpModel, problem: Problem, variables: Variables) -> None:
    """A task starts no earlier than its earliest, and its work ends no later than its latest."""
    for task in problem.tasks.values():
        of = variables.tasks[task.id]
        if task.earliest is not None:
            model.add(of.start >= task.earliest).only_enforce_if(of.done)
        if task.latest is not None:
            model.add(of.end <= task.latest).only_enforce_if(of.done)
        model.add(of.release <= problem.horizon).only_enforce_if(of.done)


def _makespan(model: cp_model.CpModel, problem: Problem, variables: Variables) -> None:
    """The makespan reaches from the origin to every release."""
    for task in problem.tasks.values():
        of = variables.tasks[task.id]
        model.add(of.release <= variables.makespan + variables.origin).only_enforce_if(of.done)
        if problem.free_origin:
            model.add(of.start >= variables.origin).only_enforce_if(of.done)


def _links(model: cp_model.CpModel, problem: Problem, variables: Variables) -> None:
    """A part has one predecessor or a set-up, one successor or a clean-down; links are tight."""
    before: dict[str, list[Literal]] = {}
    after: dict[str, list[Literal]] = {}
    for (earlier, later), link in variables.links.items():
        first, second = variables.tasks[earlier], variables.tasks[later]
        model.add(first.end == second.start).only_enforce_if(link)
        _same_mode(model, problem, (problem.tasks[earlier], problem.tasks[later]), variables)
        after.setdefault(earlier, []).append(link)
        before.setdefault(later, []).append(link)
    for name, of in variables.tasks.items():
        if of.opens is not None and of.closes is not None:
            model.add(cp_model.LinearExpr.sum(before.get(name, [])) + of.opens == of.done)
            model.add(cp_model.LinearExpr.sum(after.get(name, [])) + of.closes == of.done)


def _same_mode(
    model: cp_model.CpModel, problem: Problem, pair: tuple[Task, Task], variables: Variables
) -> None:
    """Linked parts are done in modes of one name that use the same units."""
    earlier, later = pair
    link = variables.links[earlier.id, later.id]
    first, second = variables.tasks[earlier.id].modes, variables.tasks[later.id].modes
    if len(first) == 1 and len(second) == 1:
        return
    others = {mode.id: mode for mode in later.modes}
    for mode in earlier.modes:
        if mode.id in others and linkable(problem, mode, others[mode.id]):
            model.add_implication(link, second[mode.id]).only_enforce_if(first[mode.id])
        else:
            model.add_implication(link, ~first[mode.id])


def _lags(model: cp_model.CpModel, problem: Problem, variables: Variables) -> None:
    """The time between two anchors is within the lag's limits, where both tasks are done."""
    for place, lag in enumerate(problem.lags):
        before, after = variables.tasks[lag.before], variables.tasks[lag.after]
        gap = after.at(lag.to) - before.at(lag.origin)
        binds = _binding(variables, before.done, after.done)
        binds += _binding(variables, conjunction(model, variables, lag.when))
        if lag.low is not None:
            model.add(gap >= lag.low).only_enforce_if(binds)
        if lag.high is not None:
            model.add(gap <= lag.high).only_enforce_if(binds)
        if lag.weight:
            most = problem.horizon if lag.high is None else lag.high - (lag.low or 0)
            wait = model.new_int_var(0, max(most, 0), f"wait {place}")
            model.add(wait >= gap - (lag.low or 0)).only_enforce_if(binds)
            variables.waits.append((lag.weight, wait))


def _binding(variables: Variables, *literals: Literal) -> list[Literal]:
    return [literal for literal in literals if literal is not variables.always]


def _budgets(model: cp_model.CpModel, problem: Problem, variables: Variables) -> None:
    """The spans of a budget together last at most its limit; absent ones count nothing."""
    for budget in problem.budgets:
        spans: list[Expression] = []
        for place, span in enumerate(budget.spans):
            before, after = variables.tasks[span.before], variables.tasks[span.after]
            length = after.at(span.to) - before.at(span.origin)
            binds = _binding(variables, before.done, after.done)
            if binds:
                counted = model.new_int_var(
                    -problem.horizon, problem.horizon, f"{budget.id} {place}"
                )
                model.add(counted >= length).only_enforce_if(binds)
                for literal in binds:
                    model.add(counted >= 0).only_enforce_if(~literal)
                length = counted
            spans.append(length)
        model.add(cp_model.LinearExpr.sum(spans) <= budget.limit)


def _occupancies(model: cp_model.CpModel, problem: Problem, variables: Variables) -> None:
    """An occupancy begins no later than any filler that is done."""
    for occupancy in problem.occupancies:
        when = conjunction(model, variables, occupancy.when)
        fillers = [variables.tasks[name] for name in occupancy.fillers]
        present = _any_filler(model, variables, fillers, when, occupancy)
        first = model.new_int_var(0, problem.horizon, f"first {occupancy.id}")
        for filler in fillers:
            model.add(first <= filler.start).only_enforce_if(
                _binding(variables, filler.done, present)
            )
        variables.occupied[occupancy.id] = (first, present)
        kept = model.new_int_var(0, problem.horizon, f"kept {occupancy.id}")
        model.add(kept == 0).only_enforce_if(~present)
        variables.kept[occupancy.id] = kept
        model.add_implication(present, variables.tasks[occupancy.until].done)


def _any_filler(
    model: cp_model.CpModel,
    variables: Variables,
    fillers: list[TaskVariables],
    when: Literal,
    occupancy: Occupancy,
) -> Literal:
    if any(filler.done is variables.always for filler in fillers):
        return when
    present = model.new_bool_var(f"occupied {occupancy.id}")
    for filler in fillers:
        model.add_bool_or([present, ~filler.done, ~when])
    model.add_bool_or([~present, *(filler.done for filler in fillers)])
    model.add_implication(present, when)
    return present


def _shares(model: cp_model.CpModel, problem: Problem, variables: Variables) -> None:
    """What a task demands of units that differ in absences is taken from their classes."""
    for resource in problem.resources.values():
        classes = classes_of(resource)
        if len(classes) == 1:
            continue
        for task in problem.tasks.values():
            most = max(mode.demands.get(resource.id, 0) for mode in task.modes)
            if most == 0:
                continue
            of = variables.tasks[task.id]
            for place, units in enumerate(classes):
                variables.shares[task.id, resource.id, place] = model.new_int_var(
                    0, min(most, units.capacity), f"{task.id} of {resource.id} {place}"
                )
            model.add(
                sum(variables.shares[task.id, resource.id, place] for place in range(len(classes)))
                == sum(mode.demands.get(resource.id, 0) * of.modes[mode.id] for mode in task.modes)
            )
        _same_shares(model, resource, len(classes), variables)


def _same_shares(
    model: cp_model.CpModel, resource: Resource, count: int, variables: Variables
) -> None:
    """Linked parts take the same of every class."""
    for (earlier, later), link in variables.links.items():
        for place in range(count):
            first = variables.shares.get((earlier, resource.id, place))
            second = variables.shares.get((later, resource.id, place))
            if first is not None and second is not None:
                model.add(first == second).only_enforce_if(link)
