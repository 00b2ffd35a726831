"""Dates, times and temperatures as they stand on paper."""

from __future__ import annotations

from datetime import date, datetime

import pytest

from batchcook.plan import WhatIf
from batchcook.wording import (
    bound,
    change_words,
    clock,
    day,
    day_of_month,
    degrees,
    hours,
    with_time,
)


def test_a_date_has_its_weekday_and_no_leading_zero() -> None:
    assert day(date(2027, 1, 16)) == "Sat 16 Jan 2027"
    assert day(date(2028, 2, 29)) == "Tue 29 Feb 2028"
    assert day(date(2027, 5, 2)) == "Sun 2 May 2027"


def test_where_the_year_is_known_a_date_goes_without_it() -> None:
    assert day_of_month(date(2027, 5, 2)) == "Sun\u00a02\u00a0May"


def test_a_time_has_both_its_zeros() -> None:
    assert clock(datetime(2027, 1, 16, 8, 5)) == "08:05"  # noqa: DTZ001 - local wall clock


@pytest.mark.parametrize(
    ("minutes", "said"), [(0, "0 min"), (59, "59 min"), (60, "1 h 00 min"), (425, "7 h 05 min")]
)
def test_minutes_are_said_in_hours_from_the_first_whole_one(minutes: int, said: str) -> None:
    assert hours(minutes).replace("\u00a0", " ") == said


def test_a_number_stays_with_its_unit_and_degrees_with_theirs() -> None:
    assert bound("1 1/2 tsp black pepper") == "1\u00a01/2\u00a0tsp black pepper"
    assert degrees("until 165 degF inside") == "until 165\u00a0°F inside"


@pytest.mark.parametrize(
    ("minutes", "proved", "said"),
    [
        (None, True, "the day could not be done"),
        (None, False, "no plan was found in the time"),
        (0, True, "no change"),
        (0, False, "no change found"),
        (-5, True, "5 min shorter"),
        (-5, False, "at least 5 min shorter"),
        (95, False, "at most 1 h 35 min longer"),
    ],
)
def test_a_changed_kitchen_is_told_as_it_is_known(
    minutes: int | None, proved: bool, said: str
) -> None:
    change = WhatIf(change="one more burner", minutes=minutes, proved=proved)
    assert change_words(change).replace("\u00a0", " ") == said


def test_a_text_is_parted_at_its_time() -> None:
    told = "Pork: on the heat by 10:17, or throw it out"
    assert with_time(told) == ("Pork: on the heat by", "10:17,", "or throw it out")
    assert with_time("Pork: at once") == ("Pork: at once", "", "")
