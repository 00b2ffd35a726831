"""The word for a dish's main ingredient, by which freezer nights are compared."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Final

from batchcook.plan import ShoppingLine

__all__ = ["main_word"]

_ANIMALS: Final[Mapping[str, str]] = {
    "raw-beef": "beef",
    "raw-ground-beef": "beef",
    "raw-pork": "pork",
    "raw-ground-pork": "pork",
    "raw-sausage": "sausage",
    "raw-fish-fatty": "fish",
    "raw-fish-lean": "fish",
    "canned-fish": "fish",
    "raw-poultry": "chicken",
    "raw-ground-poultry": "chicken",
}
"""Kind of food to the word for it."""

_EGG: Final = "egg"
_ICE: Final = "ice"
"""Bought for the dish, to cool it in."""

_PULSES: Final[Mapping[str, tuple[str, float]]] = {
    "lentils": ("lentils", 2.5),
    "chickpeas": ("chickpeas", 1.0),
    "beans, canned": ("beans", 1.0),
}
"""Part of a food's name to the word for it, and to how much heavier it is cooked: what is dry
drinks one and a half times its weight (common practice, no source)."""

_SEASONING: Final = ("spices", "oil", "broth", "stock", "canned and jarred")
_EVERYWHERE: Final = frozenset(
    {"onion", "garlic", "ginger root", "scallion", "milk, whole", "cream, heavy", "butter", "flour"}
)
"""In so many pots that no dish is called after it where it has anything else."""


def main_word(lines: Collection[ShoppingLine], kinds: Mapping[str, str]) -> str:
    """A dish's heaviest meat or fish, or else egg, or else its heaviest vegetable, grain or cheese.

    Beans and lentils count together and as they weigh once cooked. Of what is bought for several
    dishes each has an equal share, as far as is known here.

    Args:
        lines: What is bought for the dish.
        kinds: Food to its kind, at least of what is perishable.

    Returns:
        The animal or the pulse in a word, or the food; empty where nothing is known of the dish.
    """
    bought = [line for line in lines if not line.later and line.food != _ICE]
    grams = {line.food: line.grams / max(1, len(line.dishes)) for line in bought}
    meat = [food for food, kind in kinds.items() if kind in _ANIMALS]
    if meat:
        heaviest = max(meat, key=lambda food: grams.get(food, 0))
        return "turkey" if "turkey" in heaviest else _ANIMALS[kinds[heaviest]]
    if _EGG in kinds.values():
        return _EGG
    weighs: dict[str, float] = {}
    for line in bought:
        word, swells = _named(line)
        if word:
            weighs[word] = weighs.get(word, 0) + grams[line.food] * swells
    rare = [word for word in weighs if word not in _EVERYWHERE]
    return max(rare or weighs, key=lambda word: weighs[word], default="")


def _named(line: ShoppingLine) -> tuple[str, float]:
    """What a dish with much of it is called after, and how much heavier it is once cooked."""
    for part, named in _PULSES.items():
        if part in line.food:
            return named
    if any(word in line.section or word in line.food for word in _SEASONING):
        return "", 0.0
    return line.food, 1.0
