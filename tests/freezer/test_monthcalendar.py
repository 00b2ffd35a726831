"""The calendar file by the icalendar package, by a reader of our own, and by re-importing it."""

from __future__ import annotations

import datetime as dt
import re
from pathlib import Path
from typing import Any

import pytest
from freezer_process import soup
from icalendar import Calendar

from batchcook.freezer.changes import Moment, add, take
from batchcook.freezer.monthcalendar import month_calendar
from batchcook.freezer.monthplan import plan_month
from batchcook.freezer.monthrequest import MonthRequest
from batchcook.freezer.thawing import thaw

TODAY = dt.date(2026, 1, 30)
NOW = dt.datetime(2026, 1, 30, 12, tzinfo=dt.UTC)
MOMENT = Moment(NOW, TODAY)
FIRST = dt.date(2026, 2, 1)

Read = dict[str, dict[str, str]]


@pytest.fixture
def place(tmp_path: Path) -> Path:
    file = tmp_path / "freezer.sqlite"
    for title, main, packed_on, count in (
        ("Beef stew", "beef", dt.date(2025, 12, 10), 3),
        ("Käsespätzle, überbacken; mit Zwiebeln und einem sehr langen Namen", "cheese", TODAY, 3),
        ("Old soup", "beans", dt.date(2025, 11, 14), 5),
    ):
        add(file, soup(title, packed_on, main=main), count, MOMENT)
    return file


def exported(place: Path, now: dt.datetime = NOW, **asked: object) -> bytes:
    without = asked.get("without", frozenset())
    assert isinstance(without, frozenset)
    request = MonthRequest(FIRST, weekdays=(1, 3), without=without)
    return month_calendar(plan_month(place, request, TODAY, now=now))


def by_uid(content: bytes) -> Read:
    """A reader that knows only RFC 5545: section 3.1 for lines, 3.6 for components."""
    assert content.endswith(b"\r\n")
    lines = content.split(b"\r\n")[:-1]
    assert all(len(line) <= 75 for line in lines)
    assert not any(b"\r" in line or b"\n" in line for line in lines)
    unfolded = re.sub(r"\r\n[ \t]", "", content.decode()).split("\r\n")[:-1]
    assert unfolded[0] == "BEGIN:VCALENDAR"
    assert unfolded[-1] == "END:VCALENDAR"
    open_components: list[str] = []
    events: Read = {}
    event: dict[str, str] = {}
    for line in unfolded:
        name, _, value = line.partition(":")
        name = name.partition(";")[0]
        assert re.fullmatch(r"[A-Z-]+", name), line
        if name == "BEGIN":
            open_components.append(value)
            event = {} if value == "VEVENT" else event
        elif name == "END":
            assert open_components.pop() == value
            if value == "VEVENT":
                assert {"UID", "DTSTAMP", "DTSTART"} <= event.keys()
                assert event["UID"] not in events
                events[event["UID"]] = event
        elif open_components[-1] == "VALARM":
            event[f"ALARM-{name}-{len(event)}"] = value
        else:
            assert name not in event, f"{name} twice"
            event[name] = value
    assert not open_components
    return events


def newest(*imports: Read) -> Read:
    """What a phone holds after importing files one after another (RFC 5546, section 2.1.5)."""
    held: Read = {}
    for read in imports:
        for uid, event in read.items():
            before = held.get(uid)
            if before is None or int(event["SEQUENCE"]) >= int(before["SEQUENCE"]):
                held[uid] = event
    return {uid: event for uid, event in held.items() if event.get("STATUS") != "CANCELLED"}


def test_icalendar_reads_it_back_without_a_fault(place: Path) -> None:
    calendar = Calendar.from_ical(exported(place))
    assert calendar["VERSION"] == "2.0"
    assert calendar["PRODID"]
    assert not calendar.errors
    events = calendar.walk("VEVENT")
    assert not any(event.errors for event in events)
    dinners = [event for event in events if "Freezer night" in str(event["SUMMARY"])]
    start = dinners[0].decoded("DTSTART")
    assert start == dt.datetime(2026, 2, 3, 18)  # noqa: DTZ001 - a time without a zone
    assert all(event.walk("VALARM") for event in dinners)
    assert any("Käsespätzle, überbacken; mit" in str(event["SUMMARY"]) for event in dinners)


def test_a_second_reader_finds_the_same_events(place: Path) -> None:
    content = exported(place)
    ours = by_uid(content)
    theirs = {str(event["UID"]) for event in Calendar.from_ical(content).walk("VEVENT")}
    assert set(ours) == theirs


def test_each_night_has_its_thaw_reminder_with_an_alarm_the_evening_before(place: Path) -> None:
    events = by_uid(exported(place))
    nights = {uid: event for uid, event in events.items() if uid.startswith("dinner-")}
    assert nights
    for uid, night in nights.items():
        thaw_event = events[uid.replace("dinner-", "thaw-1-")]
        day = dt.date.fromisoformat(uid[len("dinner-") :][:10])
        assert night["DTSTART"] == f"{day:%Y%m%d}T180000"
        assert thaw_event["DTSTART"] == f"{day - dt.timedelta(days=1):%Y%m%d}T170000"
        assert "DISPLAY" in thaw_event.values()


