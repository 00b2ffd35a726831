"""Raw food that is frozen as bought: which rows it falls under, and how hot it is cooked."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Final

from batchcook.foodsafety.storage import StorageRow, storage_row
from batchcook.foodsafety.tables import table
from batchcook.foodsafety.temperatures import CookTo, safe_temperatures

__all__ = ["cook_raw_to", "is_raw", "rows_if_raw"]

_STRICTEST: Final = "raw-ground-meat-or-poultry"
"""No raw food that is frozen keeps less long once thawed, and none is cooked hotter."""
_POULTRY: Final = "poultry"
"""The hottest of the safe temperatures, so a name that says poultry is heeded in every row."""


def is_raw(rows: Iterable[StorageRow]) -> bool:
    """Whether food that is kept as these rows is still to be cooked."""
    return any(row.raw for row in rows)


def rows_if_raw(names: Sequence[str], where: str) -> tuple[str, ...]:
    """The rows of food of which it is known that it is raw.

    Rows of cooked food only do not say which raw food it is, and allow longer in the refrigerator
    than raw food has: then the strictest row of raw food counts too.

    Args:
        names: Row names as given.
        where: The place that gave them, for messages.

    Raises:
        InputFault: A name is no row.
    """
    if not names or is_raw(storage_row(name, where) for name in names):
        return tuple(names)
    return (*names, _STRICTEST)


def cook_raw_to(rows: Iterable[StorageRow], words: str) -> CookTo | None:
    """How hot food kept as these rows is cooked.

    Args:
        rows: The rows that were named for it.
        words: What it is called. Where a row covers meat of several temperatures, the meats that
            these words name decide; where they name none, all count.

    Returns:
        The hottest that applies, the longest rest where two are as hot; None for cooked food.
    """
    possible = list(dict.fromkeys(name for row in rows for name in row.cook_to))
    if not possible:
        return None
    said = set(re.findall(r"[a-z]+", words.lower()))
    named = [
        name
        for name in (*possible, _POULTRY)
        if not said.isdisjoint(table("temperatures")["safe"][name].get("meats", ()))
    ]
    fitting = [safe_temperatures()[name] for name in named or possible]
    return max(fitting, key=lambda each: (each.fahrenheit, each.rest_minutes))
