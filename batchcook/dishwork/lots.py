"""In which lots a dish is worked in its pans and baked: what fits the oven, what hands can do."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

from batchcook.cookbooks.recipe import Step
from batchcook.dishwork.coldwaits import cold_waits
from batchcook.dishwork.draft import Draft
from batchcook.dishwork.pans import pan_use
from batchcook.dishwork.work import Lot
from batchcook.kitchens.kitchen import Kitchen
from batchcook.kitchens.techniques import load_techniques

__all__ = ["hand_lots", "oven_capacity", "oven_lots"]

_LONGEST = 20
"""Minutes for which cold perishable food is under hands at most, as far as its pans allow: ours."""


def oven_capacity(kitchen: Kitchen) -> int:
    """The half shelves of the oven that has most."""
    return 2 * max((oven.shelves for oven in kitchen.ovens), default=0)


def oven_lots(draft: Draft, name: str) -> tuple[Lot, ...]:
    """The loads in which what is in a pan of the recipe's is baked.

    Args:
        draft: The dish, in a kitchen that has an oven.
        name: A sheet pan or baking dish of the recipe's.
    """
    use, capacity = pan_use(draft, name), oven_capacity(draft.kitchen)
    loads = [
        Lot(go, share * shelves / wanted, half_shelves=shelves)
        for go, (share, wanted) in enumerate(zip(use.goes, use.half_shelves, strict=True))
        for done in range(0, wanted, capacity)
        if (shelves := min(capacity, wanted - done))
    ]
    return tuple(replace(lot, load=number) for number, lot in enumerate(loads))


def hand_lots(draft: Draft, step: Step, minutes: Callable[[float], int]) -> tuple[Lot, ...]:
    """The lots in which a step's work by hand in pans is done.

    One for each load of the oven that it goes on to, else for each filling of the pans. Cold
    perishable food that would be under hands for long is done in fewer pans at a time, each put
    into the refrigerator before the next is begun.

    Args:
        draft: The dish.
        step: Work by hand in a sheet pan or baking dish.
        minutes: How long the work takes on a share of the dish.
    """
    name = str(step.vessel)
    if draft.kitchen.ovens and _goes_into_the_oven(draft, step):
        lots = oven_lots(draft, name)
    else:
        goes = pan_use(draft, name).goes
        lots = tuple(Lot(go, share) for go, share in enumerate(goes))
    if step.name not in cold_waits(draft.recipe):
        return lots
    pans = draft.recipe.vessels[name].per_batch * draft.dish.batches
    parts = [
        min(max(1, round(pans * lot.share)), math.ceil(minutes(lot.share) / _LONGEST))
        for lot in lots
    ]
    return tuple(
        replace(lot, share=lot.share / number)
        for lot, number in zip(lots, parts, strict=True)
        for _ in range(number)
    )


def _goes_into_the_oven(draft: Draft, step: Step) -> bool:
    """Whether what a step leaves in its pans is baked in them."""
    return any(
        load_techniques()[each.technique].oven or _goes_into_the_oven(draft, each)
        for each in draft.order
        if step.name in each.after and each.vessel == step.vessel
    )
