from __future__ import annotations

import datetime as dt
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from batchcook.complaints import InputFault
from batchcook.freezer.familycalendar import FamilyEvenings, read_family_evenings, read_zone

FIRST, LAST = dt.date(2026, 2, 1), dt.date(2026, 2, 28)


def evenings(tmp_path: Path, *events: str, zone: str = "America/Chicago") -> FamilyEvenings:
    file = tmp_path / "family.ics"
    body = "".join(
        f"BEGIN:VEVENT\nUID:{number}@home\nDTSTAMP:20260101T000000Z\n{event}\nEND:VEVENT\n"
        for number, event in enumerate(events)
    )
    text = f"BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:-//home//EN\n{body}END:VCALENDAR\n"
    file.write_text(text.replace("\n", "\r\n"), "utf-8")
    return read_family_evenings([file], FIRST, LAST, zone=ZoneInfo(zone))


def days(*numbers: int) -> list[dt.date]:
    return [dt.date(2026, 2, number) for number in numbers]


CHOIR = "SUMMARY:Choir\nDTSTART:20260204T180000\nDTEND:20260204T193000"


def test_an_event_in_the_evening_makes_a_crunch(tmp_path: Path) -> None:
    found = evenings(tmp_path, CHOIR)
    assert found.crunch == {dt.date(2026, 2, 4): ("Choir",)}
    assert found.away == {}


@pytest.mark.parametrize(
    "times",
    [
        "DTSTART:20260204T150000\nDTEND:20260204T170000",
        "DTSTART:20260204T200000\nDTEND:20260204T220000",
        "DTSTART;VALUE=DATE:20260204\nDTEND;VALUE=DATE:20260205",
    ],
)
def test_what_is_over_by_five_or_begins_at_eight_or_lasts_all_day_is_no_crunch(
    tmp_path: Path, times: str
) -> None:
    assert evenings(tmp_path, f"SUMMARY:Dentist\n{times}").crunch == {}


def test_a_weekly_event_recurs_with_its_exceptions(tmp_path: Path) -> None:
    found = evenings(tmp_path, f"{CHOIR}\nRRULE:FREQ=WEEKLY\nEXDATE:20260211T180000")
    assert list(found.crunch) == days(4, 18, 25)


def test_one_recurrence_that_was_moved_counts_where_it_went(tmp_path: Path) -> None:
    file = tmp_path / "family.ics"
    series = f"UID:c@home\nDTSTAMP:20260101T000000Z\n{CHOIR}\nRRULE:FREQ=WEEKLY;COUNT=3"
    moved = (
        "UID:c@home\nDTSTAMP:20260101T000000Z\nRECURRENCE-ID:20260211T180000\n"
        "SUMMARY:Choir\nDTSTART:20260212T180000\nDTEND:20260212T193000"
    )
    events = "".join(f"BEGIN:VEVENT\n{each}\nEND:VEVENT\n" for each in (series, moved))
    file.write_text(f"BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:x\n{events}END:VCALENDAR\n", "utf-8")
    assert list(read_family_evenings([file], FIRST, LAST).crunch) == days(4, 12, 18)


def test_a_series_begun_years_ago_still_counts(tmp_path: Path) -> None:
    event = "SUMMARY:Training\nDTSTART:20190905T173000\nDTEND:20190905T190000"
    found = evenings(tmp_path, f"{event}\nRRULE:FREQ=WEEKLY;BYDAY=TH")
    assert list(found.crunch) == days(5, 12, 19, 26)


def test_times_of_another_zone_are_read_on_the_familys_clock(tmp_path: Path) -> None:
    utc = "SUMMARY:Call\nDTSTART:20260205T003000Z\nDTEND:20260205T013000Z"
    assert list(evenings(tmp_path, utc).crunch) == days(4)
    assert evenings(tmp_path, utc, zone="Europe/Berlin").crunch == {}


def test_a_trip_is_away_on_each_of_its_evenings_and_wins_over_a_crunch(tmp_path: Path) -> None:
    trip = "SUMMARY:Ski trip\nDTSTART;VALUE=DATE:20260203\nDTEND;VALUE=DATE:20260206"
    found = evenings(tmp_path, trip, CHOIR)
    assert list(found.away) == days(3, 4, 5)
    assert found.crunch == {}


def test_a_word_is_a_whole_word(tmp_path: Path) -> None:
    takeaway = CHOIR.replace("Choir", "Takeaway with Sam")
    assert evenings(tmp_path, takeaway).away == {}


@pytest.mark.parametrize("mark", ["STATUS:CANCELLED", "TRANSP:TRANSPARENT"])
def test_cancelled_events_and_free_time_say_nothing(tmp_path: Path, mark: str) -> None:
    assert evenings(tmp_path, f"{CHOIR}\n{mark}").crunch == {}


def test_a_file_that_is_no_calendar_is_told_with_the_others(tmp_path: Path) -> None:
    broken, missing = tmp_path / "broken.ics", tmp_path / "missing.ics"
    broken.write_text("dinner at six", "utf-8")
    with pytest.raises(InputFault) as raised:
        read_family_evenings([broken, missing], FIRST, LAST)
    assert [each.where for each in raised.value.complaints] == [str(broken), str(missing)]


def test_an_unknown_zone_is_a_fault() -> None:
    with pytest.raises(InputFault, match="is no zone"):
        read_zone("Mars/Olympus")


@pytest.mark.parametrize("content", [bytes(range(256)) * 40, b"\x89PNG\r\n\x1a\n" + b"\0" * 900])
def test_what_a_binary_file_holds_is_not_put_on_the_terminal(
    tmp_path: Path, content: bytes
) -> None:
    file = tmp_path / "photo.png"
    file.write_bytes(content)
    with pytest.raises(InputFault) as raised:
        read_family_evenings([file], FIRST, LAST)
    told = str(raised.value)
    assert told.isprintable()
    assert len(told) < len(str(file)) + 200


@pytest.mark.parametrize(
    "event",
    [
        "SUMMARY:Choir",
        "SUMMARY:Choir\nDTEND:20260204T193000",
        "SUMMARY:Choir\nDTSTART:2026xx",
        f"{CHOIR}\nRRULE:FREQ=SOMETIMES",
        f"{CHOIR}\nRRULE:FREQ=DAILY;INTERVAL=0",
        f"{CHOIR}\nRRULE:FREQ=DAILY;UNTIL=zz",
        f"{CHOIR}\nEXDATE:zz",
        f"{CHOIR}\nSEQUENCE:x",
        "SUMMARY:Choir\nDTSTART;VALUE=DATE:20260204\nDTEND:20260204T193000",
        "SUMMARY:Choir\nDTSTART:00010101T180000Z\nDTEND:99991231T235959Z",
    ],
)
def test_an_event_whose_times_cannot_be_read_is_told_with_its_file(
    tmp_path: Path, event: str
) -> None:
    with pytest.raises(InputFault, match="has an event whose times cannot be read") as fault:
        evenings(tmp_path, event)
    assert "family.ics" in str(fault.value)
