"""Dates that a kitchen can mean."""

from __future__ import annotations

import datetime as dt

__all__ = ["in_our_time"]

_YEARS = range(2000, 2200)
"""Further off a date is a slip of the pen, and near the end of the calendar nothing can be counted
from it."""


def in_our_time(day: dt.date) -> dt.date:
    """The day itself.

    Raises:
        ValueError: It is in a year in which nobody cooks with this program.
    """
    if day.year not in _YEARS:
        raise ValueError(day)
    return day
