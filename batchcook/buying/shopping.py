"""What to buy: every food over all dishes, as purchased, by section of the store."""

from __future__ import annotations

from collections.abc import Sequence

from batchcook import plan
from batchcook.dishwork.draft import Dish, ingredient_grams
from batchcook.foods import load_foods, shopping_text
from batchcook.quantities import ureg

__all__ = ["SECTIONS", "shopping_lines"]

SECTIONS = (
    "produce",
    "meat and fish",
    "dairy and eggs",
    "canned and jarred",
    "dry goods",
    "spices",
    "bakery",
    "frozen",
)
"""Sections in the order in which a store is walked, the cold ones last."""

_FROM_THE_TAP = frozenset({"water"})


def shopping_lines(dishes: Sequence[Dish], system: str) -> tuple[plan.ShoppingLine, ...]:
    """One line a food; what is bought for the evening it is eaten comes last, marked so."""
    now: dict[str, tuple[float, list[str]]] = {}
    later: dict[str, tuple[float, list[str]]] = {}
    foods = load_foods()
    for dish in dishes:
        for each in dish.recipe.ingredients:
            grams = float(ingredient_grams(each, dish.batches).magnitude)
            _add(now, each.food, grams, dish.id)
        for addition in dish.recipe.night.add:
            weight = foods[addition.food].to_grams(addition.amount * dish.batches, addition.cut)
            _add(later, addition.food, float(weight.to("gram").magnitude), dish.id)
    return tuple(
        _line(name, grams, ids, system, later=is_later)
        for is_later, amounts in ((False, now), (True, later))
        for name, (grams, ids) in sorted(amounts.items(), key=lambda item: _place(item[0]))
        if name not in _FROM_THE_TAP
    )


def _add(amounts: dict[str, tuple[float, list[str]]], food: str, grams: float, dish: str) -> None:
    total, ids = amounts.get(food, (0.0, []))
    amounts[food] = (total + grams, ids if dish in ids else [*ids, dish])


def _place(name: str) -> tuple[int, str]:
    section = load_foods()[name].section
    return (SECTIONS.index(section) if section in SECTIONS else len(SECTIONS), name)


def _line(
    name: str, grams: float, dishes: Sequence[str], system: str, *, later: bool
) -> plan.ShoppingLine:
    food = load_foods()[name]
    bought = food.as_purchased(ureg.Quantity(grams, "gram"))
    return plan.ShoppingLine(
        food=name,
        section=food.section,
        amount=shopping_text(food, bought, system),
        # Half a gram of a spice is bought all the same: 0 would mean that nothing is needed.
        grams=max(1, round(float(bought.to("gram").magnitude))),
        dishes=tuple(dishes),
        later=later,
    )
