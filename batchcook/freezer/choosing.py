"""Which dinner on which freezer night: chosen by CP-SAT.

What has to hold: one dish a night; no container more than there is, and none more than it takes
to feed the table; every container within its dates; no main ingredient on two freezer nights
running. What is made as small as can be, in this order:

1. containers that pass their best-by date uneaten before the month is over;
2. people at the table who are not fed;
3. nights on which anybody is not;
4. nights with a dish that the household wants no more of;
5. portions left over;
6. days that were left to the portions eaten: oldest first.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import Final

from batchcook.freezer.nights import Chosen, Lot, Night
from batchcook.freezer.queues import Queue

__all__ = ["choose"]

_WORKERS: Final = 1
_SEED: Final = 7
"""One worker and one seed: the same stock gives the same month."""


def choose(
    nights: Sequence[Night],
    lots: Sequence[Lot],
    span: tuple[dt.date, dt.date],
    *,
    effort: float = 1.0,
) -> Chosen:
    """Choose the dinners of the nights that are not settled.

    Args:
        nights: The freezer nights in order, settled ones among them.
        lots: What there is, less what the settled nights take.
        span: The first and the last day; best-by dates between them count.
        effort: How long to search for each goal at most, in the solver's own time, which does not
            depend on the machine: about as many seconds.
    """
    from ortools.sat.python import cp_model  # noqa: PLC0415 - loads slowly

    from batchcook.freezer.monthmodel import MonthModel  # noqa: PLC0415 - the same

    month = MonthModel(nights, lots, span)
    solver = cp_model.CpSolver()
    parameters = solver.parameters
    parameters.num_workers, parameters.random_seed = _WORKERS, _SEED
    parameters.linearization_level = 2
    parameters.cp_model_probing_level = parameters.symmetry_level = 0
    reached: list[int] = []
    proved = False
    dinners: tuple[Mapping[int, int], ...] = tuple({} for _ in nights)
    for goal in month.goals:
        month.model.minimize(goal)
        parameters.max_deterministic_time = effort
        status = solver.solve(month.model)
        if status not in {cp_model.OPTIMAL, cp_model.FEASIBLE}:
            break
        dinners = month.dinners(solver.value)
        reached.append(round(solver.objective_value))
        proved = proved or (len(reached) == 1 and status == cp_model.OPTIMAL)
        month.keep(goal, reached[-1], solver.value)
    return Chosen(
        _containers(month.queues, nights, dinners),
        passing=reached[0] if reached else month.may_pass,
        proved=proved,
    )


def _containers(
    queues: Sequence[Queue], nights: Sequence[Night], dinners: Sequence[Mapping[int, int]]
) -> tuple[Mapping[int, int], ...]:
    """For each night, lot number to how many: the queues emptied from their front."""
    chosen: list[dict[int, int]] = [{} for _ in nights]
    for number, queue in enumerate(queues):
        waiting = iter(queue.containers)
        for place, dinner in enumerate(dinners):
            for _ in range(dinner.get(number, 0)):
                lot = next(each for each in waiting if each.last_day >= nights[place].on).lot
                chosen[place][lot] = chosen[place].get(lot, 0) + 1
    return tuple(chosen)
