"""What a line of the shopping list calls its food."""

from __future__ import annotations

import re
from typing import Final

from batchcook.foods import load_foods

__all__ = ["food_words"]

_ONE_PIECE: Final = re.compile(r"(.* and )?1( (small|medium|large))?")


def food_words(food: str, taken: str = "") -> str:
    """The food as it follows what is taken of it: ``"sweet potatoes"``, ``"Italian sausage"``.

    Args:
        food: Its key, or anything else on the list, which is called what it is.
        taken: What is taken, as it stands before it; in the singular after a single piece.
    """
    one, more = _names(food)
    return one if _ONE_PIECE.fullmatch(taken) else more


def _names(key: str) -> tuple[str, str]:
    """Singular and plural of a food, or of the fruit that is bought for one."""
    foods = load_foods()
    if key in foods:
        food = foods[key]
        return f"{food.ask_for} {food.singular}".strip(), food.at_the_store
    fruits = (food.bought_as for food in foods.values() if food.bought_as)
    return next((each for each in fruits if each[0] == key), (key, key))
