"""Foods that do not freeze well, and doses that change when a recipe is multiplied.

A matter of quality, not of safety.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Literal

from batchcook.foodsafety.tables import Source, source, table

__all__ = [
    "FoodUse",
    "QualityRow",
    "QualityWarning",
    "dose_warnings",
    "freezing_warnings",
    "quality_rows",
]

Topic = Literal["freezing", "multiplying"]


@dataclass(frozen=True)
class FoodUse:
    """A food as a dish uses it when it goes into the freezer.

    Attributes:
        food: Its name or key.
        use: ``"raw"``, ``"cooked"``, ``"mashed"``, ``"topping"``, ``"filling"``, ``"sauce"``,
            ``"fried"`` or ``"boiled-down"``; empty when only what happens in any use matters.
    """

    food: str
    use: str = ""


@dataclass(frozen=True)
class QualityRow:
    """One row of what freezing or multiplying does to a food."""

    name: str
    scope: str
    foods: tuple[str, ...]
    not_foods: tuple[str, ...]
    uses: tuple[str, ...]
    happens: str
    advice: str
    weight: str
    sources: tuple[Source, ...]

    def fits(self, use: FoodUse) -> bool:
        """Whether the row is about this food in this use."""
        name = use.food.lower().replace("-", " ")
        if any(word in name for word in self.not_foods):
            return False
        named = not self.foods or any(word.replace("-", " ") in name for word in self.foods)
        return named and (not self.uses or use.use in self.uses)


@dataclass(frozen=True)
class QualityWarning:
    """What to tell a recipe's writer.

    Attributes:
        food: The food as given.
        row: The row's name.
        weight: ``"warning"``, worth changing the recipe for, or ``"note"``.
        what: What happens to it.
        advice: What to do instead.
        sources: Where that is published.
    """

    food: str
    row: str
    weight: str
    what: str
    advice: str
    sources: tuple[Source, ...]

    def __str__(self) -> str:
        """One line: the food, what happens, what to do, and who says so."""
        told = "; ".join(str(each) for each in self.sources)
        return f"{self.food}: {self.what}; {self.advice} ({told})"


@cache
def quality_rows(topic: Topic) -> Mapping[str, QualityRow]:
    """Every row on freezing or on multiplying, by name."""
    return {
        name: QualityRow(
            name=name,
            scope=entry["scope"],
            foods=tuple(entry["foods"]),
            not_foods=tuple(entry["not_foods"]),
            uses=tuple(entry["uses"]),
            happens=entry["happens"],
            advice=entry["advice"],
            weight=entry["weight"],
            sources=tuple(source(key) for key in entry["sources"]),
        )
        for name, entry in table("freezer_quality")[topic].items()
    }


def freezing_warnings(uses: Iterable[FoodUse]) -> tuple[QualityWarning, ...]:
    """What freezing does to the foods of a dish.

    Args:
        uses: Its foods, those that are frozen; what is added on the night does not belong here.
    """
    return _warnings("freezing", uses)


def dose_warnings(uses: Iterable[FoodUse], batches: int) -> tuple[QualityWarning, ...]:
    """Which doses are adjusted by taste when a recipe is multiplied (common practice).

    Args:
        uses: The dish's foods.
        batches: How often it is multiplied; a single batch has no warnings.
    """
    return _warnings("multiplying", uses) if batches > 1 else ()


def _warnings(topic: Topic, uses: Iterable[FoodUse]) -> tuple[QualityWarning, ...]:
    return tuple(
        QualityWarning(use.food, row.name, row.weight, row.happens, row.advice, row.sources)
        for use in dict.fromkeys(uses)
        for row in quality_rows(topic).values()
        if row.fits(use)
    )
