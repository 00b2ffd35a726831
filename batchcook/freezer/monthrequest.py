"""What the household asks of a month."""

from __future__ import annotations

import calendar
import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any, Final

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.dates import in_our_time

__all__ = [
    "MonthRequest",
    "month_days",
    "read_dates",
    "read_fixes",
    "read_month",
    "read_nights",
    "read_swaps",
    "read_table",
]

_WEEKDAYS: Final = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
_MOST_PEOPLE: Final = 24


@dataclass(frozen=True)
class MonthRequest:
    """A month, and what is asked of it.

    Attributes:
        first: The first day of the month.
        weekdays: Freezer nights by weekday, Monday is 0; None for those of last time.
        people: People at the table; None for those of last time.
        table: Evenings with another number of people.
        fix: Evening to the codes of its dinner.
        without: Evenings without a freezer dinner.
        free: Evenings to choose anew although they were settled.
        swaps: Pairs of evenings that change dinners.
        crunch: Evening to why there is no time to cook.
        away: Evening to why nobody eats at home.
        calendar: Whether the family's calendar was read for these two; if not, what it said last
            time stands.
    """

    first: dt.date
    weekdays: tuple[int, ...] | None = None
    people: int | None = None
    table: Mapping[dt.date, int] = field(default_factory=dict)
    fix: Mapping[dt.date, tuple[str, ...]] = field(default_factory=dict)
    without: frozenset[dt.date] = frozenset()
    free: frozenset[dt.date] = frozenset()
    swaps: tuple[tuple[dt.date, dt.date], ...] = ()
    crunch: Mapping[dt.date, tuple[str, ...]] = field(default_factory=dict)
    away: Mapping[dt.date, tuple[str, ...]] = field(default_factory=dict)
    calendar: bool = False

    @property
    def name(self) -> str:
        """``2027-02``."""
        return f"{self.first:%Y-%m}"

    @property
    def last(self) -> dt.date:
        """The last day of the month."""
        return month_days(self.first)[-1]

    def settings(self, before: Mapping[str, Any]) -> dict[str, Any]:
        """What the month is planned with: as asked, or else as last time.

        Raises:
            InputFault: No nights are named, now or last time.
        """
        weekdays = list(self.weekdays) if self.weekdays is not None else before.get("weekdays")
        if weekdays is None:
            raise InputFault(
                Complaint("--nights", "missing", "the weekdays of freezer nights, as in tue,thu")
            )
        table = {
            **before.get("table", {}),
            **{day.isoformat(): people for day, people in self.table.items()},
        }
        found = {
            "weekdays": weekdays,
            "people": self.people if self.people is not None else before.get("people", 4),
            "table": table,
        }
        for name, own in (("crunch", self.crunch), ("away", self.away)):
            told = _written(own) if self.calendar or own else before.get(name, {})
            if told:
                found[name] = told
        return found

    def with_calendar(self, settings: Mapping[str, Any]) -> MonthRequest:
        """The request with what the family's calendar says, now or as it was read last."""
        return replace(
            self,
            crunch=_read(settings.get("crunch", {})),
            away=_read(settings.get("away", {})),
        )


def _written(evenings: Mapping[dt.date, tuple[str, ...]]) -> dict[str, list[str]]:
    return {on.isoformat(): list(titles) for on, titles in sorted(evenings.items())}


def _read(evenings: Mapping[str, list[str]]) -> dict[dt.date, tuple[str, ...]]:
    return {dt.date.fromisoformat(on): tuple(titles) for on, titles in evenings.items()}


def month_days(first: dt.date) -> tuple[dt.date, ...]:
    """Every day of a month."""
    count = calendar.monthrange(first.year, first.month)[1]
    return tuple(first + dt.timedelta(days=day) for day in range(count))


def read_month(text: str) -> dt.date:
    """The first day of a month written as ``2027-02``.

    Raises:
        InputFault: It is none.
    """
    try:
        return in_our_time(dt.datetime.strptime(text, "%Y-%m").replace(tzinfo=dt.UTC).date())
    except ValueError:
        raise InputFault(Complaint("month", f"{text!r} is no month", "as in 2027-02")) from None


def read_nights(text: str) -> tuple[int, ...]:
    """Weekdays written as ``tue,thu``.

    Raises:
        InputFault: With a complaint for each word that is none.
    """
    words = [word.strip().lower() for word in text.split(",") if word.strip()]
    unknown = [word for word in words if word[:3] not in _WEEKDAYS]
    if unknown or not words:
        raise InputFault(
            [
                Complaint(
                    "--nights", f"{word!r} is no weekday", "as in tue,thu", nearest(word, _WEEKDAYS)
                )
                for word in unknown or [text]
            ]
        )
    return tuple(sorted({_WEEKDAYS.index(word[:3]) for word in words}))


def read_dates(option: str, words: Iterable[str], first: dt.date) -> frozenset[dt.date]:
    """Evenings of the month.

    Raises:
        InputFault: With a complaint for each that is none.
    """
    faults: list[Complaint] = []
    found = frozenset(_evening(option, word, first, faults) for word in words)
    if faults:
        raise InputFault(faults)
    return found


def read_table(words: Iterable[str], first: dt.date) -> dict[dt.date, int]:
    """People at the table on some evenings, written as ``2027-02-11=6``.

    Raises:
        InputFault: With a complaint for each that cannot be read.
    """
    faults: list[Complaint] = []
    found = {}
    for word in words:
        day, _, people = word.partition("=")
        evening = _evening("--table", day, first, faults)
        if people.isdecimal() and 1 <= int(people) <= _MOST_PEOPLE:
            found[evening] = int(people)
        else:
            faults.append(
                Complaint("--table", f"{word!r}", f"an evening and 1 to {_MOST_PEOPLE} people")
            )
    if faults:
        raise InputFault(faults)
    return found


def read_fixes(words: Iterable[str], first: dt.date) -> dict[dt.date, tuple[str, ...]]:
    """Dinners of some evenings, written as ``2027-02-11=A3,A4``.

    Raises:
        InputFault: With a complaint for each that cannot be read.
    """
    faults: list[Complaint] = []
    found = {}
    for word in words:
        day, _, codes = word.partition("=")
        evening = _evening("--fix", day, first, faults)
        found[evening] = tuple(code.strip() for code in codes.split(",") if code.strip())
        if not found[evening]:
            faults.append(Complaint("--fix", f"{word!r} names no code", "as in 2027-02-11=A3,A4"))
    if faults:
        raise InputFault(faults)
    return found


def read_swaps(words: Iterable[str], first: dt.date) -> tuple[tuple[dt.date, dt.date], ...]:
    """Evenings that change dinners, written as ``2027-02-09=2027-02-16``.

    Raises:
        InputFault: With a complaint for each that cannot be read.
    """
    faults: list[Complaint] = []
    found = []
    for word in words:
        one, _, other = word.partition("=")
        found.append(
            (_evening("--swap", one, first, faults), _evening("--swap", other, first, faults))
        )
    if faults:
        raise InputFault(faults)
    return tuple(found)


def _evening(option: str, word: str, first: dt.date, faults: list[Complaint]) -> dt.date:
    try:
        day = dt.date.fromisoformat(word.strip())
    except ValueError:
        faults.append(Complaint(option, f"{word!r} is no date", "as in 2027-02-11"))
        return first
    if (day.year, day.month) != (first.year, first.month):
        faults.append(
            Complaint(option, f"{word} is not in {first:%Y-%m}", "an evening of the month")
        )
    return day
