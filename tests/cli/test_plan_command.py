"""``batchcook plan``: the folder it writes and what it says."""

from __future__ import annotations

import csv
import json
import re
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from batchcook.cli.main import app

RUNNER = CliRunner()
KIT = "lemon-herb-chicken-kit"
WIDE = {"COLUMNS": "120", "NO_COLOR": "1"}
WHEN = ("--date", "2027-01-16", "--start", "09:15")


def _plan(*words: str, answers: str = "") -> Result:
    return RUNNER.invoke(app, ["plan", *words], input=answers, env=WIDE)


def _written(folder: Path) -> dict[str, object]:
    found: dict[str, object] = json.loads((folder / "plan.json").read_text("utf-8"))
    return found


@pytest.fixture(scope="module")
def kit(tmp_path_factory: pytest.TempPathFactory) -> tuple[Result, Path]:
    folder = tmp_path_factory.mktemp("day") / "out"
    return _plan(f"{KIT}=2", *WHEN, "--out", str(folder)), folder


def test_it_writes_the_plan_and_every_paper(kit: tuple[Result, Path]) -> None:
    told, folder = kit
    assert told.exit_code == 0, told.output
    assert {path.name for path in folder.iterdir()} >= {
        "plan.json",
        "run-sheet.html",
        "run-sheet.pdf",
        "labels.pdf",
        "shopping-list.pdf",
        "shopping-list.csv",
    }
    for pdf in folder.glob("*.pdf"):
        assert pdf.read_bytes().startswith(b"%PDF")


def test_the_plan_is_of_the_day_that_was_ordered(kit: tuple[Result, Path]) -> None:
    plan = _written(kit[1])
    assert plan["format"] == "batchcook-plan/1"
    assert plan["date"] == "2027-01-16"
    assert plan["start"] == "2027-01-16T09:15"


def test_the_summary_tells_times_hands_and_how_sure_it_is(kit: tuple[Result, Path]) -> None:
    text = kit[0].output
    assert "09:15 to" in text
    assert "First cook" in text
    assert "Second cook" in text
    assert "proved" in text
    assert "one dish after another" in text


def test_no_scheduling_words_reach_the_screen_or_the_page(kit: tuple[Result, Path]) -> None:
    page = (kit[1] / "run-sheet.html").read_text("utf-8")
    shown = kit[0].output + re.sub(r"<style.*?</style>|<[^>]+>", " ", page, flags=re.DOTALL)
    for word in ("makespan", "time lag", "renewable", "occupancy"):
        assert word not in shown.lower()


def test_the_shopping_list_is_also_for_a_spreadsheet(kit: tuple[Result, Path]) -> None:
    with (kit[1] / "shopping-list.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file))
    assert len({len(row) for row in rows}) == 1
    assert any("chicken thigh" in cell for row in rows for cell in row)


def test_other_files_in_the_folder_stay(tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("mine", "utf-8")
    assert _plan(KIT, "--out", str(tmp_path)).exit_code == 0
    assert (tmp_path / "notes.txt").read_text("utf-8") == "mine"
    assert (tmp_path / "plan.json").exists()


def test_a_prep_day_file_is_planned_and_options_go_before_it(tmp_path: Path) -> None:
    file = tmp_path / "day.toml"
    file.write_text(f'[day]\ndate = 2027-01-16\nstart = "08:00"\n[dishes]\n{KIT} = 1\n', "utf-8")
    told = _plan(str(file), "--start", "10:00", "--metric", "--out", str(tmp_path / "out"))
    assert told.exit_code == 0, told.output
    plan = _written(tmp_path / "out")
    assert plan["start"] == "2027-01-16T10:00"
    assert plan["system"] == "metric"


def test_a_file_without_times_begins_at_eight(tmp_path: Path) -> None:
    file = tmp_path / "day.toml"
    file.write_text(f"[day]\ndate = 2027-01-16\n[dishes]\n{KIT} = 1\n", "utf-8")
    assert _plan(str(file), "--out", str(tmp_path / "out")).exit_code == 0
    assert _written(tmp_path / "out")["start"] == "2027-01-16T08:00"


def test_a_kitchen_and_recipes_of_ones_own_are_used(tmp_path: Path) -> None:
    text = RUNNER.invoke(app, ["kitchen", "template"]).stdout.replace("First cook", "Mara")
    (tmp_path / "ours.toml").write_text(text, "utf-8")
    recipes = tmp_path / "recipes"
    recipes.mkdir()
    starter = Path(__file__).parent.parent.parent / "recipes" / f"{KIT}.toml"
    (recipes / "our-kit.toml").write_text(starter.read_text("utf-8"), "utf-8")
    words = ("our-kit", "--kitchen", str(tmp_path / "ours.toml"), "--recipes", str(recipes))
    told = _plan(*words, "--out", str(tmp_path / "out"))
    assert told.exit_code == 0, told.output
    assert "Mara" in told.output
    assert "our-kit" in (tmp_path / "out" / "plan.json").read_text("utf-8")


def test_without_dishes_it_asks_and_asks_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from batchcook.cli.dayorder import Options, ask_order  # noqa: PLC0415 - loads pint

    answers = iter(["99 x", "6", 2, "16.1.2027", "2027-01-16", "8", "08:30"])
    monkeypatch.setattr("typer.prompt", lambda *_, **__: next(answers))
    monkeypatch.setattr("typer.confirm", lambda words, **_: "Second" not in words)
    day = ask_order(Options("", "", "", None, metric=True), [])
    assert day.orders == {KIT: 2}
    assert day.date.isoformat() == "2027-01-16"
    assert f"{day.start:%H:%M}" == "08:30"
    assert [cook.name for cook in day.kitchen.cooks] == ["First cook"]
    assert day.system == "metric"
    assert not list(tmp_path.iterdir())


def test_help_has_an_example_of_each_command() -> None:
    for name in (["plan"], ["kitchen", "show"], ["kitchen", "check"], ["recipes", "show"]):
        told = RUNNER.invoke(app, [*name, "--help"], env=WIDE)
        assert told.exit_code == 0
        assert f"batchcook {' '.join(name)}" in told.output


def test_a_metric_day_is_refused_in_metric_words(tmp_path: Path) -> None:
    kitchen = tmp_path / "ours.toml"
    text = RUNNER.invoke(app, ["kitchen", "template"]).stdout
    kitchen.write_text(text.replace('free = "6 cubic_foot"', 'free = "10 liter"'), "utf-8")
    words = ("cottage-pie=2", *WHEN, "--kitchen", str(kitchen), "--out", str(tmp_path / "out"))
    assert "0.4 cubic feet are free" in str(_plan(*words).exception)
    assert "10 litres are free" in str(_plan(*words, "--metric").exception)
