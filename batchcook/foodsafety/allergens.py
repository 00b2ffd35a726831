"""The nine major food allergens, and the Acts that name them.

Eight are those of the Food Allergen Labeling and Consumer Protection Act of 2004 (FALCPA); the
FASTER Act of 2021 added sesame. Which food carries which is the foods table's business.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from batchcook.foodsafety.tables import Source, source, table

__all__ = ["Allergen", "allergens"]


@dataclass(frozen=True)
class Allergen:
    """One major food allergen.

    Attributes:
        name: As it is printed and as the foods table gives it.
        scope: What the Act means by it.
        act: The Act that names it.
    """

    name: str
    scope: str
    act: Source


@cache
def allergens() -> Mapping[str, Allergen]:
    """The nine, by name, in the order of the Acts."""
    return {
        name: Allergen(name, entry["scope"], source(entry["act"]))
        for name, entry in table("allergens").items()
    }
