"""How hot food is cooked and reheated, how long it rests, and where tenderness asks for more."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from batchcook.complaints import InputFault
from batchcook.foodsafety.kinds import unknown_kinds
from batchcook.foodsafety.tables import Source, source, table
from batchcook.quantities import Quantity, ureg

__all__ = [
    "CookTo",
    "Tender",
    "cook_to",
    "reheat_to",
    "safe_temperatures",
    "tender",
    "tender_ranges",
]


@dataclass(frozen=True)
class CookTo:
    """An internal temperature to reach, measured with a thermometer.

    Attributes:
        row: Name of the row that decides.
        temperature: The temperature, in degF.
        rest_minutes: Minutes to rest at it or above before cutting or eating.
        scope: What the row covers, in our words.
        note: What else to know, or an empty string.
        source: Where it was published.
    """

    row: str
    temperature: Quantity
    rest_minutes: int
    scope: str
    note: str
    source: Source

    @property
    def fahrenheit(self) -> int:
        """The temperature as it is printed, in whole degF."""
        return round(float(self.temperature.to("degF").magnitude))


@dataclass(frozen=True)
class Tender:
    """The range in which a cut turns tender, above its safe minimum.

    Attributes:
        low: Where it begins, in degF.
        high: Where it ends, in degF.
        scope: What it covers.
        source: Where it is from.
    """

    low: Quantity
    high: Quantity
    scope: str
    source: Source


@cache
def safe_temperatures() -> Mapping[str, CookTo]:
    """Every row of the safe minimum temperatures, by name."""
    return {name: _read(name, entry) for name, entry in table("temperatures")["safe"].items()}


def cook_to(kinds: Collection[str], form: str = "", where: str = "cooking step") -> CookTo | None:
    """How hot a food or a dish is cooked: of all the rows that fit it, the hottest.

    Args:
        kinds: The food kinds that it holds, raw as they go in.
        form: The form of the dish where a whole dish is cooked; empty for a food by itself.
        where: The place that gave the kinds, for messages.

    Returns:
        The hottest row; the longest rest where two are as hot. None when nothing in it has a
        published temperature. Sausage whose meat is not known counts as poultry.

    Raises:
        InputFault: With a complaint for each unknown kind.
    """
    faults = unknown_kinds(kinds, where)
    if faults:
        raise InputFault(faults)
    fitting = [
        safe_temperatures()[name]
        for name, entry in table("temperatures")["safe"].items()
        if form in entry["forms"] or not set(kinds).isdisjoint(entry["kinds"])
    ]
    fitting += [
        _unsure(entry) for kind, entry in table("temperatures")["unsure"].items() if kind in kinds
    ]
    if not fitting:
        return None
    return max(fitting, key=lambda row: (row.fahrenheit, row.rest_minutes))


def reheat_to() -> CookTo:
    """How hot every cooked dish is reheated: 165 degF."""
    return safe_temperatures()["leftovers-and-casseroles"]


@cache
def tender_ranges() -> Mapping[str, Tender]:
    """Every range in which a cut turns tender, by name."""
    return {
        name: Tender(
            low=ureg.Quantity(entry["low_degF"], "degF"),
            high=ureg.Quantity(entry["high_degF"], "degF"),
            scope=entry["scope"],
            source=source(entry["source"]),
        )
        for name, entry in table("temperatures")["tender"].items()
    }


def tender(food: str, kind: str) -> Tender | None:
    """The range in which this food turns tender, where that is above its safe minimum.

    Args:
        food: The food's name or key, ``"pork shoulder"`` or ``"pork-shoulder"``.
        kind: Its food kind.

    Returns:
        The range, common practice without a published source, or None.
    """
    words = food.lower().replace(" ", "-")
    for name, entry in table("temperatures")["tender"].items():
        if kind in entry["kinds"] and any(word in words for word in entry["foods"]):
            return tender_ranges()[name]
    return None


def _read(name: str, entry: Mapping[str, Any], note: str = "") -> CookTo:
    return CookTo(
        row=name,
        temperature=ureg.Quantity(entry["degF"], "degF"),
        rest_minutes=int(entry["rest_minutes"]),
        scope=entry["scope"],
        note=note,
        source=source(entry["source"]),
    )


def _unsure(entry: Mapping[str, Any]) -> CookTo:
    row = entry["row"]
    return _read(row, table("temperatures")["safe"][row], entry["note"])
