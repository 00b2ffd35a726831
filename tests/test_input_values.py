"""Odd numbers, dates and names, wherever they are typed."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from batchcook.buying.pantry import parse_have
from batchcook.cli.freezer_words import day_of
from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.day.prepday import load_prep_day, parse_date
from batchcook.freezer.monthrequest import read_month
from batchcook.quantities import parse_amount, parse_temperature
from batchcook.wholenumbers import whole_number

MANY = "9" * 5000


@pytest.mark.parametrize("text", ["1/000 cup", "1 1/0000 cup", f"{MANY} cup", f"1/{MANY} cup"])
def test_an_amount_that_no_number_is_in_is_complained_about(text: str) -> None:
    with pytest.raises(InputFault, match="is no amount"):
        parse_amount(text, where="here")


def test_a_temperature_beyond_all_figures_is_none() -> None:
    with pytest.raises(InputFault, match="is no temperature"):
        parse_temperature(f"{MANY} degF", where="here")


@pytest.mark.parametrize(
    ("text", "number"),
    [("3", 3), (" 12 ", 12), ("\u00b2", None), ("\u2461", None), ("-1", None), (MANY, None)],
)
def test_whole_numbers_are_plain_figures(text: str, number: int | None) -> None:
    assert whole_number(text) == number


def test_a_raised_figure_is_no_number_of_tubs() -> None:
    with pytest.raises(InputFault):
        parse_have(["quart tub \u00b2"])


@pytest.mark.parametrize("text", ["9999-12-31", "0001-01-01", "2027-13-01"])
def test_a_date_at_the_end_of_the_calendar_is_no_date(text: str, tmp_path: Path) -> None:
    with pytest.raises(InputFault, match="is no date"):
        parse_date(text, "--date")
    with pytest.raises(InputFault, match="is no date"):
        day_of(text)
    with pytest.raises(InputFault, match="is no month"):
        read_month(text[:7])
    order = tmp_path / "prep-day.toml"
    order.write_text(f'[day]\ndate = {text}\n[dishes]\n"cottage-pie" = 1\n', "utf-8")
    with pytest.raises(InputFault):
        load_prep_day(order)


def test_a_date_in_our_time_is_one() -> None:
    assert parse_date("2027-01-16", "--date") == dt.date(2027, 1, 16)


def test_the_nearest_name_is_found_whatever_its_letters() -> None:
    assert nearest("MARA", ["Mara", "Tom"]) == "Mara"
    assert nearest("burnr", ["BURNER", "oven"]) == "BURNER"
    assert nearest("zzz", ["BURNER"]) == ""


def test_what_was_given_is_not_told_in_full_where_it_has_no_end() -> None:
    told = str(Complaint("soup.toml", f"unknown food {'x' * 10_000!r}", "a food", "flax"))
    assert len(told) < 1100
    assert told.endswith("'; expected a food. Did you mean 'flax'?")
