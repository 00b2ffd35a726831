"""Which dinner on which freezer night: chosen by CP-SAT.

What has to hold: one dish a night; no container more than there is, and none more than it takes
to feed the table; every container within its dates; no main ingredient on two freezer nights
running. What is made as small as can be, in this order:

1. containers that pass their best-by date uneaten before the month is over;
2. people at the table who are not fed;
3. nights on which anybody is not;
4. nights with a dish that the household wants no more of;
5. where it is looked further than the month: containers that pass their best-by date by then;
6. portions left over;
7. days that were left to the portions eaten: oldest first;
8. empty nights before full ones, then a main ingredient again after one night or two between.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from itertools import combinations
from typing import Final

from batchcook.freezer.nights import Chosen, Lot, Night

__all__ = ["choose"]

_WORKERS: Final = 1
_SEED: Final = 7
"""One worker and one seed: the same stock gives the same month."""


def choose(
    nights: Sequence[Night],
    lots: Sequence[Lot],
    span: tuple[dt.date, dt.date],
    *,
    looked_to: dt.date | None = None,
    effort: float = 1.0,
) -> Chosen:
    """Choose the dinners of the nights that are not settled.

    Args:
        nights: The freezer nights in order, settled ones among them. Those after the span that are
            not settled are only looked at, so that not more is left for them than they can eat.
        lots: What there is, less what the settled nights take.
        span: The first and the last day; best-by dates between them count.
        looked_to: The last day that is looked at; that of the span where it is left out.
        effort: How long to search for each goal at most, in the solver's own time, which does not
            depend on the machine: about as many seconds.
    """
    from ortools.sat.python import cp_model  # noqa: PLC0415 - loads slowly

    from batchcook.freezer.monthmodel import MonthModel  # noqa: PLC0415 - the same
    from batchcook.scheduling.stopping import solved  # noqa: PLC0415 - the same

    month = MonthModel(nights, lots, span, looked_to)
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
        # The last is comfort, and worth less waiting.
        parameters.max_deterministic_time = effort if goal is not month.goals[-1] else effort / 3
        status = solved(solver, month.model)
        if status not in {cp_model.OPTIMAL, cp_model.FEASIBLE}:
            break
        dinners = month.dinners(solver.value)
        reached.append(round(solver.objective_value))
        proved = proved or (len(reached) == 1 and status == cp_model.OPTIMAL)
        month.keep(goal, reached[-1], solver.value)
    return Chosen(
        _older_earlier(nights, lots, dinners),
        passing=reached[0] if reached else month.may_pass,
        proved=proved,
    )


def _older_earlier(
    nights: Sequence[Night], lots: Sequence[Lot], dinners: Sequence[Mapping[int, int]]
) -> tuple[Mapping[int, int], ...]:
    """The same dinners, but of a dish's containers of one size the older on the earlier night.

    Two change places where both stay within their dates and no more pass their best-by for it.
    """
    places = [
        (night, lot)
        for night, dinner in enumerate(dinners)
        for lot in sorted(dinner)
        for _ in range(dinner[lot])
    ]
    changed = True
    while changed:
        changed = False
        for one, other in combinations(range(len(places)), 2):
            (early, first), (late, second) = places[one], places[other]
            if early < late and _better_swapped(
                (nights[early].on, nights[late].on), lots[first], lots[second]
            ):
                places[one], places[other] = (early, second), (late, first)
                changed = True
    chosen: list[dict[int, int]] = [{} for _ in nights]
    for night, lot in places:
        chosen[night][lot] = chosen[night].get(lot, 0) + 1
    return tuple(chosen)


def _better_swapped(on: tuple[dt.date, dt.date], first: Lot, second: Lot) -> bool:
    """Whether the second lot is the older and may well be eaten on the earlier evening."""
    early, late = on
    alike = (first.dish, first.portions) == (second.dish, second.portions)
    older = (second.last_day, second.best_by) < (first.last_day, first.best_by)
    in_date = second.from_day <= early and late <= first.last_day
    if not (alike and older and in_date):
        return False
    in_time = (early <= first.best_by) + (late <= second.best_by)
    return (early <= second.best_by) + (late <= first.best_by) >= in_time
