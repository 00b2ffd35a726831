"""``batchcook suggest``: what it prints, for people and for scripts."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from batchcook.cli.main import app
from batchcook.complaints import InputFault
from batchcook.day.prepday import parse_orders

RUNNER = CliRunner()
WIDE = {"COLUMNS": "160", "NO_COLOR": "1"}
WHEN = ("--date", "2027-01-16", "--until", "2027-02-10")


def _suggest(store: Path, *words: str) -> Result:
    asked = ["suggest", "--store", str(store / "freezer.sqlite"), "--seconds", "5", *words]
    return RUNNER.invoke(app, asked, env=WIDE)


@pytest.fixture(scope="module")
def data(tmp_path_factory: pytest.TempPathFactory) -> dict[str, object]:
    told = _suggest(tmp_path_factory.mktemp("store"), "--nights", "2", *WHEN, "--json")
    assert told.exit_code == 0, told.output
    found: dict[str, object] = json.loads(told.stdout)
    return found


def test_the_command_to_go_on_with_orders_the_suggested_dishes(data: dict[str, object]) -> None:
    command, day = data["command"], data["day"]
    assert isinstance(command, list)
    assert isinstance(day, dict)
    assert command[:2] == ["batchcook", "plan"]
    orders = command[2 : command.index("--date")]
    assert parse_orders(orders, "dishes") == day["orders"]
    assert command[-4:] == ["--date", "2027-01-16", "--start", "08:00"]


def test_the_data_names_every_night_with_where_its_dinner_comes_from(
    data: dict[str, object],
) -> None:
    nights = data["nights"]
    assert isinstance(nights, list)
    assert [night["from"] for night in nights] == ["prep day", "prep day"]
    assert data["uncovered"] == []


def test_nothing_is_written(tmp_path: Path) -> None:
    _suggest(tmp_path, "--nights", "1", *WHEN, "--longest", "1h")
    assert list(tmp_path.iterdir()) == []


def test_a_night_left_open_is_told_with_an_exit_code_of_its_own(tmp_path: Path) -> None:
    told = _suggest(tmp_path, "--nights", "6", *WHEN, "--longest", "1h")
    assert told.exit_code == 4, told.output
    words = " ".join(told.output.replace("│", " ").split())
    assert "open: no batch more of any" in words
    assert "a batch more of each: Lemon and herb chicken kit: a day of 1 h" in words
    assert "Go on with: batchcook plan lemon-herb-chicken-kit" in told.output


def test_a_day_too_short_for_anything_says_what_to_do(tmp_path: Path) -> None:
    told = _suggest(tmp_path, "--nights", "2", *WHEN, "--longest", "30min")
    assert told.exit_code == 4, told.output
    assert "Left out: Cottage pie: takes" in told.output
    assert "Go on with" not in told.output


def test_bad_options_are_refused(tmp_path: Path) -> None:
    told = _suggest(tmp_path, "--nights", "2", *WHEN, "--longest", "soon")
    assert isinstance(told.exception, InputFault)
    assert "--longest" in str(told.exception)
