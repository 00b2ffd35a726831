"""The shop command, a day copied, and notes, as the cook types them."""

from __future__ import annotations

import csv
import datetime as dt
import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from batchcook.cli.main import app
from batchcook.complaints import InputFault
from batchcook.plan import Plan, read_plan, write_plan

RUNNER = CliRunner()
WIDE = {"COLUMNS": "160", "NO_COLOR": "1"}
SAMPLE = Path(__file__).parent.parent.parent / "output_samples" / "prep-day"


def told(*words: str) -> str:
    done = RUNNER.invoke(app, list(words), env=WIDE)
    if done.exception is not None and not isinstance(done.exception, SystemExit):
        raise done.exception
    assert done.exit_code == 0, done.output
    return done.stdout


def swapped(folder: Path) -> Path:
    """The sample day without kale and with more onions, in a folder of its own."""
    plan = read_plan(SAMPLE)
    lines = [
        line.model_copy(update={"grams": line.grams * 2}) if line.food == "onion" else line
        for line in plan.shopping
        if line.food != "kale"
    ]
    made = folder / "swapped"
    made.mkdir()
    new = plan.model_copy(update={"shopping": tuple(lines)})
    (made / "plan.json").write_text(write_plan(new), "utf-8")
    return made


def test_the_list_is_shown_by_day_with_packs_and_containers() -> None:
    said = told("shop", str(SAMPLE))
    for part in ("2 bags of 3 lb", "not before Thu 14 Jan", "quart tubs with lids", "any day"):
        assert part in said


def test_what_is_at_home_and_what_it_costs_come_from_files_and_options(tmp_path: Path) -> None:
    pantry, prices = tmp_path / "pantry.toml", tmp_path / "prices.toml"
    pantry.write_text('[have]\n"canola oil" = "3 cup"\n', "utf-8")
    prices.write_text('[prices."beef chuck"]\n"by the pound" = 8\n', "utf-8")
    files = ["--pantry", str(pantry), "--prices", str(prices)]
    said = told("shop", str(SAMPLE), *files, "--have", "onion 2 kg", "--have", "quart tub 4")
    assert "At home already: canola oil" in said
    assert "About $32.00" in said
    assert "4 1/2 lb" in said


def test_the_pantry_file_to_copy_is_in_order(tmp_path: Path) -> None:
    pantry = tmp_path / "pantry.toml"
    pantry.write_text(told("shop", "--template"), "utf-8")
    said = told("shop", str(SAMPLE), "--pantry", str(pantry))
    assert "About $" in said
    assert "At home already: canola oil" in said


def test_a_plan_has_to_be_named() -> None:
    assert RUNNER.invoke(app, ["shop"]).exit_code == 1


def test_a_script_gets_the_same_as_json() -> None:
    found = json.loads(told("shop", str(SAMPLE), "--json", "--have", "onion 9 kg"))
    beef = next(line for line in found["buy"] if line["food"] == "beef chuck")
    assert (beef["purchase"], beef["buy_from"]) == ("4 lb", "2027-01-11")
    assert [line["food"] for line in found["at_home"]] == ["onion"]
    assert sum(kind["count"] for kind in found["containers"]) == len(read_plan(SAMPLE).containers)


def test_the_list_is_written_as_values_or_as_paper(tmp_path: Path) -> None:
    values, paper = tmp_path / "list.csv", tmp_path / "list.pdf"
    told("shop", str(SAMPLE), "--have", "onion 9 kg", "--out", str(values))
    told("shop", str(SAMPLE), "--out", str(paper), "--paper", "a4")
    rows = {row["food"]: row for row in csv.DictReader(values.read_text("utf-8").splitlines())}
    assert rows["onion"]["buy"] == ""
    assert rows["ground beef"]["not before"] == "2027-01-14"
    assert paper.read_bytes().startswith(b"%PDF")


def test_another_ending_is_refused(tmp_path: Path) -> None:
    with pytest.raises(InputFault, match=r"\.pdf or \.csv"):
        told("shop", str(SAMPLE), "--out", str(tmp_path / "list.doc"))
    assert list(tmp_path.iterdir()) == []


