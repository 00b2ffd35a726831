from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from batchcook.cli.recipes import app
from batchcook.complaints import InputFault

RUNNER = CliRunner()


def test_list_shows_every_starter_recipe() -> None:
    told = RUNNER.invoke(app, ["list", "--json"])
    assert told.exit_code == 0
    rows = json.loads(told.stdout)
    assert len(rows) == 12
    assert rows[0]["id"] == "beef-barley-stew"


def test_list_draws_a_table() -> None:
    told = RUNNER.invoke(app, ["list"], env={"COLUMNS": "160"})
    assert told.exit_code == 0
    assert "cottage-pie" in told.stdout
    assert "Cottage pie" in told.stdout


def test_list_says_what_it_is_on_a_narrow_terminal_too() -> None:
    told = RUNNER.invoke(app, ["list"], env={"COLUMNS": "48"})
    assert "Cottage pie" in told.stdout


def test_list_includes_a_folder_of_ones_own(tmp_path: Path) -> None:
    told = RUNNER.invoke(app, ["list", "--json", "--recipes", str(tmp_path / "none")])
    assert isinstance(told.exception, InputFault)


def test_show_prints_a_recipe_for_several_batches() -> None:
    told = RUNNER.invoke(app, ["show", "beef-barley-stew", "--batches", "2"])
    assert told.exit_code == 0
    for part in ("Beef and barley stew", "4 lb", "8 quart tubs", "On the night", "green peas"):
        assert part in told.stdout


def test_show_in_metric_has_no_pounds() -> None:
    told = RUNNER.invoke(app, ["show", "cottage-pie", "--metric"])
    assert told.exit_code == 0
    assert " lb" not in told.stdout


def test_show_of_an_unknown_recipe_suggests_the_nearest() -> None:
    told = RUNNER.invoke(app, ["show", "cotage-pie"])
    assert isinstance(told.exception, InputFault)
    assert told.exception.complaints[0].suggestion == "cottage-pie"


@pytest.mark.parametrize("batches", ["0", "-1", "13", "two"])
def test_show_for_a_senseless_number_of_batches_is_wrong_usage(batches: str) -> None:
    assert RUNNER.invoke(app, ["show", "cottage-pie", "--batches", batches]).exit_code == 2


def test_check_of_the_starter_recipes_finds_nothing() -> None:
    told = RUNNER.invoke(app, ["check"])
    assert told.exit_code == 0
    first, *notes = told.stdout.splitlines()
    assert first == "12 recipes checked, nothing wrong."
    assert notes[0].startswith("Note: salt, onion: frozen, it weakens")


def test_check_tells_every_fault_of_every_file(tmp_path: Path) -> None:
    for name in ("a.toml", "b.toml"):
        (tmp_path / name).write_text('title = "A"\n', encoding="utf-8")
    told = RUNNER.invoke(app, ["check", str(tmp_path)])
    assert isinstance(told.exception, InputFault)
    assert {"a.toml", "b.toml"} == {
        Path(each.where.split(",")[0]).name for each in told.exception.complaints
    }


def test_check_as_json_lists_complaints_by_their_parts_and_ends_in_1(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    path.write_text("title = 3\n", encoding="utf-8")
    told = RUNNER.invoke(app, ["check", str(path), "--json"])
    assert told.exit_code == 1
    report = json.loads(told.stdout)
    assert report["files"] == [str(path)]
    assert set(report["complaints"][0]) == {"where", "what", "expected", "suggestion"}


def test_check_as_json_of_sound_files_ends_in_0() -> None:
    told = RUNNER.invoke(app, ["check", "--json"])
    assert told.exit_code == 0
    assert json.loads(told.stdout)["complaints"] == []
