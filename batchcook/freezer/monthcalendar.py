"""The month as a calendar file (RFC 5545) that phones understand.

Events, not to-dos, since phones show those, each with its alarm. Times are without a zone: six in
the evening is six wherever the household is. An event keeps its UID when the month is planned
again and its SEQUENCE grows, so that importing the file once more updates it; what falls away
comes as cancelled.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterable, Iterator
from typing import Final

from icalendar import Alarm, Calendar, Event

from batchcook.freezer.evenings import Evening
from batchcook.freezer.monthplan import Dinner, MonthPlan
from batchcook.freezer.monthwords import Move, codes_of, moves_of, remarks
from batchcook.freezer.standing import next_date
from batchcook.freezer.stock import Stored
from batchcook.wording import day, degrees

__all__ = ["month_calendar"]

_DINNER: Final = dt.time(18)
_MOVING: Final = dt.time(17)
"""A full day before cooking for dinner begins (USDA FSIS, The Big Thaw)."""
_USE_BY: Final = dt.time(9)
_DAYS_BEFORE: Final = 3
"""Days before a use-by date at which the alarm goes off first."""


def month_calendar(planned: MonthPlan) -> bytes:
    """Freezer nights, what to move when, and use-by dates, each with an alarm."""
    calendar = Calendar()
    calendar.add("PRODID", "-//batchcook//freezer nights//EN")
    calendar.add("VERSION", "2.0")
    calendar.add("CALSCALE", "GREGORIAN")
    calendar.add("METHOD", "PUBLISH")
    calendar.add("X-WR-CALNAME", "Freezer nights")
    for event in _events(planned):
        calendar.add_component(event)
    content: bytes = calendar.to_ical()
    return content


def _events(planned: MonthPlan) -> Iterator[Event]:
    moving: dict[dt.date, set[int]] = {}
    for move in moves_of(planned, past=True):
        moving.setdefault(move.evening, set()).add(_days_before(move))
    for dinner in planned.dinners:
        again = dinner.evening.times > 1
        if dinner.evening.keys:
            yield _dinner(planned, dinner)
        elif again:
            yield _cancelled(planned, "dinner", dinner.evening, _DINNER)
        if again and dinner.evening.on >= planned.today:
            still = moving.get(dinner.evening.on, set())
            yield from _nothing_to_move(planned, dinner.evening, still)
    for move in moves_of(planned):
        yield _move(planned, move)
    for evening in planned.off:
        if evening.times == 1:
            continue
        yield _cancelled(planned, "dinner", evening, _DINNER)
        yield from _nothing_to_move(planned, evening, ())
    yield from _use_by(planned)


def _dinner(planned: MonthPlan, dinner: Dinner) -> Event:
    evening = dinner.evening
    event = _event(planned, f"dinner-{evening.on.isoformat()}", evening.times, evening.at)
    codes = codes_of(planned, dinner.containers)
    event.add("SUMMARY", f"Freezer night: {evening.title}")
    told = [
        f"Containers {codes}, serves {dinner.portions}." if codes else "",
        *remarks(planned, dinner),
    ]
    told += list(dict.fromkeys(degrees(each.finish) for each in dinner.containers))
    event.add("DESCRIPTION", "\n".join(line for line in told if line))
    _at(event, evening.on, _DINNER, minutes=60)
    event.add_component(_alarm(f"Dinner: {evening.title}", dt.timedelta(minutes=-60)))
    return event


def _days_before(move: Move) -> int:
    return (move.evening - move.on).days


def _thaw_name(days: int) -> str:
    """A reminder is known by how many days before its evening it is, whatever else is moved."""
    return f"thaw-{days}"


def _nothing_to_move(
    planned: MonthPlan, evening: Evening, still: Collection[int]
) -> Iterator[Event]:
    """Reminders of earlier plans for an evening, of days on which nothing is moved any more."""
    for days in sorted(evening.moved_before.difference(still)):
        yield _cancelled(planned, _thaw_name(days), evening, _MOVING)


def _move(planned: MonthPlan, move: Move) -> Event:
    evening = next(each.evening for each in planned.dinners if each.evening.on == move.evening)
    name = f"{_thaw_name(_days_before(move))}-{move.evening.isoformat()}"
    event = _event(planned, name, evening.times, evening.at)
    words = f"Move to the refrigerator: {codes_of(planned, move.containers)} {move.title}"
    event.add("SUMMARY", words)
    where = f"{move.where}. " if move.where else ""
    told = f"For {day(move.evening)}. {where}Then enter it: batchcook freezer thaw"
    event.add("DESCRIPTION", told)
    _at(event, move.on, _MOVING, minutes=15)
    event.add_component(_alarm(words, dt.timedelta(0)))
    return event


def _cancelled(planned: MonthPlan, kind: str, evening: Evening, at: dt.time) -> Event:
    event = _event(planned, f"{kind}-{evening.on.isoformat()}", evening.times, evening.at)
    event.add("SUMMARY", "No freezer night" if kind == "dinner" else "Nothing to thaw")
    event.add("STATUS", "CANCELLED")
    _at(event, evening.on, at, minutes=15)
    return event


def _use_by(planned: MonthPlan) -> Iterator[Event]:
    """One event for each dish and use-by date; cancelled where all of it is eaten."""
    there: dict[tuple[dt.date, str], list[Stored]] = {}
    for each in planned.use_by:
        there.setdefault((next_date(each), each.dish), []).append(each)
    for (on, dish), containers in sorted(there.items()):
        event = _event(planned, f"use-by-{on.isoformat()}-{dish}", 0, _stamp(planned))
        thawed = containers[0].eat_by is not None
        cook = "Cook" if containers[0].raw else "Eat"
        word = f"{cook} by today, thawed" if thawed else "Use by today"
        words = f"{word}: {codes_of(planned, containers)} {containers[0].title}"
        event.add("SUMMARY", words)
        event.add(
            "DESCRIPTION",
            f"It is thawed: throw out what is left after {day(containers[0].last_day or on)}."
            if thawed
            else "A quality date: kept at 0 °F or below it stays safe.",
        )
        _at(event, on, _USE_BY, minutes=15)
        event.add_component(_alarm(words, dt.timedelta(0)))
        if not thawed:
            soon = words.replace("today", day(on))
            event.add_component(_alarm(soon, dt.timedelta(days=-_DAYS_BEFORE)))
        yield event
    planned_too = [each for dinner in planned.dinners for each in dinner.containers]
    for on, dish in sorted(_no_longer((*planned.gone, *planned_too), planned.first)):
        if (on, dish) not in there:
            event = _event(planned, f"use-by-{on.isoformat()}-{dish}", 0, _stamp(planned))
            event.add("SUMMARY", "Use by: eaten, or planned for an evening")
            event.add("STATUS", "CANCELLED")
            _at(event, on, _USE_BY, minutes=15)
            yield event


def _no_longer(containers: Iterable[Stored], first: dt.date) -> set[tuple[dt.date, str]]:
    return {
        (each.use_by, each.dish)
        for each in containers
        if (each.use_by.year, each.use_by.month) == (first.year, first.month)
    }


def _event(planned: MonthPlan, name: str, times: int, at: str) -> Event:
    event = Event()
    event.add("UID", f"{name}-{planned.household}@batchcook.invalid")
    stamp = dt.datetime.fromisoformat(at).astimezone(dt.UTC)
    event.add("DTSTAMP", stamp)
    event.add("LAST-MODIFIED", stamp)
    # What has no count of its own grows with the time of planning, in minutes since 2020.
    event.add("SEQUENCE", times or int((stamp - _SINCE).total_seconds() // 60))
    event.add("TRANSP", "TRANSPARENT")
    return event


_SINCE: Final = dt.datetime(2020, 1, 1, tzinfo=dt.UTC)


def _stamp(planned: MonthPlan) -> str:
    return planned.now.astimezone(dt.UTC).isoformat(timespec="seconds")


def _at(event: Event, on: dt.date, at: dt.time, *, minutes: int) -> None:
    start = dt.datetime.combine(on, at)
    event.add("DTSTART", start)
    event.add("DTEND", start + dt.timedelta(minutes=minutes))


def _alarm(words: str, before: dt.timedelta) -> Alarm:
    alarm = Alarm()
    alarm.add("ACTION", "DISPLAY")
    alarm.add("DESCRIPTION", words)
    alarm.add("TRIGGER", before)
    return alarm
