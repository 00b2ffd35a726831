"""What is at hand, used up line by line; a fruit gives its juice and its zest, but only once."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

from batchcook.buying.packs import sizes
from batchcook.foods import Food

__all__ = ["AtHand"]

_HAIR: Final = 0.02
"""A fiftieth of a piece does not open another one."""


class AtHand:
    """Foods at hand, in grams as purchased, that become less with every line that takes of them."""

    def __init__(self, foods: Mapping[str, float]) -> None:
        """Nothing is taken yet.

        Args:
            foods: Food key to grams at hand.
        """
        self._left = dict(foods)
        self._opened: dict[str, float] = {}

    def take(self, food: Food, wanted: float, *, later: bool) -> float:
        """Take what there is of a food, and tell how many grams that is.

        Args:
            food: The food; of juice and zest what is at hand itself is taken first.
            wanted: Grams as purchased.
            later: Whether it is for a night: only on the prep day is a fruit that is squeezed the
                one that is grated.
        """
        own = min(wanted, self._left.get(food.key, 0.0))
        if own:
            self._left[food.key] -= own
        return own + self._of_fruit(food, wanted - own, later=later)

    def _of_fruit(self, food: Food, wanted: float, *, later: bool) -> float:
        """Grams that come out of whole fruit at hand."""
        whole = food.bought_as[0] if food.bought_as else ""
        if whole not in self._left or wanted <= 0:
            return 0.0
        one, gives = sizes(whole)[-1].grams, sizes(food.key)[-1].grams
        opened = 0.0 if later else self._opened.get(whole, 0.0)
        there = opened + self._left[whole] / one
        pieces = min(wanted / gives, there)
        # What is opened is whole fruit: the rest of one is no fruit for another day.
        cut = max(opened, min(math.ceil(pieces - _HAIR), there))
        self._left[whole] -= (cut - opened) * one
        if not later:
            self._opened[whole] = cut
        return pieces * gives
