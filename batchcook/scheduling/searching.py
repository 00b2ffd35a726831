"""CP-SAT searches, each kind with the settings that serve it."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass

from ortools.sat.python import cp_model

from batchcook.scheduling.stopping import solved

__all__ = [
    "BOTH_ENDS",
    "DECIDING",
    "FINDING",
    "FOUND",
    "IMPROVING",
    "OWN",
    "Effort",
    "Kind",
    "Progress",
    "search",
    "teller",
]

Progress = Callable[[str, int, int], None]
"""Told a level's name, the best value and the best bound so far."""

FOUND = (cp_model.OPTIMAL, cp_model.FEASIBLE)
_SEED = 1
_ONE_NEIGHBOURHOOD = 0.02  # deterministic seconds; a fifth of CP-SAT's own first limit
_LEAST_SECONDS = 0.01  # CP-SAT takes a limit of 0 for none


@dataclass(frozen=True)
class Kind:
    """What a search is good at.

    Attributes:
        linear: How much of the model its linear relaxation holds, 0 to 2; None for the default.
        full: The full searches to run, one worker each; CP-SAT's own choice where empty. Workers
            beyond them improve neighbourhoods of the best schedule.
        edge_finding: Whether to reason harder about what shares a resource. (The overload checker
            of OR-Tools 9.15 can end the whole process with a failed check of its own.)
        presolve: Whether the model is made smaller first, which takes longer than it saves where a
            schedule is found at once.
        improving: Whether every worker improves neighbourhoods of a schedule that is known, in many
            short tries.
        turns: Whether the searches take turns, so that they repeat, with this limit in
            deterministic seconds; side by side where None.
    """

    linear: int | None = None
    full: tuple[str, ...] = ()
    edge_finding: bool = False
    presolve: bool = True
    improving: bool = False
    turns: float | None = None


OWN = Kind()
"""CP-SAT's own choice of searches, best where neither set-ups nor what is kept come in."""

BOTH_ENDS = Kind(linear=2, full=("max_lp", "no_lp"))
"""One search for the bound, which lives in the linear relaxation, and one without; the other
workers improve neighbourhoods of the best schedule, which is what long days lack."""

FINDING = Kind(linear=0, full=("no_lp",))
"""Schedules and not bounds."""

DECIDING = Kind(linear=0, full=("no_lp", "quick_restart_no_lp"))
"""Whether there is any schedule at all, for two workers."""

IMPROVING = Kind(linear=0, improving=True)
"""A better schedule from one that is near, and no bound at all."""


@dataclass(frozen=True)
class Effort:
    """How long searches may go on, with how many workers, and who is told."""

    workers: int
    ends: float
    progress: Progress | None = None

    @property
    def left(self) -> float:
        """Seconds of wall clock that are left."""
        return self.ends - time.monotonic()


def search(
    model: cp_model.CpModel,
    kind: Kind,
    *,
    seconds: float,
    workers: int,
    seed: int = _SEED,
    told: cp_model.CpSolverSolutionCallback | None = None,
) -> tuple[cp_model.CpSolver, cp_model.CpSolverStatus]:
    """Search a model for at most so many seconds, with its objective where it has one."""
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = workers
    solver.parameters.random_seed = seed
    if kind.turns is None:
        solver.parameters.max_time_in_seconds = max(seconds, _LEAST_SECONDS)
    else:
        solver.parameters.interleave_search = workers > 1  # one alone repeats as it is
        solver.parameters.max_deterministic_time = max(kind.turns, _LEAST_SECONDS)
    if kind.linear is not None:
        solver.parameters.linearization_level = kind.linear
    if kind.full:
        # Left alone, CP-SAT repeats the full searches until one worker is left for neighbourhoods.
        solver.parameters.subsolvers.extend(kind.full)
        solver.parameters.num_full_subsolvers = len(kind.full)
    if kind.improving:
        solver.parameters.use_lns_only = True
        solver.parameters.lns_initial_deterministic_limit = _ONE_NEIGHBOURHOOD
    solver.parameters.cp_model_presolve = kind.presolve
    solver.parameters.use_timetable_edge_finding_in_cumulative = kind.edge_finding
    try:
        status = solved(solver, model, told)
    except IndexError:
        # The detection of symmetries of OR-Tools 9.15 looks up what is not there on some models.
        solver.parameters.symmetry_level = 0
        status = solved(solver, model, told)
    return solver, status


def teller(name: str, progress: Progress | None) -> cp_model.CpSolverSolutionCallback | None:
    """What passes a level's values and bounds on, where somebody wants to know."""
    return None if progress is None else _Teller(name, progress)


class _Teller(cp_model.CpSolverSolutionCallback):
    def __init__(self, name: str, progress: Progress) -> None:
        super().__init__()
        self._name = name
        self._progress = progress

    def on_solution_callback(self) -> None:
        self._progress(self._name, round(self.objective_value), round(self.best_objective_bound))
