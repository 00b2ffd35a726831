"""Lower bounds of the makespan by refutation: a day so short is shown to be impossible.

Destructive improvement (Klein and Scholl, European Journal of Operational Research 112 (1999)
322-346). A tight makespan narrows every window, so that a relaxation refutes it at once which
gives only a weak bound as long as the makespan is free.
"""

from __future__ import annotations

from ortools.sat.python import cp_model

from batchcook.scheduling.searching import BOTH_ENDS, FOUND, Effort, Kind, search
from batchcook.scheduling.variables import Expression

__all__ = ["least_hands", "raised_floor"]

_REFUTING = Kind(linear=2, edge_finding=True)
_ONE_TRY = 0.4  # of the time: what is not refuted soon is not refuted in ten times as long


def least_hands(model: cp_model.CpModel, hands: Expression, effort: Effort) -> int | None:
    """A proved least for the busy minutes of the hands in any schedule; None if there is none."""
    only = model.clone()
    only.minimize(hands)
    solver, status = search(only, BOTH_ENDS, seconds=effort.left, workers=effort.workers)
    return None if status == cp_model.INFEASIBLE else round(solver.best_objective_bound)


def raised_floor(
    model: cp_model.CpModel, makespan: Expression, floor: int, ceiling: int, effort: Effort
) -> int:
    """The least makespan not refuted, stepping up from a floor in growing steps.

    Args:
        model: Every rule of the problem.
        makespan: The variable to bound.
        floor: A bound that is known.
        ceiling: A makespan that has been found; nothing above it is tried.
        effort: How long to try.
    """
    one_try = _ONE_TRY * effort.left
    step = 1
    while floor < ceiling and effort.left > 0:
        tried = min(floor + step, ceiling) - 1
        shorter = model.clone()
        shorter.proto.clear_objective()
        shorter.add(makespan <= tried)
        _, status = search(shorter, _REFUTING, seconds=one_try, workers=1)
        if status == cp_model.INFEASIBLE:
            floor = tried + 1
            step *= 2
        elif status in FOUND:
            ceiling = tried
            step = max(1, (ceiling - floor) // 2)
        elif step == 1:
            break
        else:
            step = max(1, step // 3)
    return floor
