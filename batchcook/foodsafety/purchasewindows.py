"""How long before the prep day fresh food may be bought, from the cold-storage charts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from batchcook.foodsafety.storage import Span, refrigerator_life, rows_for
from batchcook.foodsafety.tables import table

__all__ = ["PurchaseWindow", "purchase_window"]


@dataclass(frozen=True)
class PurchaseWindow:
    """Days in the refrigerator between the store and the prep day.

    Attributes:
        days: The short and the long end of the strictest chart.
        cut_up: The same for pieces cut up by the butcher, where that is shorter; else None.
    """

    days: Span
    cut_up: Span | None


def purchase_window(kind: str) -> PurchaseWindow | None:
    """When food of a kind may be bought, or None where no chart sets a day.

    Source: the refrigerator days of FoodSafety.gov, Cold Food Storage Chart, and of USDA FSIS,
    Freezing and Food Safety, for stew meat.

    Args:
        kind: One of :data:`batchcook.foodsafety.kinds.FOOD_KINDS`.
    """
    return _windows().get(kind)


@cache
def _windows() -> Mapping[str, PurchaseWindow]:
    return {kind: _window(kind, entry) for kind, entry in table("purchase_windows").items()}


def _window(kind: str, entry: Mapping[str, Any]) -> PurchaseWindow:
    most = entry.get("at_most")
    return PurchaseWindow(
        _days(entry["rows"], kind, most),
        _days(entry["cut_up"], kind, most) if "cut_up" in entry else None,
    )


def _days(names: list[str], kind: str, most: int | None) -> Span:
    where = f"purchase_windows.toml, {kind}"
    low, high = refrigerator_life(rows_for(names, where))
    return (low, high) if most is None else (min(low, most), min(high, most))
