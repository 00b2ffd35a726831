"""Solves a problem with CP-SAT, level by level, and says how good the answer is."""

from __future__ import annotations

import time

from ortools.sat.python import cp_model

from batchcook.scheduling.constraints import constrain
from batchcook.scheduling.descent import SMALL, Descent
from batchcook.scheduling.extraction import extract, shares_taken
from batchcook.scheduling.hints import suggest
from batchcook.scheduling.listing import list_schedule
from batchcook.scheduling.objective import levels
from batchcook.scheduling.problem import Problem
from batchcook.scheduling.schedule import Answer, InUse, Outcome, Schedule
from batchcook.scheduling.searching import FOUND, OWN, Effort, Progress, search
from batchcook.scheduling.starting import first_schedule
from batchcook.scheduling.strengthen import strengthen
from batchcook.scheduling.units import assign_units
from batchcook.scheduling.variables import Variables, declare
from batchcook.scheduling.wholeruns import WholeRuns
from batchcook.withheld import Withheld

__all__ = ["satisfy", "solve"]

_RUNS = 0.3  # of the time, at most, for schedules of whole runs


def solve(
    problem: Problem,
    *,
    seconds: float,
    workers: int = 4,
    progress: Progress | None = None,
    hint: Schedule | None = None,
    in_use: InUse | None = None,
    depth: int | None = None,
    patience: float = 1.0,
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
        in_use: A schedule that somebody works by: moving its tasks counts like waiting, and who
            does them stays where the times allow it.
        depth: How many levels to look at; all of them where None.
        patience: Share of the seconds within which a first schedule is to be found.

    Returns:
        A plan with its levels, or proof that there is none, or that it is not known in the time.
    """
    began = time.monotonic()
    model, variables, floor = _model(problem)
    start = hint
    runs = None
    if start is None and not _is_plain(problem) and len(problem.tasks) > SMALL:
        runs = WholeRuns(problem, workers, _RUNS * seconds, floor)
        start = first_schedule(problem, runs)
    if start is not None:
        suggest(model, problem, variables, start)
    effort = Effort(workers, began + seconds, progress)
    every = levels(model, problem, variables, {} if in_use is None else in_use.starts)
    stages = every[:depth]
    if effort.left <= 0:
        return Outcome(Answer.UNKNOWN, seconds=time.monotonic() - began)
    first_by = began + patience * seconds
    plain = _is_plain(problem)
    descent = Descent(problem, model, variables, effort, seconds, first_by, floor, plain, runs)
    for place, (name, expression) in enumerate(stages):
        last = all(later is None for _, later in stages[place + 1 :])
        if place == 0:
            descent.shorten(name, every[1], last=last)
        else:
            descent.take(name, expression, last=last, repeat=last and depth is None)
        if descent.best is None:
            return Outcome(descent.refusal, seconds=time.monotonic() - began)
    best = descent.settled() if depth is None else descent.best
    if best is None:
        raise Withheld("a problem has a first level")
    schedule = extract(best, problem, variables)
    shares = shares_taken(best, variables)
    units = None if in_use is None else in_use.units
    schedule, hand_overs = assign_units(problem, schedule, shares, units)
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
    model, variables, _ = _model(problem)
    solver, status = search(model, OWN, seconds=seconds, workers=workers)
    if status not in FOUND:
        refusal = Answer.IMPOSSIBLE if status == cp_model.INFEASIBLE else Answer.UNKNOWN
        return Outcome(refusal, seconds=time.monotonic() - began)
    schedule = extract(solver, problem, variables)
    schedule, _ = assign_units(problem, schedule, shares_taken(solver, variables))
    return Outcome(Answer.PLAN, schedule, seconds=time.monotonic() - began)


def _model(problem: Problem) -> tuple[cp_model.CpModel, Variables, int]:
    """The model with every rule and what follows from them; the least makespan known."""
    model = cp_model.CpModel()
    variables = declare(model, problem)
    constrain(model, problem, variables)
    floor = 0 if _is_plain(problem) else strengthen(model, problem, variables)
    return model, variables, floor


def _is_plain(problem: Problem) -> bool:
    """Whether CP-SAT does best when left alone: no families, occupancies or maximal lags."""
    return not (
        problem.families or problem.occupancies or any(lag.high is not None for lag in problem.lags)
    )
