"""Busy evenings and evenings away, out of the family's own calendar.

How a calendar is read, all of it our own choice:

- An evening is 17:00 to 20:00. An event with a time that falls into it makes it a *crunch
  evening*: somebody has no time to cook.
- An event whose title holds one of the *away words* and that touches the evening makes it an
  *evening away*, at a time or all day: nobody eats at home.
- All other all-day events say nothing about dinner (birthdays, holidays). Cancelled events, and
  those shown as free, say nothing either.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from batchcook.complaints import Complaint, InputFault

if TYPE_CHECKING:
    from icalendar import Calendar, Event

__all__ = ["AWAY_WORDS", "EVENING", "FamilyEvenings", "read_family_evenings", "read_zone"]

EVENING: Final = (dt.time(17), dt.time(20))
"""When dinner is cooked and eaten."""

_BROKEN: Final = (ValueError, KeyError, TypeError, AttributeError, OverflowError)
"""What the libraries raise for an event that breaks RFC 5545, each in its own place."""

AWAY_WORDS: Final = ("away", "dinner out", "eating out", "holiday", "trip", "vacation")


@dataclass(frozen=True)
class FamilyEvenings:
    """What the family's calendar says of a month.

    Attributes:
        crunch: Evening to the titles of what fills it.
        away: Evening to the titles of why nobody eats at home.
    """

    crunch: Mapping[dt.date, tuple[str, ...]]
    away: Mapping[dt.date, tuple[str, ...]]


def read_zone(name: str) -> dt.tzinfo | None:
    """The zone of that name; None, for the system's own, where it is empty.

    Raises:
        InputFault: There is no such zone.
    """
    if not name:
        return None
    try:
        return ZoneInfo(name)
    except (ValueError, OSError, ZoneInfoNotFoundError):
        raise InputFault(
            Complaint("--zone", f"{name!r} is no zone", "as in America/Chicago")
        ) from None


def read_family_evenings(
    files: Iterable[Path],
    first: dt.date,
    last: dt.date,
    *,
    zone: dt.tzinfo | None = None,
    away_words: Sequence[str] = AWAY_WORDS,
) -> FamilyEvenings:
    """The crunch evenings and evenings away between two days, both included.

    Args:
        files: Calendars (RFC 5545); events that recur are followed, with their exceptions.
        first: The first evening.
        last: The last one.
        zone: Where the family lives; the system's own zone if not given. Times without a zone
            are the family's own wherever that is.
        away_words: Words in a title that mean nobody eats at home.

    Raises:
        InputFault: With a complaint for each file that cannot be read.
    """
    complaints: list[Complaint] = []
    crunch: dict[dt.date, list[str]] = {}
    away: dict[dt.date, list[str]] = {}
    for file in files:
        for event in _events(file, first, last, complaints):
            title = str(event.get("SUMMARY", "an event"))
            is_away = any(
                re.search(rf"\b{re.escape(word)}\b", title, re.IGNORECASE) for word in away_words
            )
            start, end, timed = _span(event, zone)
            if not timed and not is_away:
                continue
            for evening in _evenings(start, end, first, last):
                noted = (away if is_away else crunch).setdefault(evening, [])
                if title not in noted:
                    noted.append(title)
    if complaints:
        raise InputFault(complaints)
    return FamilyEvenings(
        crunch={
            evening: tuple(titles)
            for evening, titles in sorted(crunch.items())
            if evening not in away
        },
        away={evening: tuple(titles) for evening, titles in sorted(away.items())},
    )


def _events(
    file: Path, first: dt.date, last: dt.date, complaints: list[Complaint]
) -> Iterable[Event]:
    """The events of a file between two days that say something, each recurrence by itself."""
    # It carries no types of its own.
    import recurring_ical_events  # type: ignore[import-untyped]  # noqa: PLC0415 - only here

    events: list[Event] = []
    calendars = _calendars(file, complaints)
    for calendar in calendars:
        try:
            _check_events(calendar)
            # A day either side, so that no shift between zones loses an event.
            found = recurring_ical_events.of(calendar).between(
                first - dt.timedelta(days=1), last + dt.timedelta(days=2)
            )
        except _BROKEN as fault:
            what = f"has an event whose times cannot be read ({fault})"
            complaints.append(Complaint(str(file), what, "DTSTART, and RRULE where it recurs"))
            continue
        events.extend(
            event
            for event in found
            if event.name == "VEVENT"
            and str(event.get("STATUS", "")).upper() != "CANCELLED"
            and str(event.get("TRANSP", "")).upper() != "TRANSPARENT"
        )
    return events


def _check_events(calendar: Calendar) -> None:
    """Refuse what is no event, and a rule that would never move on: it would be followed for ever.

    Raises:
        ValueError: Of such an event, by its title.
    """
    for event in calendar.events:
        title = str(event.get("SUMMARY", "an event"))
        if "DTSTART" not in event:
            raise ValueError(f"{title!r} has no DTSTART")
        try:
            rules = event.get("RRULE", [])
            rules = rules if isinstance(rules, list) else [rules]
            steps = [int(each) for rule in rules for each in rule.get("INTERVAL", [])]
            _ = event.start, event.end
        except _BROKEN as fault:
            raise ValueError(f"{title!r}: {fault}") from None
        if any(step < 1 for step in steps):
            raise ValueError(f"{title!r} recurs at an INTERVAL of 0")


def _calendars(file: Path, complaints: list[Complaint]) -> list[Calendar]:
    from icalendar import Calendar  # noqa: PLC0415 - only with a calendar

    try:
        content = file.read_bytes()
    except OSError as fault:
        what = f"cannot be read ({fault.strerror})"
        complaints.append(Complaint(str(file), what, "a calendar, as an .ics file"))
        return []
    try:
        found = Calendar.from_ical(content, multiple=True)
    except ValueError as fault:
        complaints.append(
            Complaint(str(file), f"is no calendar{_why(fault)}", "a calendar, as an .ics file")
        )
        return []
    calendars = [each for each in found if isinstance(each, Calendar)]
    if not calendars:
        complaints.append(Complaint(str(file), "holds no calendar", "an .ics file"))
    return calendars


_LEGIBLE: Final = 120
"""The most characters of another's message that are passed on."""


def _why(fault: ValueError) -> str:
    """The library's own reason, unless it is a lump of what the file holds."""
    words = " ".join(str(fault).split())
    return f" ({words})" if words.isprintable() and 0 < len(words) <= _LEGIBLE else ""


def _span(event: Event, zone: dt.tzinfo | None) -> tuple[dt.datetime, dt.datetime, bool]:
    """Start and end on the family's clock, and whether the event has a time of day."""
    start, end = event.start, event.end
    timed = isinstance(start, dt.datetime)
    return _local(start, zone), _local(end, zone), timed


def _local(at: dt.date | dt.datetime, zone: dt.tzinfo | None) -> dt.datetime:
    if not isinstance(at, dt.datetime):
        return dt.datetime.combine(at, dt.time())
    if at.tzinfo is None:
        return at
    return at.astimezone(zone).replace(tzinfo=None)


def _evenings(
    start: dt.datetime, end: dt.datetime, first: dt.date, last: dt.date
) -> Iterable[dt.date]:
    """The evenings that a span touches; a moment without length touches the one it is in."""
    evening = max(start.date(), first)
    while evening <= min(end.date(), last):
        opens, closes = (dt.datetime.combine(evening, at) for at in EVENING)
        if start < closes and (end > opens or start == end >= opens):
            yield evening
        evening += dt.timedelta(days=1)
