"""The word for a dish's main ingredient, by which freezer nights are compared."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
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
    "raw-poultry": "chicken",
    "raw-ground-poultry": "chicken",
}
"""Kind of food to the word for it."""

_EGG: Final = "egg"
_ICE: Final = "ice"
"""Bought for the dish, to cool it in."""

_SEASONING: Final = ("spices", "oil", "broth", "stock")


def main_word(lines: Iterable[ShoppingLine], kinds: Mapping[str, str]) -> str:
    """A dish's heaviest meat or fish, or else egg, or else the heaviest food bought for it.

    Args:
        lines: What is bought for the dish.
        kinds: Food to its kind, at least of what is perishable.

    Returns:
        The animal in a word, or the food; empty where nothing is known of the dish.
    """
    bought = [line for line in lines if not line.later and line.food != _ICE]
    grams = {line.food: line.grams for line in bought}
    meat = [food for food, kind in kinds.items() if kind in _ANIMALS]
    if meat:
        heaviest = max(meat, key=lambda food: grams.get(food, 0))
        return "turkey" if "turkey" in heaviest else _ANIMALS[kinds[heaviest]]
    if _EGG in kinds.values():
        return _EGG
    plain = [
        line
        for line in bought
        if not any(word in line.section or word in line.food for word in _SEASONING)
    ]
    return max(plain, key=lambda line: line.grams).food if plain else ""
