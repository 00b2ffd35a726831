"""What a dish boils by itself and drains, and so may boil with what other dishes do."""

from __future__ import annotations

from batchcook.cookbooks.recipe import Step
from batchcook.dishwork.draft import Draft
from batchcook.dishwork.work import Potful
from batchcook.foods import load_foods

__all__ = ["potfuls_of"]


def potfuls_of(draft: Draft) -> tuple[Potful, ...]:
    """Every potful of a dish that is drawn up.

    Of one food, in water that nothing else is cooked in and that is poured off; what simmers in
    its own sauce is none, and neither is what takes more than one pot.

    Args:
        draft: The dish, vessels and washing up included.
    """
    return tuple(
        found for step in draft.order if (found := _potful(draft, step, _users(draft, step)))
    )


def _users(draft: Draft, step: Step) -> list[Step]:
    return [each for each in draft.order if step.name in each.after]


def _potful(draft: Draft, step: Step, users: list[Step]) -> Potful | None:
    """The potful that a step boils, if it does."""
    foods = load_foods()
    taken = draft.taken(step)
    boiled = [each for each in taken if foods[each.food].kind != "spice"]
    if step.technique != "boil" or step.after or len(boiled) != 1 or step.vessel is None:
        return None
    if len(users) != 1 or users[0].technique != "drain" or users[0].vessel != step.vessel:
        return None
    drained = users[0]
    if drained.takes or drained.after != (step.name,) or draft.vessel_number(step.vessel) > 1:
        return None
    before = [each for each in draft.order if each.vessel == step.vessel]
    if before[:2] != [step, drained]:
        return None
    (only,) = boiled
    return Potful(
        dish=draft.dish.id,
        food=only.food,
        cut=only.cut,
        seasoning=frozenset(each.food for each in taken if each is not only),
        minutes=int(step.minutes or 0),
        grams=draft.grams(only),
        volume=draft.vessel_volume(step.vessel),
        vessel=step.vessel,
        fill=draft.entry[step.name][0],
        cook=draft.ready[step.name][0],
        drain=draft.entry[drained.name][0],
        wash=draft.id("wash", step.vessel),
        pot=draft.id("keep", step.vessel),
        burner=draft.id("burner", step.vessel, step.name),
        bowl=f"hot {draft.dish.bowl}",
        goes_on=len(before) > len([step, drained]),
        dry=foods[only.food].kind == "dry-goods",
        leaves=frozenset(foods[only.food].allergens),
        holds=frozenset(
            name for each in draft.recipe.ingredients for name in foods[each.food].allergens
        ),
    )
