"""Solves a problem with CP-SAT, level by level, and says how good the answer is."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, field

from ortools.sat.python import cp_model

from batchcook.scheduling.constraints import constrain
from batchcook.scheduling.extraction import extract, shares_taken
from batchcook.scheduling.hints import keep_solution, suggest
from batchcook.scheduling.listing import list_schedule
from batchcook.scheduling.objective import levels
from batchcook.scheduling.problem import Problem
from batchcook.scheduling.schedule import Answer, Level, Outcome, Schedule
from batchcook.scheduling.spare import without_spare
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
_REPEATED_SHARE = 0.01  # deterministic seconds a second given, for a search that must repeat
_INTERLEAVED = 4  # fixed, as the searches that take turns are part of what repeats
_SMALL = 40  # tasks up to which the search is done before a schedule to start from is found
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
    all but the last of them are proved, the last is minimised by searches that take turns with a
    limit that does not depend on the clock, so that the same problem and ``seconds`` give the
    same schedule.

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
    problem = without_spare(problem)
    model, variables = _model(problem)
    start = hint
    if start is None and not _is_plain(problem) and len(problem.tasks) > _SMALL:
        start = first_schedule(problem, seconds=_START * seconds, workers=workers)
    if start is not None:
        suggest(model, problem, variables, start)
    effort = _Effort(workers, began + seconds, progress, plain=_is_plain(problem))
    stages = levels(model, problem, variables)[:depth]
    if time.monotonic() >= effort.ends:
        return Outcome(Answer.UNKNOWN, seconds=time.monotonic() - began)
    descent = _Descent(model, effort, seconds)
    for place, (name, expression) in enumerate(stages):
        last = all(later is None for _, later in stages[place + 1 :])
        descent.take(name, expression, last=last, repeat=last and depth is None)
        if descent.best is None:
            return Outcome(descent.refusal, seconds=time.monotonic() - began)
    best = descent.settled() if depth is None else descent.best
    if best is None:
        raise AssertionError("a problem has a first level")
    schedule = extract(best, problem, variables)
    schedule, hand_overs = assign_units(problem, schedule, shares_taken(best, variables))
    levels_reached = (*descent.reached, hand_overs)
    return Outcome(Answer.PLAN, schedule, levels_reached, seconds=time.monotonic() - began)


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
    problem = without_spare(problem)
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


@dataclass
class _Descent:
    """Takes level after level, each held at the value reached."""

    model: cp_model.CpModel
    effort: _Effort
    seconds: float
    best: cp_model.CpSolver | None = None
    reached: list[Level] = field(default_factory=list)
    refusal: Answer = Answer.UNKNOWN
    repeats: bool = False

    def take(self, name: str, expression: Expression | None, *, last: bool, repeat: bool) -> None:
        """Minimise one level, in a way that repeats where asked and the levels above are proved."""
        if expression is None:
            self.reached.append(Level(name, 0, 0))
            return
        solver = None
        if repeat and self.reached and self._proved():
            solver = _minimize_repeatably(
                self.model, name, expression, self.seconds, self.effort.progress
            )
        self.repeats = solver is not None
        status = cp_model.FEASIBLE
        if solver is None:
            solver, status = _minimize(self.model, name, expression, self.effort, last=last)
        if status in _FOUND:
            self.best = solver
        if self.best is None:
            impossible = status == cp_model.INFEASIBLE
            self.refusal = Answer.IMPOSSIBLE if impossible else Answer.UNKNOWN
            return
        value = self.best.value(expression)
        bound = min(round(solver.best_objective_bound), value)
        self.reached.append(Level(name, value, bound))
        self.model.add(expression <= value)
        keep_solution(self.model, self.best)

    def settled(self) -> cp_model.CpSolver | None:
        """The best solution, found anew in a way that repeats where all values are proved."""
        if self.best is None or self.repeats or not self._proved():
            return self.best
        return _found_by_one(self.model) or self.best

    def _proved(self) -> bool:
        return all(level.proved for level in self.reached)


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
    return solver, _run(solver, model, name, effort.progress)


def _run(
    solver: cp_model.CpSolver, model: cp_model.CpModel, name: str, progress: Progress | None
) -> cp_model.CpSolverStatus:
    """Search, passing on how it goes where somebody wants to know."""
    return solver.solve(model) if progress is None else solver.solve(model, _Teller(name, progress))


class _Teller(cp_model.CpSolverSolutionCallback):
    """Passes the value and the bound of each solution on."""

    def __init__(self, name: str, progress: Progress) -> None:
        super().__init__()
        self._name = name
        self._progress = progress

    def on_solution_callback(self) -> None:
        self._progress(self._name, round(self.objective_value), round(self.best_objective_bound))


def _minimize_repeatably(
    model: cp_model.CpModel,
    name: str,
    expression: Expression,
    seconds: float,
    progress: Progress | None,
) -> cp_model.CpSolver | None:
    """Search for the least value of a level in turns, which gives the same schedule each time."""
    model.minimize(expression)
    model.proto.clear_solution_hint()
    solver = cp_model.CpSolver()
    solver.parameters.interleave_search = True
    solver.parameters.num_workers = _INTERLEAVED
    solver.parameters.random_seed = _SEED
    solver.parameters.linearization_level = 2
    solver.parameters.subsolvers.extend(["max_lp", "no_lp"])
    solver.parameters.max_deterministic_time = max(_REPEATED_SHARE * seconds, _LEAST_SECONDS)
    return solver if _run(solver, model, name, progress) in _FOUND else None


def _found_by_one(model: cp_model.CpModel) -> cp_model.CpSolver | None:
    """Find a schedule with the values held, in a way that repeats."""
    model.proto.clear_objective()
    model.proto.clear_solution_hint()
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = _SEED
    solver.parameters.max_deterministic_time = _EXTRACTION_EFFORT
    return solver if solver.solve(model) in _FOUND else None
