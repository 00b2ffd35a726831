"""What a food is, as far as its safety goes, and what state a dish is packed in."""

from __future__ import annotations

from collections.abc import Iterable

from batchcook.complaints import Complaint, nearest

__all__ = [
    "DISH_STATES",
    "FOOD_KINDS",
    "KEEPS_IN_THE_CUPBOARD",
    "KEEPS_UNOPENED",
    "RAW_MEAT",
    "unknown_kinds",
]

FOOD_KINDS = frozenset(
    {
        "bacon",
        "bread",
        "canned",
        "canned-fish",
        "canned-low-acid",
        "cheese",
        "cooked-sausage",
        "dairy",
        "dry-goods",
        "egg",
        "fat",
        "frozen",
        "liquid",
        "produce",
        "raw-beef",
        "raw-fish-fatty",
        "raw-fish-lean",
        "raw-ground-beef",
        "raw-ground-pork",
        "raw-ground-poultry",
        "raw-pork",
        "raw-poultry",
        "raw-sausage",
        "spice",
    }
)

RAW_MEAT = frozenset(kind for kind in FOOD_KINDS if kind.startswith("raw-"))
"""Raw meat, poultry, sausage and fish."""

KEEPS_IN_THE_CUPBOARD = frozenset({"bread", "canned", "dry-goods", "fat", "produce", "spice"})
"""May stand at room temperature until cooked; every other kind is perishable.

``canned`` is what acid, sugar or salt goes on preserving once it is open: tomatoes (pH 4.6 or below
in the can, as 21 CFR 114.3 has acid and acidified food; from memory), vinegar, mustard, honey.
"""

KEEPS_UNOPENED = frozenset({"canned-fish", "canned-low-acid"})
"""Keeps on the shelf until its can or carton is opened, and is perishable from then on.

Fish, broth, beans and coconut milk: low-acid food, with the time out of any perishable food (USDA
FSIS, Shelf-Stable Food Safety and Basics for Handling Food Safely, from memory).
"""

DISH_STATES = ("cooked", "part-baked", "raw-kit")
"""How a dish is packed: cooked through, to be baked off on the night, or uncooked."""


def unknown_kinds(kinds: Iterable[str], where: str) -> list[Complaint]:
    """A complaint for each kind that is none of ours.

    Args:
        kinds: Food kinds as given.
        where: The place that gave them, for the message.
    """
    return [
        Complaint(where, f"unknown food kind {kind!r}", "", nearest(kind, FOOD_KINDS))
        for kind in sorted(set(kinds) - FOOD_KINDS)
    ]
