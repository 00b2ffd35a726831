"""The foods table, and all that is done with a food of it."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from importlib import resources

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.foodstuffs.amounts import Food, PurchaseSize
from batchcook.foodstuffs.measures import Measure
from batchcook.foodstuffs.table import FoodEntry, read_food_table
from batchcook.foodstuffs.words import describe, shopping_text

__all__ = ["Food", "PurchaseSize", "describe", "food", "load_foods", "shopping_text"]


@cache
def load_foods() -> Mapping[str, Food]:
    """Every food of the table, by its key, in the table's order.

    Raises:
        InputFault: The table is at fault; with every complaint.
    """
    text = resources.files("batchcook.data").joinpath("foods.toml").read_text("utf-8")
    return {key: _food(key, entry) for key, entry in read_food_table(text, "foods.toml").items()}


def food(name: str, where: str) -> Food:
    """The food with this key.

    Args:
        name: Its key.
        where: The place that named it, for the message.

    Raises:
        InputFault: There is none; suggests the one that also goes by that name, or the nearest.
    """
    foods = load_foods()
    if name in foods:
        return foods[name]
    names = {also: key for key, each in foods.items() for also in (key, each.plural, *each.also)}
    close = nearest(name, names)
    raise InputFault(
        Complaint(where, f"unknown food {name!r}", "a food of our table", names.get(close, ""))
    )


def _food(key: str, entry: FoodEntry) -> Food:
    return Food(
        key=key,
        plural=entry.plural,
        kind=entry.kind,
        section=entry.section,
        measures=tuple(
            Measure(each.unit, each.cut, each.grams, each.amount, each.sr26, each.ours)
            for each in entry.measures
        ),
        ndb=entry.ndb,
        sr26=entry.sr26,
        refuse_percent=entry.refuse,
        bought_whole=entry.bought_whole,
        liquid=entry.liquid,
        allergens=entry.allergens,
        buy=tuple(PurchaseSize(words, amount) for words, amount in entry.sizes()),
        buy_metric=tuple(PurchaseSize(words, amount) for words, amount in entry.sizes(metric=True)),
        to_taste=entry.scales == "to taste",
        shop=entry.shop,
        bought_as=entry.bought_as,
        ask_for=entry.ask_for,
        also=entry.also,
        keep=entry.keep,
    )
