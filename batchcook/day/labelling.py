"""Every container of the day with what its label says."""

from __future__ import annotations

import datetime as dt
import string
from collections.abc import Mapping, Sequence
from typing import Final

from batchcook import plan
from batchcook.complaints import InputFault
from batchcook.cookbooks.packing import container_count, grams_a_portion, portions_in
from batchcook.cookbooks.recipe import Night, Recipe
from batchcook.day.freezerplan import food_edges, storage_rows_of
from batchcook.dishwork.draft import Dish
from batchcook.foods import describe, load_foods
from batchcook.foodsafety.storage import dates
from batchcook.foodsafety.temperatures import cook_to, reheat_to
from batchcook.foodsafety.thawing import (
    cold_water_minutes,
    cook_from_frozen,
    in_slow_cooker,
    may_refreeze,
    thaw_days,
)
from batchcook.kitchens.containers import FreezeShape, load_containers
from batchcook.quantities import Quantity

__all__ = ["codes", "containers", "letters", "may_stay_frozen"]


def codes(dishes: Sequence[Dish]) -> Mapping[str, tuple[str, ...]]:
    """For each dish the codes of its containers: lettered by dish, numbered within it."""
    return {
        dish.id: tuple(
            f"{letter}{number}"
            for number in range(1, container_count(dish.recipe, dish.batches, dish.eaten) + 1)
        )
        for letter, dish in zip(letters(), dishes, strict=False)
    }


def containers(
    dishes: Sequence[Dish],
    packed_on: dt.date,
    system: str,
    frozen_on: Mapping[str, Sequence[dt.date]] | None = None,
) -> tuple[plan.Container, ...]:
    """Every container with what its label says.

    Args:
        dishes: The dishes, in the order in which they are lettered.
        packed_on: The prep day.
        system: us or metric, for what is added on the night.
        frozen_on: For each dish the day on which each container is frozen, where that is known;
            the days until then count against those after thawing.

    Raises:
        InputFault: A dish names no storage row under which it may be frozen, or waits for the
            freezer longer than it keeps.
    """
    named = codes(dishes)
    found = []
    for dish in dishes:
        same = _of_dish(dish, packed_on)
        frozen = (frozen_on or {}).get(dish.id)
        counts = portions_in(dish.recipe, dish.batches, dish.eaten)
        for number, (code, portions) in enumerate(zip(named[dish.id], counts, strict=True), 1):
            one = {
                "code": code,
                "number": number,
                "of": len(counts),
                "system": system,
                "add": _additions(dish.recipe, portions, system),
                **_weighed(dish.recipe, portions),
                **(_frozen(dish.recipe, packed_on, frozen[number - 1]) if frozen else {}),
            }
            found.append(same.model_copy(update=one))
    return tuple(found)


def letters() -> list[str]:
    """A, B, ... Z, AA, AB, ..."""
    single = list(string.ascii_uppercase)
    return single + [first + second for first in single for second in single]


def _of_dish(dish: Dish, packed_on: dt.date) -> plan.Container:
    """What all containers of a dish have in common; the rest is filled in for each."""
    recipe = dish.recipe
    foods = load_foods()
    kinds = {foods[each.food].kind for each in recipe.ingredients}
    rows = storage_rows_of(recipe)
    keeps = dates(rows, packed_on)
    raw = recipe.state == "raw-kit"
    cook = cook_to(kinds, "") if raw else None
    eaten = {each.food for each in recipe.ingredients} | {each.food for each in recipe.night.add}
    allergens = sorted({name for food in eaten for name in foods[food].allergens})
    return plan.Container(
        code="",
        dish=dish.id,
        title=recipe.title,
        portions=1,
        number=1,
        of=1,
        holds=load_containers()[recipe.container].title,
        grams=0,
        state=recipe.state,
        packed_on=packed_on,
        best_by=keeps.best_by,
        use_by=keeps.use_by,
        storage_rows=tuple(row.name for row in rows),
        thaw=recipe.night.thaw,
        thaw_days=0,
        keeps_thawed_days=keeps.refrigerator_days_after_thaw,
        finish=_finish(recipe),
        cook_to_degF=cook.fahrenheit if cook else None,
        rest_minutes=cook.rest_minutes if cook else 0,
        reheat_to_degF=None if raw else reheat_to().fahrenheit,
        allergens=tuple(allergens),
        from_frozen=may_stay_frozen(recipe),
        from_frozen_takes=_from_frozen(recipe.night) if may_stay_frozen(recipe) else "",
        refreeze=_refreeze(),
        note=_note(recipe),
    )


