"""The vegetables that a dish softens in fat, and so may soften with those of other dishes."""

from __future__ import annotations

from batchcook.cookbooks.recipe import Ingredient, Step
from batchcook.dishwork.bowls import SCORCHES
from batchcook.dishwork.draft import Draft
from batchcook.dishwork.work import Sweat
from batchcook.foods import load_foods

__all__ = ["sweats_of"]

_PLAIN = frozenset({"canned", "dry-goods", "fat", "liquid", "produce", "spice"})
"""Kinds of food that may stand on heat, be lifted out and go on later."""


def sweats_of(draft: Draft) -> tuple[Sweat, ...]:
    """Every sweat of a dish that begins in an empty pot, with nothing from an animal in it.

    Args:
        draft: The dish, vessels and washing up included.
    """
    return tuple(found for step in draft.order if (found := _sweat(draft, step)))


def _begins_a_pot(draft: Draft, step: Step) -> bool:
    """Whether a step sweats plain food in a pot that has held nothing before."""
    if step.technique != "sweat" or step.after or step.vessel is None:
        return False
    first = next(each for each in draft.order if each.vessel == step.vessel)
    return (
        first is step
        and draft.recipe.vessels[step.vessel].kind == "pot"
        and draft.vessel_number(step.vessel) == 1
        and {draft.kind(each) for each in draft.taken(step)} <= _PLAIN
    )


def _sweat(draft: Draft, step: Step) -> Sweat | None:
    """The sweat of a step, if it is one."""
    users = [each for each in draft.order if step.name in each.after]
    if not _begins_a_pot(draft, step) or len(users) != 1:
        return None
    vessel = str(step.vessel)
    same_pot = users[0].vessel == vessel
    if same_pot and users[0].name not in draft.heat:
        return None
    taken = draft.taken(step)
    base = [each for each in taken if _softens(each)]
    fats = [each for each in taken if draft.kind(each) == "fat"]
    last = [each for each in taken if each not in base and each not in fats]
    weights = {(each.food, each.cut): draft.grams(each) for each in base}
    if not base or len(weights) < len(base):
        return None
    (job,) = draft.entry[step.name]
    return Sweat(
        dish=draft.dish.id,
        base=weights,
        fats={each.food: draft.grams(each) for each in fats},
        last=draft.gathered(last),
        last_grams=sum(draft.grams(each) for each in last),
        job=job,
        wash=draft.id("wash", vessel),
        cutting=frozenset(
            draft.prepared[each.name].id for each in base if each.name in draft.prepared
        ),
        pot=draft.id("keep", vessel),
        burner=draft.id("burner", vessel, step.name),
        volume=draft.vessel_volume(vessel),
        vessel=vessel,
        bowl="hot " + draft.dish.bowl.replace(" bowl", f" {base[0].food} bowl"),
        onward=draft.entry[users[0].name][0] if same_pot else None,
        keeps_hot=any(each.receives == job for each in draft.heat.values()),
    )


def _softens(ingredient: Ingredient) -> bool:
    """Whether it is softened from the start; the rest goes in for the last minute."""
    return (
        load_foods()[ingredient.food].kind == "produce"
        and ingredient.cut is not None
        and ingredient.food not in SCORCHES
    )