def test_only_what_changed_is_shown(tmp_path: Path) -> None:
    new = str(swapped(tmp_path))
    said = told("shop", new, "--changed-from", str(SAMPLE))
    assert "leave out" in said
    assert "kale" in said
    assert "buy more" in said
    assert "carrot" not in said
    found = json.loads(told("shop", new, "--changed-from", str(SAMPLE), "--json"))
    assert {change["food"] for change in found} == {"kale", "onion"}


def test_a_plan_against_itself_changes_nothing() -> None:
    assert "Nothing changes" in told("shop", str(SAMPLE), "--changed-from", str(SAMPLE))


def test_changes_are_written_as_values_or_as_paper(tmp_path: Path) -> None:
    new = ["shop", str(swapped(tmp_path)), "--changed-from", str(SAMPLE), "--out"]
    values, paper = tmp_path / "changes.csv", tmp_path / "changes.pdf"
    told(*new, str(values))
    told(*new, str(paper))
    rows = list(csv.DictReader(values.read_text("utf-8").splitlines()))
    assert {(row["food"], row["what"]) for row in rows} == {
        ("kale", "leave out"),
        ("onion", "buy more"),
    }
    assert paper.read_bytes().startswith(b"%PDF")


def test_every_word_at_fault_is_told_with_the_nearest_name() -> None:
    with pytest.raises(InputFault) as caught:
        told("shop", str(SAMPLE), "--have", "onin 2 kg", "--have", "crrot 1 lb")
    assert [each.suggestion for each in caught.value.complaints] == ["onion", "carrot"]


@pytest.mark.parametrize("words", [["shop"], ["note"], ["plan", "--like"]])
def test_a_folder_that_is_not_there_is_named(words: list[str], tmp_path: Path) -> None:
    with pytest.raises(InputFault) as caught:
        told(*words, str(tmp_path / "none"))
    assert str(tmp_path / "none") in str(caught.value)


@pytest.fixture
def past(tmp_path: Path) -> Path:
    made = tmp_path / "past"
    made.mkdir()
    (made / "plan.json").write_bytes((SAMPLE / "plan.json").read_bytes())
    return made


def test_notes_are_kept_and_shown(past: Path) -> None:
    assert "No notes." in told("note", str(past))
    day = ["--date", "2027-01-17"]
    told("note", str(past), "made 5 tubs, not 6", "--dish", "cottage-pie", *day)
    said = told("note", str(past / "plan.json"), "start earlier", *day)
    assert said.splitlines() == [
        "Cottage pie: made 5 tubs, not 6 (17 Jan 2027)",
        "start earlier (17 Jan 2027)",
    ]


def test_a_past_day_is_cooked_again_changed_and_its_notes_come_back(
    past: Path, tmp_path: Path
) -> None:
    told("note", str(past), "brown it in two loads", "--dish", "beef-barley-stew")
    told("note", str(past), "made 5 tubs, not 6", "--dish", "cottage-pie", "--date", "2027-01-17")
    left_out = [
        f"{name}=0"
        for name in (
            "beef-barley-stew",
            "sausage-lentil-soup",
            "chicken-coconut-curry",
            "cider-pulled-pork",
        )
    ]
    out = tmp_path / "again"
    when = ["--date", "2027-02-20", "--out", str(out), "--seconds", "20"]
    said = told("plan", "--like", str(past), "cottage-pie=1", *left_out, *when)
    again: Plan = read_plan(out)
    assert [(each.id, each.batches) for each in again.dishes] == [("cottage-pie", 1)]
    assert again.date == dt.date(2027, 2, 20)
    assert again.start == dt.datetime(2027, 2, 20, 8, 0)  # noqa: DTZ001 - local wall-clock time
    assert again.notes == ("Cottage pie: made 5 tubs, not 6 (17 Jan 2027)",)
    assert "Noted last time: Cottage pie: made 5 tubs" in said
    assert "made 5 tubs, not 6" in " ".join((out / "run-sheet.html").read_text("utf-8").split())
    assert "brown it in two loads" in (out / "notes.toml").read_text("utf-8")
    assert (out / "kitchen-of-the-day.toml").is_file()
