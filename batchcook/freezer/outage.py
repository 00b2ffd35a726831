"""What a power cut means for the stock.

The hours are in the table of handling limits. That food may be frozen again while it has ice
crystals or is at 40 degF or below, and is thrown out after more than 2 hours above that, is from
the same publisher's page, written here from memory.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from batchcook.foodsafety.tables import source, table
from batchcook.freezer.standing import Standing

__all__ = ["REFRIGERATOR_WORDS", "Fill", "Outage", "outage"]

REFRIGERATOR_WORDS = (
    "A refrigerator kept shut stays cold for about 4 hours; after that, what was above 40 °F for "
    "more than 2 hours is thrown out."
)
"""FoodSafety.gov, Food Safety During Power Outage, from memory."""

Fill = Literal["full", "half"]


@dataclass(frozen=True)
class Outage:
    """What the rule says.

    Attributes:
        hours: How long the power was off.
        holds_hours: How long a freezer so full stays cold, unopened.
        cold: Whether that was long enough.
        advice: What to do, a sentence a line.
        look_at: What has to be looked at one by one, the riskiest first.
        in_refrigerator: What stood in the refrigerator, which holds for 4 hours.
        source: The rule's source.
    """

    hours: float
    holds_hours: int
    cold: bool
    advice: tuple[str, ...]
    look_at: tuple[Standing, ...]
    in_refrigerator: tuple[Standing, ...]
    source: str


def outage(stock: Sequence[Standing], hours: float, fill: Fill, *, opened: bool) -> Outage:
    """What FoodSafety.gov's rule says.

    Args:
        stock: Everything there is.
        hours: How long the power was off.
        fill: How full the freezer was; half unless it was full.
        opened: Whether the door was opened meanwhile: then no number of hours is safe to go by.
    """
    row = table("handling")["power-cut-full" if fill == "full" else "power-cut-half-full"]
    holds = int(row["high"])
    cold = hours <= holds and not opened
    frozen = [each for each in stock if each.stored.place == "freezer"]
    return Outage(
        hours=hours,
        holds_hours=holds,
        cold=cold,
        advice=_all_cold(holds, fill) if cold else _look(hours, holds, fill, opened=opened),
        look_at=() if cold else tuple(sorted(frozen, key=_riskiest_first)),
        in_refrigerator=tuple(each for each in stock if each.stored.place == "refrigerator"),
        source=str(source(row["source"])),
    )


def _all_cold(holds: int, fill: Fill) -> tuple[str, ...]:
    return (
        (
            f"A {_filled(fill)} freezer stays cold for about {holds} hours if it is kept shut: "
            "everything in it can stay."
        ),
        "Keep the door shut until the power has been back for some hours.",
    )


def _look(hours: float, holds: int, fill: Fill, *, opened: bool) -> tuple[str, ...]:
    why = (
        "The door was opened, so the hours cannot be gone by."
        if opened
        else f"{hours:g} hours are longer than the {holds} hours that a {_filled(fill)} freezer "
        "stays cold."
    )
    return (
        f"{why} Look at each container, with a thermometer.",
        (
            "Ice crystals in it still, or 40 degF or below: it may be frozen again, with some loss "
            "of quality, or cooked at once."
        ),
        "Above 40 degF for more than 2 hours: throw out. For how long is not known: throw out.",
        "Never taste it to find out.",
    )


def _filled(fill: Fill) -> str:
    return "full" if fill == "full" else "half-full"


def _riskiest_first(each: Standing) -> tuple[bool, int]:
    """Raw kits first, then the lightest, which thaw soonest."""
    return (each.stored.state != "raw-kit", each.stored.grams)
