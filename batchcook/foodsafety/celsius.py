"""Temperatures for a kitchen that measures in degC."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from batchcook.foodsafety.tables import table

__all__ = ["celsius", "published_celsius"]

_OVENS = 212
"""degF from which a temperature is an oven's, which is set in steps of 5 degC."""


@cache
def published_celsius() -> Mapping[int, int]:
    """Each published temperature in degF with the degC that is printed beside it."""
    return {
        fahrenheit: celsius
        for entry in table("celsius").values()
        for fahrenheit, celsius in zip(entry["degF"], entry["degC"], strict=True)
    }


def celsius(fahrenheit: float) -> int:
    """A temperature as a cook reads or sets it in whole degC.

    Args:
        fahrenheit: The same in degF.

    Returns:
        The published figure where there is one; for an oven, from 212 degF, the nearest 5 degC;
        for anything else the nearest degree.
    """
    if fahrenheit in published_celsius():
        return published_celsius()[round(fahrenheit)]
    exact = (fahrenheit - 32) / 1.8
    return 5 * round(exact / 5) if fahrenheit >= _OVENS else round(exact)
