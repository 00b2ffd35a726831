"""Constraints for resources that keep a setting: warm-ups, and tasks that share one."""

from __future__ import annotations

from itertools import combinations

from ortools.sat.python import cp_model

from batchcook.scheduling.problem import Problem, Resource
from batchcook.scheduling.variables import Literal, Variables

__all__ = ["keep_settings"]


def keep_settings(model: cp_model.CpModel, problem: Problem, variables: Variables) -> None:
    """A task on a resource with a warm-up has one of its own or joins a kept setting."""
    for resource in problem.resources.values():
        if resource.warm_up is None:
            continue
        users = _users(model, problem, variables, resource)
        for one, other in combinations(users, 2):
            _together_only_at_one_setting(
                model, variables, (one, users[one]), (other, users[other])
            )
        for rank, (task, uses) in enumerate(users.items()):
            warmed = _own_warm_up(model, variables, resource, task, uses)
            joins = []
            for place, earlier in enumerate(users):
                if earlier == task or not _common_settings(variables, earlier, task):
                    continue
                margin = 0 if place < rank else 1
                joins.append(_join(model, variables, resource, (earlier, task), margin))
                # What is done on another resource, though it could be on this one, warms nothing.
                for literal in (users[earlier], uses):
                    if literal is not variables.always:
                        model.add_implication(joins[-1], literal)
            model.add(sum(joins) + warmed == uses)


def _users(
    model: cp_model.CpModel, problem: Problem, variables: Variables, resource: Resource
) -> dict[str, Literal]:
    """The tasks that may use the resource, each with the literal that it does."""
    users = {}
    for task in problem.tasks.values():
        of = variables.tasks[task.id]
        using = [mode.id for mode in task.modes if mode.demands.get(resource.id, 0) > 0]
        if using and len(using) == len(task.modes):
            users[task.id] = of.done
        elif len(using) == 1:
            users[task.id] = of.modes[using[0]]
        elif using:
            literal = model.new_bool_var(f"{task.id} uses {resource.id}")
            model.add(sum(of.modes[name] for name in using) == literal)
            users[task.id] = literal
    return users


def _together_only_at_one_setting(
    model: cp_model.CpModel,
    variables: Variables,
    one: tuple[str, Literal],
    other: tuple[str, Literal],
) -> None:
    """Two tasks that overlap are done at one setting."""
    first, second = variables.tasks[one[0]], variables.tasks[other[0]]
    ahead = model.new_bool_var(f"{one[0]} ahead of {other[0]}")
    behind = model.new_bool_var(f"{other[0]} ahead of {one[0]}")
    model.add(first.release <= second.start).only_enforce_if(ahead)
    model.add(second.release <= first.start).only_enforce_if(behind)
    same = model.new_bool_var(f"{one[0]} with {other[0]}")
    _at_one_setting(model, variables, (one[0], other[0]), same)
    model.add_bool_or([ahead, behind, same, ~one[1], ~other[1]])


def _common_settings(variables: Variables, one: str, other: str) -> set[int]:
    return set(variables.tasks[one].settings) & set(variables.tasks[other].settings)


def _at_one_setting(
    model: cp_model.CpModel, variables: Variables, pair: tuple[str, str], literal: Literal
) -> None:
    """Both tasks are done at the same setting where the literal holds."""
    first, second = (variables.tasks[name].settings for name in pair)
    common = _common_settings(variables, *pair)
    for value, chosen in (*first.items(), *second.items()):
        if value not in common:
            model.add_implication(literal, ~chosen)
    for value in common:
        model.add_implication(literal, second[value]).only_enforce_if(first[value])


def _own_warm_up(
    model: cp_model.CpModel, variables: Variables, resource: Resource, task: str, uses: Literal
) -> Literal:
    """A warm-up of its own ends at the task's start and does not begin before the day."""
    warmed = model.new_bool_var(f"{task} warms {resource.id}")
    variables.warmed[task, resource.id] = warmed
    model.add_implication(warmed, uses)
    earliest = variables.origin + (resource.warm_up or 0)
    model.add(variables.tasks[task].start >= earliest).only_enforce_if(warmed)
    return warmed


def _join(
    model: cp_model.CpModel,
    variables: Variables,
    resource: Resource,
    pair: tuple[str, str],
    margin: int,
) -> Literal:
    """A joining task starts no earlier than the joined, while its setting is still kept."""
    earlier, later = (variables.tasks[name] for name in pair)
    join = model.new_bool_var(f"{pair[1]} joins {pair[0]} at {resource.id}")
    variables.joins[pair[0], pair[1], resource.id] = join
    model.add(earlier.start + margin <= later.start).only_enforce_if(join)
    model.add(earlier.end >= later.start - resource.keeps).only_enforce_if(join)
    _at_one_setting(model, variables, pair, join)
    return join
