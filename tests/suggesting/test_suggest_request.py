"""What is asked, as words become numbers and dates."""

from __future__ import annotations

import datetime as dt

import pytest
from suggest_cases import DAY, request

from batchcook.complaints import InputFault
from batchcook.suggesting.request import night_dates, read_how_many, read_length


@pytest.mark.parametrize(
    ("text", "minutes"),
    [("6h", 360), ("5h30", 330), ("5 h 30 min", 330), ("5.5h", 330), ("90min", 90), ("90m", 90)],
)
def test_a_length_is_read_as_cooks_write_it(text: str, minutes: int) -> None:
    assert read_length(text) == minutes


@pytest.mark.parametrize("text", ["", "6", "long", "6h30h", "-2h", "10min", "40h"])
def test_a_length_that_is_none_is_refused(text: str) -> None:
    with pytest.raises(InputFault, match="--longest"):
        read_length(text)


def test_nights_are_a_number_or_weekdays() -> None:
    assert read_how_many("8") == 8
    assert read_how_many("thu,tue") == (1, 3)


@pytest.mark.parametrize("text", ["0", "99", "someday", ""])
def test_nights_that_are_neither_are_refused(text: str) -> None:
    with pytest.raises(InputFault, match="--nights"):
        read_how_many(text)


def test_nights_lie_evenly_after_the_prep_day_and_the_last_is_the_last_evening() -> None:
    dates = night_dates(request(4, days=20), ())
    assert [(date - DAY).days for date in dates] == [5, 10, 15, 20]


def test_evenings_that_are_planned_are_among_the_nights() -> None:
    planned = (DAY + dt.timedelta(days=3), DAY + dt.timedelta(days=30))
    dates = night_dates(request(4, days=20), planned)
    assert planned[0] in dates
    assert planned[1] not in dates
    assert len(set(dates)) == 4
    assert list(dates) == sorted(dates)


def test_as_many_nights_as_days_are_all_days() -> None:
    dates = night_dates(request(6, days=6), ())
    assert [(date - DAY).days for date in dates] == [1, 2, 3, 4, 5, 6]


def test_more_nights_than_evenings_are_refused_with_how_many_there_are() -> None:
    with pytest.raises(InputFault, match="at most 6"):
        night_dates(request(7, days=6), ())


def test_an_end_before_the_prep_day_is_refused() -> None:
    with pytest.raises(InputFault, match="later --until"):
        night_dates(request(2, days=-3), ())


def test_weekdays_name_every_such_evening() -> None:
    dates = night_dates(request((1, 3), days=14), ())
    assert {date.weekday() for date in dates} == {1, 3}
    assert len(dates) == 4
