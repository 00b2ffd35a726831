"""Solves a problem with CP-SAT, level by level, and says how good the answer is."""

from __future__ import annotations

import time
from collections.abc import Callable

from ortools.sat.python import cp_model

from batchcook.scheduling.constraints import constrain
from batchcook.scheduling.extraction import extract, shares_taken
from batchcook.scheduling.objective import levels
from batchcook.scheduling.problem import Problem
from batchcook.scheduling.schedule import Answer, Level, Outcome, Schedule
from batchcook.scheduling.units import assign_units
from batchcook.scheduling.variables import declare

__all__ = ["solve"]

Progress = Callable[[str, int, int], None]
_FOUND = (cp_model.OPTIMAL, cp_model.FEASIBLE)


def solve(
    problem: Problem,
    *,
    seconds: float,
    workers: int = 4,
    progress: Progress | None = None,  # noqa: ARG001 - to be reported from the searches
    hint: Schedule | None = None,  # noqa: ARG001 - to be used by the first search
) -> Outcome:
    """Find the best schedule, level by level.

    Args:
        problem: What to schedule.
        seconds: Wall-clock time for proving the levels.
        workers: Searches run side by side; four are best even on two cores.
        progress: Called with a level's name, the best value and the best bound so far.
        hint: A schedule to start from; it need not be feasible.

    Returns:
        A plan with its levels, or proof that there is none, or that it is not known in the time.
    """
    began = time.monotonic()
    model = cp_model.CpModel()
    variables = declare(model, problem)
    constrain(model, problem, variables)
    reached: list[Level] = []
    best: cp_model.CpSolver | None = None
    for name, expression in levels(model, problem, variables):
        model.minimize(expression)
        solver = _solver(workers, max(seconds - (time.monotonic() - began), 0.01))
        status = solver.solve(model)
        if status in _FOUND:
            best = solver
        if best is None:
            answer = Answer.IMPOSSIBLE if status == cp_model.INFEASIBLE else Answer.UNKNOWN
            return Outcome(answer, seconds=time.monotonic() - began)
        value = best.value(expression)
        reached.append(Level(name, value, round(solver.best_objective_bound)))
        model.add(expression <= value)
    if best is None:
        raise AssertionError("there is a first level")
    schedule = extract(best, problem, variables)
    schedule, handovers = assign_units(problem, schedule, shares_taken(best, variables))
    return Outcome(Answer.PLAN, schedule, (*reached, handovers), seconds=time.monotonic() - began)


def _solver(workers: int, seconds: float) -> cp_model.CpSolver:
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = workers
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.random_seed = 1
    return solver
