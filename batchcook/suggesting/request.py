"""What the household asks: how many freezer nights, until when, how long a day in the kitchen."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import dataclass
from itertools import count
from typing import Final

from batchcook.complaints import Complaint, InputFault
from batchcook.freezer.monthrequest import read_nights
from batchcook.kitchens.kitchen import Kitchen

__all__ = ["SuggestRequest", "night_dates", "read_how_many", "read_length"]

_LENGTH: Final = re.compile(
    r"(?:(?P<hours>\d+(?:\.\d+)?)\s*h)?\s*(?:(?P<minutes>\d+)\s*(?:m(?:in)?)?)?"
)
_SHORTEST, _LONGEST = 30, 16 * 60
_MOST_NIGHTS: Final = 31


@dataclass(frozen=True)
class SuggestRequest:
    """What is asked.

    Attributes:
        date: The prep day.
        start: When it begins.
        nights: How many freezer nights, or their weekdays (Monday is 0).
        until: The last evening to be covered.
        people: People at the table.
        longest: Minutes that the prep day may take.
        seconds: How long to look, about: the last step is not cut short, and while nothing fits
            it may take as long again.
    """

    date: dt.date
    start: dt.time
    nights: int | tuple[int, ...]
    until: dt.date
    people: int
    longest: int
    kitchen: Kitchen
    seconds: float = 12.0


def read_length(text: str, option: str = "--longest") -> int:
    """Minutes of a length written as ``6h``, ``5h 30``, ``5.5h`` or ``90min``.

    Raises:
        InputFault: It is written otherwise, or no length for a prep day.
    """
    found = _LENGTH.fullmatch(text.strip().lower())
    if found is None or not re.search("[hm]", text.lower()):
        raise InputFault(Complaint(option, f"{text!r} is no length", "one like 6h, 5h30 or 90min"))
    minutes = round(float(found["hours"] or 0) * 60) + int(found["minutes"] or 0)
    if not _SHORTEST <= minutes <= _LONGEST:
        raise InputFault(
            Complaint(option, f"{text!r} is {minutes} minutes", "from 30min to 16h for a prep day")
        )
    return minutes


def read_how_many(text: str) -> int | tuple[int, ...]:
    """Freezer nights as a number, ``8``, or by weekday, ``tue,thu``.

    Raises:
        InputFault: It is neither.
    """
    if not text.strip().isdecimal():
        return read_nights(text)
    number = int(text)
    if not 1 <= number <= _MOST_NIGHTS:
        raise InputFault(Complaint("--nights", f"{number} nights", f"1 to {_MOST_NIGHTS}"))
    return number


def night_dates(request: SuggestRequest, planned: tuple[dt.date, ...]) -> tuple[dt.date, ...]:
    """The evenings: those planned already come first, the others lie evenly between.

    Args:
        request: What is asked.
        planned: Evenings that have their freezer dinner in the household's plan, in order.

    Raises:
        InputFault: There are fewer evenings than nights, or none at all.
    """
    days = _days_between(request.date, request.until)
    if isinstance(request.nights, tuple):
        dates = tuple(day for day in days if day.weekday() in request.nights)
        if not dates or len(dates) > _MOST_NIGHTS:
            what = f"{len(dates)} such evenings until {request.until}"
            raise InputFault(Complaint("--nights", what, f"1 to {_MOST_NIGHTS}"))
        return dates
    if request.nights > len(days):
        raise InputFault(
            Complaint(
                "--nights",
                f"{request.nights} nights after {request.date} until {request.until}",
                f"at most {len(days)}, or a later --until" if days else "a later --until",
            )
        )
    kept = [day for day in planned if day in days][: request.nights]
    free = [day for day in days if day not in kept]
    more = request.nights - len(kept)
    spread = [free[round(place * len(free) / more) - 1] for place in range(1, more + 1)]
    return tuple(sorted([*kept, *spread]))


def _days_between(first: dt.date, last: dt.date) -> tuple[dt.date, ...]:
    """The days after the first, the last among them."""
    days = []
    for number in count(1):
        day = first + dt.timedelta(days=number)
        if day > last:
            break
        days.append(day)
    return tuple(days)