def test_use_by_alarms_come_three_days_before_and_on_the_day(place: Path) -> None:
    events = by_uid(exported(place))
    (use_by,) = [event for uid, event in events.items() if uid.startswith("use-by-2026-02-14")]
    assert use_by["DTSTART"] == "20260214T090000"
    triggers = {value for name, value in use_by.items() if name.startswith("ALARM-TRIGGER")}
    assert triggers == {"P0D", "-P3D"}
    assert "stays safe" in use_by["DESCRIPTION"]


def test_the_same_month_exported_again_is_the_same_but_for_its_stamps(place: Path) -> None:
    later = NOW + dt.timedelta(hours=1)
    assert set(by_uid(exported(place))) == set(by_uid(exported(place, later)))


def test_importing_again_updates_and_never_doubles(place: Path) -> None:
    before = by_uid(exported(place))
    later = NOW + dt.timedelta(hours=1)
    changed = by_uid(exported(place, later, without=frozenset({dt.date(2026, 2, 5)})))
    held = newest(before, changed)
    nights = sorted(uid[len("dinner-") :][:10] for uid in held if uid.startswith("dinner-"))
    assert "2026-02-05" not in nights
    assert len(nights) == len(set(nights))
    assert any(uid.startswith("thaw-1-2026-02-05") for uid in newest(before))
    assert not any(uid.startswith("thaw-1-2026-02-05") for uid in held)
    for uid, event in changed.items():
        if event.get("STATUS") != "CANCELLED":
            assert held[uid] == event


def moves(held: Read) -> list[str]:
    return sorted(uid[: len("thaw-1-2026-02-05")] for uid in held if uid.startswith("thaw-"))


def test_each_day_of_moving_has_its_own_event_and_loses_it_when_the_plan_shrinks(
    tmp_path: Path,
) -> None:
    file = tmp_path / "freezer.sqlite"
    for days in (1, 2, 3):
        add(file, soup("Stew", TODAY, main="beef") | {"thaw_days": days}, 1, MOMENT)
    evening, later = dt.date(2026, 2, 5), dt.date(2026, 2, 12)

    def plan(hours: int, today: dt.date = TODAY, **asked: Any) -> Read:  # noqa: ANN401 - a request's own fields
        request = MonthRequest(FIRST, weekdays=(), **asked)
        now = NOW + dt.timedelta(hours=hours)
        return by_uid(month_calendar(plan_month(file, request, today, now=now)))

    # by_uid refuses the same UID twice.
    three = plan(0, fix={evening: ("Z1", "Z2", "Z3")})
    assert moves(newest(three)) == [f"thaw-{days}-2026-02-05" for days in (1, 2, 3)]
    assert moves(newest(three, plan(1, today=dt.date(2026, 2, 3)))) == moves(newest(three))
    # One that was moved early takes no other's place.
    thaw(file, ["Z3"], Moment(NOW + dt.timedelta(days=3), TODAY))
    assert "thaw-2-2026-02-05" in moves(newest(three, plan(2)))
    two = plan(3, fix={evening: ("Z1",), later: ("Z2",)})
    held = newest(three, two)
    assert moves(held) == ["thaw-1-2026-02-05", "thaw-2-2026-02-12"]
    none = plan(4, without=frozenset({evening}))
    assert moves(newest(three, two, none)) == ["thaw-2-2026-02-12"]


def test_what_was_eaten_loses_its_use_by_alarm(place: Path) -> None:
    request = MonthRequest(FIRST, weekdays=())
    before = by_uid(month_calendar(plan_month(place, request, TODAY, now=NOW)))
    assert any(uid.startswith("use-by-2026-02-14-old-soup") for uid in newest(before))
    take(place, ["Z7", "Z8", "Z9", "Z10", "Z11"], MOMENT)
    later = NOW + dt.timedelta(hours=1)
    after = by_uid(month_calendar(plan_month(place, request, TODAY, now=later)))
    assert not any(uid.startswith("use-by-2026-02-14-old-soup") for uid in newest(before, after))


def test_what_thaws_says_throw_out_past_its_day(place: Path) -> None:
    thaw(place, ["Z7"], MOMENT)
    request = MonthRequest(FIRST, weekdays=())
    events = by_uid(month_calendar(plan_month(place, request, TODAY, now=NOW)))
    (eat_by,) = [event for uid, event in events.items() if uid.startswith("use-by-2026-02-03")]
    assert "throw out" in eat_by["DESCRIPTION"]


def test_two_households_never_share_a_uid(place: Path, tmp_path: Path) -> None:
    other = tmp_path / "other.sqlite"
    add(other, soup("Beef stew", TODAY, main="beef"), 3, MOMENT)
    assert not set(by_uid(exported(place))) & set(by_uid(exported(other)))
