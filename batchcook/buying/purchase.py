"""One line of a shopping list with the packs that are taken for it."""

from __future__ import annotations

from dataclasses import dataclass

from batchcook.buying.packs import Choice, Size
from batchcook.plan import ShoppingLine

__all__ = ["Purchase"]


@dataclass(frozen=True)
class Purchase:
    """One line of the list.

    Attributes:
        line: What stands on it.
        missing: Grams as purchased that are not at hand; pieces, of fruit bought for its juice.
        choice: The packs, or None where no pack is worked out: ice, and fresh food of the nights.
        sold: The sizes that were chosen from.
        of: Key of the food whose sizes they are.
    """

    line: ShoppingLine
    missing: float
    choice: Choice | None = None
    sold: tuple[Size, ...] = ()
    of: str = ""
