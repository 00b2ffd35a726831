from __future__ import annotations

import datetime as dt

import pytest

from batchcook.day.packeddate import packed_date_fault

TODAY = dt.date(2027, 1, 16)


@pytest.mark.parametrize("days", [0, 1, 30, 366])
def test_today_and_the_year_before_are_in_order(days: int) -> None:
    assert packed_date_fault(TODAY - dt.timedelta(days=days), TODAY, "label") is None


def test_tomorrow_is_yet_to_come() -> None:
    fault = packed_date_fault(dt.date(2027, 1, 17), TODAY, "label")
    assert fault is not None
    assert "yet to come" in fault.what
    assert fault.expected == "Sat 16 Jan 2027 or before"


def test_a_planned_day_may_lie_ahead_within_the_year() -> None:
    assert packed_date_fault(dt.date(2027, 6, 1), TODAY, "day", ahead=True) is None
    fault = packed_date_fault(dt.date(2028, 6, 1), TODAY, "day", ahead=True)
    assert fault is not None
    assert "ahead" in fault.what


def test_the_far_past_is_told_but_old_food_is_not_called_unsafe() -> None:
    fault = packed_date_fault(dt.date(2025, 1, 16), TODAY, "label")
    assert fault is not None
    assert "more than a year ago" in fault.what
    assert "throw" not in str(fault)


def test_a_prep_day_that_is_past_is_said_to_be_past() -> None:
    fault = packed_date_fault(dt.date(2020, 1, 1), TODAY, "the prep day", ahead=True)
    assert str(fault).startswith("the prep day: Wed 1 Jan 2020 is past; expected Sat 16 Jan 2027")
