"""A letter, a tint and a hatching for each dish, the same on every page.

The letters are those of the container codes. Tints are pale ones of the Okabe and Ito palette
(from memory), which the colour-blind tell apart; the hatchings tell them apart in black and white.
"""

from __future__ import annotations

import string
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from batchcook.plan import Dish

__all__ = ["DishKey", "dish_keys"]

_TINTS: Final = (
    "#cde5f4",
    "#fadfae",
    "#c6e8d9",
    "#f2d0e1",
    "#fbf4b8",
    "#d3daef",
    "#f6cfbd",
    "#ddd",
)

_HATCHINGS: Final = (
    "M-1 1L1 -1M0 6L6 0M5 7L7 5",
    "M0 3H6",
    "M3 0V6",
    "M-1 5L1 7M0 0L6 6M5 -1L7 1",
    "M0 3H6M3 0V6",
    "M2 3H4",
    "M0 6L6 0M0 0L6 6",
    "M0 1H6M0 3H6M0 5H6",
)
"""Strokes within a tile of 6 by 6."""


@dataclass(frozen=True)
class DishKey:
    """How a dish is marked: its letter, its tint, the strokes of its hatching."""

    letter: str
    title: str
    tint: str
    hatching: str


def dish_keys(dishes: Sequence[Dish]) -> Mapping[str, DishKey]:
    """Dish id to its key; a dish keeps its own where another was given up."""
    letters = _letters()
    found = {}
    for place, dish in enumerate(dishes):
        letter = dish.letter or letters[place]
        look = letters.index(letter)
        found[dish.id] = DishKey(
            letter, dish.title, _TINTS[look % len(_TINTS)], _HATCHINGS[look % len(_HATCHINGS)]
        )
    return found


def _letters() -> list[str]:
    """A, B, ... Z, AA, AB, ..., as the containers are coded."""
    single = list(string.ascii_uppercase)
    return single + [first + second for first in single for second in single]
