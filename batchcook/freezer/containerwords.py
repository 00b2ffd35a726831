"""What is said of raw and of thawed food wherever it is listed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache
from typing import TYPE_CHECKING, Final

from batchcook.foodsafety.temperatures import safe_temperatures
from batchcook.freezer.stock import Stored
from batchcook.metricwords import metric_words
from batchcook.wording import degrees

if TYPE_CHECKING:
    from batchcook.foodsafety.thawing import ThawWay

__all__ = ["THAWED", "cook_words", "raw_words", "temperatures"]

THAWED: Final[Mapping[ThawWay, str]] = {
    "refrigerator": "moved to the refrigerator",
    "cold-water": "thawed in cold water",
    "microwave": "thawed in the microwave",
}
"""Each way to thaw, as it is told afterwards."""


def raw_words(stored: Stored) -> str:
    """What is said of a container that is raw; empty for one that is cooked."""
    if not stored.raw:
        return ""
    return temperatures(cook_words(stored.cook_to_fahrenheit, stored.rest_minutes), [stored])


def temperatures(text: str, of: Iterable[Stored]) -> str:
    """A text with its temperatures as they are set, in degC where any container is metric."""
    metric = any(each.system == "metric" for each in of)
    return degrees(metric_words(text) if metric else text)


def cook_words(fahrenheit: int | None, rest_minutes: int) -> str:
    """``RAW: cook it through, to 165 degF``; where its own is not known, poultry's, the highest."""
    if fahrenheit is None:
        fahrenheit = _highest()
    rest = f", then {rest_minutes} min rest" if rest_minutes else ""
    return f"RAW: cook it through, to {fahrenheit} degF{rest}"


@cache
def _highest() -> int:
    return max(round(float(each.temperature.magnitude)) for each in safe_temperatures().values())
