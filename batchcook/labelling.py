"""Every container of the day with what its label says."""

from __future__ import annotations

import datetime as dt
import math
import string
from collections.abc import Sequence

from batchcook import plan
from batchcook.containers import load_containers
from batchcook.draft import Dish
from batchcook.foods import describe, load_foods
from batchcook.foodsafety.storage import dates, rows_for
from batchcook.foodsafety.temperatures import cook_to, reheat_to
from batchcook.packing import grams_a_portion, portions_in
from batchcook.quantities import Quantity
from batchcook.recipe import Recipe

__all__ = ["containers"]

_POUNDS_A_DAY = 4
"""Thawing in the refrigerator: a day for each 4 to 5 pounds, the slower end (USDA FSIS)."""


def containers(
    dishes: Sequence[Dish], packed_on: dt.date, system: str
) -> tuple[plan.Container, ...]:
    """Every container, lettered by dish and numbered within it.

    Raises:
        InputFault: A dish names no storage row under which it may be frozen.
    """
    return tuple(
        container
        for letter, dish in zip(_letters(), dishes, strict=False)
        for container in _of_dish(dish, letter, packed_on, system)
    )


def _letters() -> list[str]:
    """A, B, ... Z, AA, AB, ..."""
    single = list(string.ascii_uppercase)
    return single + [first + second for first in single for second in single]


def _of_dish(dish: Dish, letter: str, packed_on: dt.date, system: str) -> list[plan.Container]:
    recipe = dish.recipe
    foods = load_foods()
    kinds = {foods[each.food].kind for each in recipe.ingredients}
    poultry = bool({"raw-poultry", "raw-ground-poultry"} & kinds)
    rows = rows_for(recipe.stored_as, recipe.id, poultry=poultry)
    keeps = dates(rows, packed_on)
    raw = recipe.state == "raw-kit"
    cook = cook_to(kinds, "") if raw else None
    allergens = sorted({name for each in recipe.ingredients for name in foods[each.food].allergens})
    each_portion = grams_a_portion(recipe)
    portions = portions_in(recipe, dish.batches)
    found = []
    for number, count in enumerate(portions, 1):
        weight = each_portion * count
        pounds = float(weight.to("pound").magnitude)
        found.append(
            plan.Container(
                code=f"{letter}{number}",
                dish=dish.id,
                title=recipe.title,
                portions=count,
                number=number,
                of=len(portions),
                holds=load_containers()[recipe.container].title,
                grams=round(float(weight.magnitude)),
                state=recipe.state,
                packed_on=packed_on,
                best_by=keeps.best_by,
                use_by=keeps.use_by,
                storage_rows=tuple(row.name for row in rows),
                thaw=recipe.night.thaw,
                thaw_days=0
                if recipe.night.thaw == "from-frozen"
                else math.ceil(pounds / _POUNDS_A_DAY),
                keeps_thawed_days=keeps.refrigerator_days_after_thaw,
                finish=_finish(recipe),
                cook_to_degF=_degrees(cook.temperature) if cook else None,
                rest_minutes=cook.rest_minutes if cook else 0,
                reheat_to_degF=None if raw else _degrees(reheat_to().temperature),
                add=tuple(
                    plan.NightAddition(
                        food=each.food,
                        amount=describe(
                            foods[each.food],
                            foods[each.food].to_grams(each.amount * count / recipe.servings, None),
                            None,
                            system,
                            like=each.amount,
                        ),
                        note=each.note,
                    )
                    for each in recipe.night.add
                ),
                allergens=tuple(allergens),
            )
        )
    return found


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
    if night.minutes_from_frozen is not None:
        figures.append(f"{night.minutes_from_frozen} min from frozen")
    return " ".join(
        each for each in (", ".join(figures) + "." if figures else "", night.finish) if each
    )
