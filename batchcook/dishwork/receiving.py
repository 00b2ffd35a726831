"""How a vessel receives food that is hot already, and how long food waits hot in one."""

from __future__ import annotations

from batchcook.cookbooks.recipe import Step
from batchcook.dishwork.draft import Draft
from batchcook.dishwork.keephot import with_words
from batchcook.dishwork.warming import WARM_UP, draw_warming, straight_in
from batchcook.dishwork.work import STRAIGHT_ON, Link
from batchcook.foodsafety.limits import STRAIGHT_ON_MINUTES

__all__ = ["HOLD_CROCK", "HOLD_POT", "chain_in_vessel", "receive"]

HOLD_POT = 40
"""Minutes a finished pot may wait on low heat before it turns: common practice, no source."""

_HOLD_BOILED = 2
"""Minutes that boiled potatoes or pasta may overrun: common practice, no source."""

HOLD_CROCK = 60
"""Minutes a finished slow cooker may stand on warm: common practice, no source."""

_WARM_POT = 20
"""Minutes softened vegetables may wait in their pot for what joins them: common practice."""

_FILLING = 45
"""Minutes from the first browned load in a hot vessel to the rest of what goes in: the same.

Vegetables softened in that vessel wait as long: they stand on low heat under the loads, and one
cook, or one skillet, has them all to brown in between.
"""


def receive(draft: Draft, step: Step, vessel: str, entry: str) -> str | None:
    """Browned loads go straight into a vessel that is already hot; from whose start it is."""
    loads = [load for each in step.after for load in draft.straight.get(each, ())]
    if not loads:
        return None
    earlier = [
        job
        for each in draft.order
        if each.vessel == vessel and each.name in draft.heat and each.name in step.after
        for job in draft.entry[each.name]
    ]
    waiting = f"the {vessel} is hot and waits to be filled"
    if earlier:
        hot = earlier[0]
    else:
        warm = draw_warming(draft, step)
        with_words(draft, (entry,), "What it was warmed with is in already.")
        draft.links.append(Link(warm.id, entry, high=_FILLING, reason=waiting))
        hot = warm.id
    with_words(draft, loads, straight_in(step))
    for load in loads:
        # What is seared goes on top of what is already hot there, never into an empty cold pot.
        ahead = 0 if earlier or step.technique != "slow-cook" else WARM_UP
        draft.links.append(Link(hot, load, low=ahead, to="end"))
        draft.links.append(
            Link(
                load,
                hot,
                low=None,
                high=STRAIGHT_ON_MINUTES,
                reason=f"{STRAIGHT_ON}: it goes straight on",
            )
        )
        draft.links.append(Link(load, entry, high=_FILLING, reason=waiting))
    return hot


def chain_in_vessel(draft: Draft, step: Step, entry: str, place: int = 0) -> None:
    """What waits hot in a vessel does not wait for ever."""
    for before in map(draft.recipe.step, step.after):
        if before.vessel != step.vessel or before.name not in draft.heat:
            continue
        for job in draft.inputs(before, step, place):
            loaded = any(draft.straight.get(each) for each in step.after)
            softened = _FILLING if loaded else _WARM_POT
            hold = {"boil": _HOLD_BOILED, "sweat": softened}.get(before.technique, HOLD_POT)
            draft.links.append(
                Link(job, entry, high=hold, reason=f"{before.name}: ready, it keeps so long")
            )
