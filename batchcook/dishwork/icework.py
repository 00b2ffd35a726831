"""The work with ice that cools a dish: the bath of its pot, fresh ice under its pans."""

from __future__ import annotations

import math
from collections.abc import Sequence

from batchcook.dishwork.chilling import ICE_BATH, Chilling
from batchcook.dishwork.draft import Draft
from batchcook.dishwork.work import Job, Keep, Link
from batchcook.foodsafety.thermal import si_value
from batchcook.quantities import say

__all__ = ["draw_bath", "draw_fresh_ice"]

_ICE_ANEW = 2
"""Hands-on minutes to pour off one pan's water and fill in ice: an assumption of ours."""

_ICE_LATE = 5
"""Minutes for which what is left of the ice does: an assumption of ours."""


def draw_bath(draft: Draft, chilling: Chilling, after: Sequence[str], portion: str) -> None:
    """The bath of a dish: into cold water, on into ice water, stirred, then portioned.

    Args:
        draft: The dish's work so far.
        chilling: How it is cooled.
        after: The jobs whose outcome goes into the bath.
        portion: The job that fills the containers.
    """
    stages = [each for each in chilling.method.stages if each.place in {"cold-water", "ice-bath"}]
    tubs = chilling.baths.tubs
    vessel = _vessel(draft, tubs)
    pounds = chilling.method.ice
    ice = f"{say(pounds, draft.dish.system, weigh=True)} of ice" if pounds.magnitude else ""
    pot = not vessel.startswith("Ladle")
    bowls = "it" if tubs == 1 else "them"
    stirring = si_value("stirring-share") * tubs
    bath = draft.add(
        Job(
            id=draft.id("bath"),
            title="In the ice bath" if ice else "In cold water",
            technique="cool",
            minutes=sum(stage.minutes for stage in stages),
            hands=None,
            station="sink",
            label="Ice bath",
            dishes={draft.dish.id: draft.batches_text()},
            words=f"{f'{ice} in all; ' if ice else ''}stirred every few minutes",
        )
    )
    passed = 0
    hands = []
    for stage in stages:
        cold = stage.place == "cold-water"
        into = "cold water" if cold else "ice water"
        job = draft.add(
            Job(
                id=draft.id("bath", "water" if cold else "ice"),
                title="Fresh water and ice, stir" if passed else f"{vessel} into {into}, stir",
                technique="cool",
                minutes=min(stage.minutes, max(2, math.ceil(stirring * stage.minutes))),
                hands=frozenset({"hot pans"}),
                station="sink",
                label="Cool",
                dishes={draft.dish.id: draft.batches_text()},
                words=f"{stage.words if pot else stage.words.replace('the pot', bowls)}.",
            )
        )
        late = 0 if passed == 0 else 3
        draft.links.append(
            Link(
                bath.id,
                job.id,
                low=passed,
                high=passed + late,
                origin="start",
                to="start",
                reason="without its ice it cools too slowly" if passed else "",
            )
        )
        draft.links.append(Link(job.id, portion))
        hands.append(job)
        passed += stage.minutes
    draft.links += [Link(each, hands[0].id) for each in after]
    draft.links.append(Link(bath.id, portion))
    draft.keeps.append(
        Keep(
            draft.id("keep", "ice-bath"),
            ({ICE_BATH: chilling.baths.tubs},),
            (bath.id, hands[0].id),
            portion,
            "a tub of ice water",
        )
    )


def draw_fresh_ice(draft: Draft, chilling: Chilling, portion: str) -> None:
    """Ice anew under pans in the refrigerator, where what fits around them melts too soon.

    Args:
        draft: The dish's work so far.
        chilling: How it is cooled.
        portion: The job that stands the pans on ice.
    """
    fills, pans = chilling.method.ice_fills, chilling.ice_pans
    lasts = chilling.minutes_at("ice-under-pan") // max(1, fills)
    for number in range(1, fills):
        job = draft.add(
            Job(
                id=draft.id("ice", str(number)),
                title=f"Fresh ice under {f'{pans} pans' if pans > 1 else 'the pan'}",
                technique="cool",
                minutes=_ICE_ANEW * pans,
                hands=frozenset(),
                station="counter",
                label="Cool",
                dishes={draft.dish.id: draft.batches_text()},
                words="Lift it out, pour off the water, fill up with ice to the food's height.",
            )
        )
        draft.links.append(
            Link(
                portion,
                job.id,
                low=number * lasts,
                high=number * lasts + _ICE_LATE,
                reason="without its ice it cools too slowly",
            )
        )


def _vessel(draft: Draft, baths: int) -> str:
    """What stands in the bath: the dish's last pot, or metal bowls where it has none."""
    last = next((step.vessel for step in reversed(draft.order) if step.vessel), None)
    pot = last is not None and draft.recipe.vessels[last].kind == "pot"
    if pot and draft.vessel_number(str(last)) == baths:
        return f"The {last}"
    return "Ladle it into a metal bowl:" if baths == 1 else f"Ladle it into {baths} metal bowls:"
