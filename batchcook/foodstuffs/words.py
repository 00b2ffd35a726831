"""How amounts of a food are told: to the cook who measures, and to whoever buys."""

from __future__ import annotations

import math

from batchcook.foodstuffs.amounts import Food, ratio
from batchcook.quantities import COUNTS, Quantity, say, ureg

__all__ = ["describe", "shopping_text"]


def describe(
    food: Food,
    grams: Quantity,
    cut: str | None,
    system: str,
    like: Quantity | None = None,
    *,
    named: bool = True,
) -> str:
    """An amount that a cook can measure: ``"4 cups (640 g) onions"``, ``"2 tbsp canola oil"``.

    Args:
        food: The food.
        grams: Its weight as used.
        cut: How it is cut, or None.
        system: ``"us"`` or ``"metric"``.
        like: An amount in the form to use, volume, weight or count, as its recipe writes it;
            without one, volume where the table has it.
        named: Whether the food's name follows.

    Raises:
        InputFault: The table has no figure for that form.
    """
    amount = _in_form(food, grams, cut, system, like)
    if not named:
        return amount
    # After a number of cans it need not be called canned as well.
    counted = _unit_of(like) == "can" and system == "us"
    name = (
        food.plural.removeprefix("canned ").removesuffix(", drained")
        if counted
        else _named(food, like, grams)
    )
    return f"{amount} {name}"


def shopping_text(food: Food, purchased: Quantity, system: str) -> str:
    """What to buy, rounded up: ``"5 lb (about 20 medium)"``, ``"12 large"``, ``"3 cups"``.

    Args:
        food: The food.
        purchased: The weight to buy, as from :meth:`Food.as_purchased`.
        system: ``"us"`` or ``"metric"``.
    """
    used = food.as_used(purchased)
    piece = None if food.shop == "weight" else _piece(food)
    if piece and food.shop == "count":
        return _pieces(food, used, piece)
    spoken = food.liquid or (food.has("teaspoon") and food.kind == "spice") or food.bought_as
    amount = (
        say(_volume(food, used, None), system, up=True)
        if spoken
        else say(purchased, system, up=True)
    )
    return f"{amount} (about {_pieces(food, used, piece)})" if piece else amount


_LEAST_CUPS = 0.24
"""Just under a quarter: less is measured in spoons."""

_PIECES = ("each", "large", "medium", "head", "bunch", "stalk")
"""Counts by which a store sells."""


def _unit_of(amount: Quantity | None) -> str:
    """The name of an amount's unit, or an empty string without one."""
    return "" if amount is None else str(amount.units)


def _in_form(
    food: Food, grams: Quantity, cut: str | None, system: str, like: Quantity | None
) -> str:
    unit = _unit_of(like)
    if unit in COUNTS and not (unit == "can" and system == "metric"):
        count = ratio(grams, food.to_grams(ureg.Quantity(1, unit), cut))
        return say(ureg.Quantity(count, "each" if unit in food.key.split() else unit), system)
    by_volume = food.has("cup") if like is None else like.check("[volume]")
    if unit == "can":
        by_volume = food.liquid  # Cans of a size that is not sold there are measured or weighed.
    if not by_volume:
        return say(grams, system)
    volume = _volume(food, grams, cut, like)
    if food.liquid or str(volume.units) != "cup":
        return say(volume, system, solid=not food.liquid)
    weight = say(grams, "metric", weigh=True)
    return weight if system == "metric" else f"{say(volume, system, solid=True)} ({weight})"


def _volume(food: Food, grams: Quantity, cut: str | None, like: Quantity | None = None) -> Quantity:
    """By the measure that its recipe names, so that a quarter of 1/2 cup is 2 tbsp.

    Without one, by the measure nearest in size: spoons and cups of a food may differ a little.
    """
    count = 0.0
    for unit, least in (("cup", _LEAST_CUPS), ("tablespoon", 1.0), ("teaspoon", 0.0)):
        if like is not None and like.check("[volume]"):
            count = ratio(like * ratio(grams, food.to_grams(like, cut)), ureg.Quantity(1, unit))
        else:
            count = ratio(grams, food.to_grams(ureg.Quantity(1, unit), cut))
        if count >= least:
            return ureg.Quantity(count, unit)
    return ureg.Quantity(count, "teaspoon")


def _named(food: Food, like: Quantity | None, grams: Quantity) -> str:
    """The food's name, singular where the amount is one piece or less of it."""
    if like is None or str(like.units) not in {"each", "small", "medium", "large", "leaf"}:
        return food.plural
    one = food.to_grams(ureg.Quantity(1, like.units), None)
    return food.singular if food.bought_whole and grams <= one * _ABOUT_ONE else food.plural


_ABOUT_ONE = 1.01


def _piece(food: Food) -> str | None:
    """The count by which a store sells it, the first that the table has."""
    return next((each.unit for each in food.measures if each.unit in _PIECES), None)


def _pieces(food: Food, grams: Quantity, unit: str) -> str:
    """Whole pieces, rounded up."""
    count = max(1, math.ceil(ratio(grams, food.to_grams(ureg.Quantity(1, unit))) - _HAIR))
    if food.bought_as:
        return f"{count} {food.bought_as[0] if count == 1 else food.bought_as[1]}"
    return say(ureg.Quantity(count, unit))


_HAIR = 0.02
"""A fiftieth of a piece is not worth another one."""
