"""What a power cut means for the stock."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from batchcook.foodsafety.powercut import (
    Fill,
    freezer_holds,
    look_words,
    refrigerator_holds,
    refrigerator_words,
    stays_words,
)
from batchcook.freezer.standing import Standing

__all__ = ["Outage", "outage"]


@dataclass(frozen=True)
class Outage:
    """What the rule says.

    Attributes:
        hours: How long the power was off.
        holds_hours: How long a freezer so full stays cold, unopened.
        cold: Whether that was long enough.
        advice: What to do, a sentence a line.
        look_at: What has to be looked at one by one, the riskiest first.
        refrigerator_cold: Whether it was not too long for the refrigerator, which holds for less.
        refrigerator_advice: What to do with the food in it, a sentence a line.
        in_refrigerator: What stood in it.
        source: The rule's source.
    """

    hours: float
    holds_hours: int
    cold: bool
    advice: tuple[str, ...]
    look_at: tuple[Standing, ...]
    refrigerator_cold: bool
    refrigerator_advice: tuple[str, ...]
    in_refrigerator: tuple[Standing, ...]
    source: str


def outage(stock: Sequence[Standing], hours: float, fill: Fill, *, opened: bool) -> Outage:
    """What FoodSafety.gov's rule says.

    Args:
        stock: Everything there is.
        hours: How long the power was off.
        fill: How full the freezer was; half unless it was full.
        opened: Whether the doors were opened meanwhile: then no number of hours is safe to go by.
    """
    rule = freezer_holds(fill)
    holds = rule.minutes // 60
    cold = hours <= holds and not opened
    frozen = [each for each in stock if each.stored.place == "freezer"]
    return Outage(
        hours=hours,
        holds_hours=holds,
        cold=cold,
        advice=stays_words(fill) if cold else look_words(hours, fill, opened=opened),
        look_at=() if cold else tuple(sorted(frozen, key=_riskiest_first)),
        refrigerator_cold=refrigerator_holds(hours, opened=opened),
        refrigerator_advice=refrigerator_words(hours, opened=opened),
        in_refrigerator=tuple(each for each in stock if each.stored.place == "refrigerator"),
        source=str(rule.source),
    )


def _riskiest_first(each: Standing) -> tuple[bool, int]:
    """Raw kits first, then the lightest, which thaw soonest."""
    return (not each.stored.raw, each.stored.grams)