def _weighed(recipe: Recipe, portions: int) -> dict[str, object]:
    """What follows from how much is in a container."""
    weight = grams_a_portion(recipe) * portions
    days = 0 if recipe.night.thaw == "from-frozen" else thaw_days(weight, food_edges(recipe))
    return {
        "portions": portions,
        "grams": round(float(weight.magnitude)),
        "thaw_days": days,
        **_cold_water(recipe, weight),
    }


_COLD_WATER_IN: Final[Mapping[FreezeShape, str]] = {
    "flat bag": "in its bag, sealed and leak-proof",
    "tray": "in its bag, sealed and leak-proof",
    "tub": "its tub sealed in a leak-proof bag",
}
"""Only a leak-proof bag goes into cold water (USDA FSIS, The Big Thaw), never a pan with a lid."""


def _cold_water(recipe: Recipe, weight: Quantity) -> dict[str, object]:
    """Minutes in cold water, and in what; nothing for a pan, or for more than is published."""
    wrapped = _COLD_WATER_IN.get(load_containers()[recipe.container].shape)
    if wrapped is None:
        return {}
    try:
        return {"cold_water_minutes": cold_water_minutes(weight), "cold_water_in": wrapped}
    except InputFault:
        return {}


def _frozen(recipe: Recipe, packed_on: dt.date, frozen_on: dt.date) -> dict[str, object]:
    """What follows from the days that a container waits in the refrigerator."""
    waited = (frozen_on - packed_on).days
    keeps = dates(storage_rows_of(recipe), packed_on, refrigerated_days_before=waited)
    return {"frozen_on": frozen_on, "keeps_thawed_days": keeps.refrigerator_days_after_thaw}


def _additions(recipe: Recipe, portions: int, system: str) -> tuple[plan.NightAddition, ...]:
    """What is bought and added on the night, for so many portions."""
    foods = load_foods()
    found = []
    for each in recipe.night.add:
        amount = each.amount * portions / recipe.servings
        grams = foods[each.food].to_grams(amount, each.cut)
        words = describe(foods[each.food], grams, each.cut, system, like=each.amount)
        found.append(plan.NightAddition(food=each.food, amount=words, note=each.told))
    return tuple(found)


def may_stay_frozen(recipe: Recipe) -> bool:
    """Whether a dish may be finished without thawing: never in a slow cooker."""
    return recipe.night.thaw != "refrigerator" and not in_slow_cooker(recipe.night.finish)


def _note(recipe: Recipe) -> str:
    return (
        cook_from_frozen("slow-cooker").words + "." if in_slow_cooker(recipe.night.finish) else ""
    )


def _refreeze() -> str:
    """Two ways to thaw, two answers."""
    return f"{may_refreeze('refrigerator').words}. {may_refreeze('cold-water').words}."


def _degrees(temperature: Quantity) -> int:
    return round(float(temperature.to("degF").magnitude))


def _finish(recipe: Recipe) -> str:
    """How it is finished, with the oven's figures before the words."""
    night = recipe.night
    figures = []
    if night.oven is not None:
        figures.append(f"Oven {_degrees(night.oven)} degF")
    if night.minutes is not None and night.thaw != "from-frozen":
        figures.append(f"{night.minutes} min thawed")
    if may_stay_frozen(recipe) and (takes := _from_frozen(night)):
        figures.append(f"{takes} from frozen")
    return " ".join(
        each for each in (", ".join(figures) + "." if figures else "", night.finish) if each
    )


def _from_frozen(night: Night) -> str:
    """How long it takes without thawing: the recipe's own, else half as long again as thawed."""
    if night.minutes_from_frozen is not None:
        return f"{night.minutes_from_frozen} min"
    about = cook_from_frozen("stove" if night.oven is None else "oven", night.minutes).minutes
    return "" if about is None else f"about {about} min"
