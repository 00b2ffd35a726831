"""Solves a problem with CP-SAT, level by level, and says how good the answer is."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass

from ortools.sat.python import cp_model

from batchcook.scheduling.constraints import constrain
from batchcook.scheduling.extraction import extract, shares_taken
from batchcook.scheduling.hints import keep_solution, suggest
from batchcook.scheduling.listing import list_schedule
from batchcook.scheduling.objective import levels
from batchcook.scheduling.problem import Problem
from batchcook.scheduling.schedule import Answer, Level, Outcome, Schedule
from batchcook.scheduling.starting import first_schedule
from batchcook.scheduling.strengthen import strengthen
from batchcook.scheduling.units import assign_units
from batchcook.scheduling.variables import Expression, Variables, declare

__all__ = ["satisfy", "solve"]

Progress = Callable[[str, int, int], None]
_FOUND = (cp_model.OPTIMAL, cp_model.FEASIBLE)
_SEED = 1
_SHARE = 0.6  # of the time left that a level but the last may take
_EXTRACTION_EFFORT = 15.0  # deterministic seconds; a limit by the clock would not repeat
_START = 0.4  # of the time, at most, for a schedule to start from
_LEAST_SECONDS = 0.01  # CP-SAT takes a limit of 0 for none


def solve(
    problem: Problem,
    *,
    seconds: float,
    workers: int = 4,
    progress: Progress | None = None,
    hint: Schedule | None = None,
    depth: int | None = None,
) -> Outcome:
    """Find the best schedule, level by level.

    Each level is proved, or bounded, by parallel searches with the levels above it held. Where
    all are proved the schedule itself is found anew by one search with a fixed seed and a limit
    that does not depend on the clock, so that the same problem gives the same schedule.

    Args:
        problem: What to schedule.
        seconds: Wall-clock time for the levels; the last search may add a little.
        workers: Searches run side by side; four are best even on two cores.
        progress: Called with a level's name, the best value and the best bound so far.
        hint: A schedule to start from; it need not be feasible.
        depth: How many levels to look at; all of them where None.

    Returns:
        A plan with its levels, or proof that there is none, or that it is not known in the time.
    """
    began = time.monotonic()
    model, variables = _model(problem)
    start = hint
    if start is None and not _is_plain(problem):
        start = first_schedule(problem, seconds=_START * seconds, workers=workers)
    if start is not None:
        suggest(model, problem, variables, start)
    effort = _Effort(workers, began + seconds, progress, plain=_is_plain(problem))
    stages = levels(model, problem, variables)[:depth]
    if time.monotonic() >= effort.ends:
        return Outcome(Answer.UNKNOWN, seconds=time.monotonic() - began)
    best: cp_model.CpSolver | None = None
    reached: list[Level] = []
    for place, (name, expression) in enumerate(stages):
        if expression is None:
            reached.append(Level(name, 0, 0))
            continue
        last = all(later is None for _, later in stages[place + 1 :])
        solver, status = _minimize(model, name, expression, effort, last=last)
        best = solver if status in _FOUND else best
        if best is None:
            refusal = Answer.IMPOSSIBLE if status == cp_model.INFEASIBLE else Answer.UNKNOWN
            return Outcome(refusal, seconds=time.monotonic() - began)
        value = best.value(expression)
        reached.append(Level(name, value, min(round(solver.best_objective_bound), value)))
        model.add(expression <= value)
        keep_solution(model, best)
    if best is None:
        raise AssertionError("a problem has a first level")
    if depth is None and all(level.proved for level in reached):
        best = _found_by_one(model) or best
    schedule = extract(best, problem, variables)
    schedule, hand_overs = assign_units(problem, schedule, shares_taken(best, variables))
    return Outcome(Answer.PLAN, schedule, (*reached, hand_overs), seconds=time.monotonic() - began)


def satisfy(problem: Problem, *, seconds: float, workers: int = 4) -> Outcome:
    """Find any schedule, or prove that there is none; no level of the objective is looked at.

    Args:
        problem: What to schedule.
        seconds: Wall-clock time for the search.
        workers: Searches run side by side.

    Returns:
        A plan without levels, or proof that there is none, or that it is not known in the time.
    """
    began = time.monotonic()
    listed = list_schedule(problem, samples=2, by_group=True)
    if listed is not None:
        return Outcome(Answer.PLAN, listed, seconds=time.monotonic() - began)
    model, variables = _model(problem)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = workers
    solver.parameters.random_seed = _SEED
    solver.parameters.max_time_in_seconds = max(seconds, _LEAST_SECONDS)
    status = solver.solve(model)
    if status not in _FOUND:
        refusal = Answer.IMPOSSIBLE if status == cp_model.INFEASIBLE else Answer.UNKNOWN
        return Outcome(refusal, seconds=time.monotonic() - began)
    schedule = extract(solver, problem, variables)
    schedule, _ = assign_units(problem, schedule, shares_taken(solver, variables))
    return Outcome(Answer.PLAN, schedule, seconds=time.monotonic() - began)


def _model(problem: Problem) -> tuple[cp_model.CpModel, Variables]:
    """The model with every rule and what follows from them, without an objective."""
    model = cp_model.CpModel()
    variables = declare(model, problem)
    constrain(model, problem, variables)
    if not _is_plain(problem):
        strengthen(model, problem, variables)
    return model, variables


def _is_plain(problem: Problem) -> bool:
    """Whether CP-SAT does best when left alone: no families, occupancies or maximal lags."""
    return not (
        problem.families or problem.occupancies or any(lag.high is not None for lag in problem.lags)
    )


@dataclass(frozen=True)
class _Effort:
    """How long the searches may go on, with how many workers, and who is told."""

    workers: int
    ends: float
    progress: Progress | None
    plain: bool

    def share(self, *, last: bool) -> float:
        """Seconds that a level may take."""
        left = self.ends - time.monotonic()
        return max(left if last else left * _SHARE, _LEAST_SECONDS)


def _minimize(
    model: cp_model.CpModel, name: str, expression: Expression, effort: _Effort, *, last: bool
) -> tuple[cp_model.CpSolver, cp_model.CpSolverStatus]:
    """Search for the least value of a level, side by side."""
    model.minimize(expression)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = effort.workers
    solver.parameters.random_seed = _SEED
    solver.parameters.max_time_in_seconds = effort.share(last=last)
    if not effort.plain:
        # One search for the bound, which lives in the linear relaxation, one without; the other
        # workers improve neighbourhoods of the best schedule, which is what long days lack.
        solver.parameters.linearization_level = 2
        solver.parameters.subsolvers.extend(["max_lp", "no_lp"])
    if effort.progress is None:
        return solver, solver.solve(model)
    return solver, solver.solve(model, _Teller(name, effort.progress))


class _Teller(cp_model.CpSolverSolutionCallback):
    """Passes the value and the bound of each solution on."""

    def __init__(self, name: str, progress: Progress) -> None:
        super().__init__()
        self._name = name
        self._progress = progress

    def on_solution_callback(self) -> None:
        self._progress(self._name, round(self.objective_value), round(self.best_objective_bound))


def _found_by_one(model: cp_model.CpModel) -> cp_model.CpSolver | None:
    """Find a schedule with the values held, in a way that repeats."""
    model.proto.clear_objective()
    model.proto.clear_solution_hint()
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = _SEED
    solver.parameters.max_deterministic_time = _EXTRACTION_EFFORT
    return solver if solver.solve(model) in _FOUND else None
