"""Dates, times and temperatures as they stand on paper."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date, datetime

from batchcook import lengths
from batchcook.plan import WhatIf

__all__ = [
    "bound",
    "change_notes",
    "change_words",
    "clock",
    "day",
    "day_of_month",
    "degrees",
    "hours",
    "month",
    "near_day",
    "short_day",
    "with_time",
]


def clock(at: datetime) -> str:
    """An instant as ``08:05``."""
    return f"{at:%H:%M}"


def day(on: date) -> str:
    """A date as ``Sat 16 Jan 2027``, whatever the locale."""
    return f"{_DAYS[on.weekday()]} {short_day(on)}"


def day_of_month(on: date) -> str:
    """A date as ``Sat 16 Jan``, on one line, where the page says which year it is."""
    return near_day(on).replace(" ", "\u00a0")


def with_time(text: str) -> tuple[str, str, str]:
    """The text before its first time of day, that time with what is joined to it, and the rest."""
    found = re.search(r"\b\d\d:\d\d\S*", text)
    if found is None:
        return text, "", ""
    return text[: found.start()].rstrip(), found[0], text[found.end() :].lstrip()


def short_day(on: date) -> str:
    """A date as ``16 Jan 2027``, whatever the locale."""
    return f"{on.day} {_MONTHS[on.month - 1]} {on.year}"


def near_day(on: date) -> str:
    """A date as ``Sat 16 Jan``, where the year goes without saying."""
    return f"{_DAYS[on.weekday()]} {on.day} {_MONTHS[on.month - 1]}"


def month(first: date) -> str:
    """A month as ``January 2027``."""
    return f"{_FULL_MONTHS[first.month - 1]} {first.year}"


def hours(minutes: int) -> str:
    """Minutes as ``7 h 05 min``, kept on one line."""
    return lengths.hours(minutes).replace(" ", "\u00a0")


def bound(text: str) -> str:
    """The text with each number kept on one line with its unit: ``1 1/2 tsp``."""
    return re.sub(r"(?<=\d) (?=[\w(])", "\u00a0", text)


def degrees(text: str) -> str:
    """The text with its temperatures set as ``165 °F``, kept on one line."""
    return text.replace(" degF", "\u00a0°F").replace(" degC", "\u00a0°C")


def change_words(change: WhatIf) -> str:
    """What a change in the kitchen does to the day, as far as it is known."""
    if change.minutes is None:
        return "the day could not be done" if change.proved else "no plan was found in the time"
    if change.minutes == 0:
        return _NO_CHANGE if change.proved else _NOT_FOUND
    bound = "" if change.proved else "at most " if change.minutes > 0 else "at least "
    return f"{bound}{hours(abs(change.minutes))} {'longer' if change.minutes > 0 else 'shorter'}"


def change_notes(changes: Iterable[WhatIf]) -> tuple[str, ...]:
    """What ``no change`` and ``no change found`` mean, where both or the latter are told."""
    told = {change_words(each) for each in changes}
    if _NOT_FOUND not in told:
        return ()
    sure = f"{_NO_CHANGE}: the day is proved to be just as long. " if _NO_CHANGE in told else ""
    unsure = f"{_NOT_FOUND}: the day found is just as long; a shorter one is not ruled out."
    return (sure + unsure,)


_NO_CHANGE, _NOT_FOUND = "no change", "no change found"
_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_FULL_MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
