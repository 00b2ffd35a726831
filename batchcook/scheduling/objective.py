"""The levels of the lexicographic objective that the CP-SAT model decides."""

from __future__ import annotations

from collections.abc import Mapping

from ortools.sat.python import cp_model

from batchcook.scheduling.problem import Problem, Task
from batchcook.scheduling.variables import Expression, Variables

__all__ = ["levels"]

_weighted_sum = cp_model.LinearExpr.weighted_sum
_MOVED = 2  # a minute by which a task moves, against a weighted minute of waiting


def levels(
    model: cp_model.CpModel,
    problem: Problem,
    variables: Variables,
    starts: Mapping[str, int] | None = None,
) -> list[tuple[str, Expression | None]]:
    """The names and expressions of the levels, in order of importance; None where all is 0.

    Args:
        model: The model, which is given variables for what the levels count.
        problem: The problem.
        variables: Its variables in the model.
        starts: When tasks start in a schedule in use. By how much they move counts as waiting
            does: somebody has to be told of it.
    """
    waits = [wait for _, wait in variables.waits]
    weights = [weight for weight, _ in variables.waits]
    moves = _moves(model, problem, variables, starts or {})
    waits, weights = [*waits, *moves], [*weights, *(_MOVED for _ in moves)]
    return [
        ("makespan", variables.makespan),
        ("hands", _hands(model, problem, variables)),
        ("waiting", _weighted_sum(waits, weights) if waits else None),
    ]


def _moves(
    model: cp_model.CpModel, problem: Problem, variables: Variables, starts: Mapping[str, int]
) -> list[Expression]:
    """The minutes between when a task starts and when it was to start, for each that is done."""
    moves: list[Expression] = []
    for name, minute in starts.items():
        of = variables.tasks.get(name)
        if of is not None:
            move = model.new_int_var(0, problem.horizon, f"move {name}")
            model.add(move >= of.start - minute).only_enforce_if(of.done)
            model.add(move >= minute - of.start).only_enforce_if(of.done)
            moves.append(move)
    return moves


def _hands(model: cp_model.CpModel, problem: Problem, variables: Variables) -> Expression | None:
    """Busy minutes of the hands, set-ups and clean-downs included."""
    terms = [
        term for task in problem.tasks.values() for term in _busy(model, problem, variables, task)
    ]
    if not terms:
        return None
    return _weighted_sum([literal for literal, _ in terms], [minutes for _, minutes in terms])


def _busy(
    model: cp_model.CpModel, problem: Problem, variables: Variables, task: Task
) -> list[tuple[Expression, int]]:
    """What one task costs: variables, each with its busy minutes."""
    of = variables.tasks[task.id]
    amounts = {
        mode.id: sum(mode.demands.get(hand, 0) for hand in problem.hands) for mode in task.modes
    }
    if not any(amounts.values()):
        return []
    terms: list[tuple[Expression, int]] = [
        (of.modes[mode.id], amounts[mode.id] * mode.duration) for mode in task.modes
    ]
    if of.opens is None or of.closes is None or task.family is None:
        return terms
    family = problem.families[task.family]
    if len(set(amounts.values())) == 1:
        amount = min(amounts.values())
        return [
            *terms,
            (of.opens, amount * family.set_up),
            (of.closes, amount * family.clean_down),
        ]
    most = max(amounts.values()) * (family.set_up + family.clean_down)
    cost = model.new_int_var(0, most, f"extra hands {task.id}")
    for mode in task.modes:
        extra = _weighted_sum(
            [of.opens, of.closes],
            [amounts[mode.id] * family.set_up, amounts[mode.id] * family.clean_down],
        )
        model.add(cost >= extra).only_enforce_if(of.modes[mode.id])
    return [*terms, (cost, 1)]
