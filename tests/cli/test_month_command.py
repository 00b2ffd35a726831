from __future__ import annotations

import json
from pathlib import Path

import pytest
import typer
from pypdf import PdfReader
from typer.testing import CliRunner, Result

from batchcook.cli import freezer
from batchcook.cli.month import month
from batchcook.complaints import InputFault

RUNNER = CliRunner()

app = typer.Typer()
app.add_typer(freezer.app, name="freezer")
app.command("month")(month)


def run(tmp_path: Path, *words: str) -> Result:
    store = ("--store", str(tmp_path / "freezer.sqlite"))
    told = RUNNER.invoke(app, [*words, *store], env={"COLUMNS": "160"})
    if told.exception is not None and not isinstance(told.exception, SystemExit):
        raise told.exception
    return told


def stocked(tmp_path: Path) -> None:
    for title, main in (("Beef stew", "beef"), ("Minestrone", "beans")):
        what = ("freezer", "add", title, "--main", main, "--count", "3", "--portions", "4")
        run(tmp_path, *what, "--keeps-as", "soup-or-stew", "--on", "2026-01-10")


def plan(tmp_path: Path, *words: str) -> Result:
    out = ("--out", str(tmp_path / "month"), "--on", "2026-01-30")
    return run(tmp_path, "month", "2026-02", *out, *words)


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_a_month_is_planned_shown_and_written(tmp_path: Path, paper: str) -> None:
    stocked(tmp_path)
    told = plan(tmp_path, "--nights", "tue", "--paper", paper).stdout
    assert "Tue 3 Feb " in told
    assert "No container passes its best-by date this month." in told
    files = sorted(each.name for each in (tmp_path / "month").iterdir())
    assert files == ["freezer-nights.ics", "month-sheet.html", "month-sheet.pdf"]
    page = PdfReader(tmp_path / "month" / "month-sheet.pdf").pages[0]
    text = " ".join(page.extract_text().split())
    for part in ("Freezer nights, February 2026", "Beef stew", "to refrigerator", "quality dates"):
        assert part in text


def test_json_tells_nights_moves_and_whether_it_is_proved(tmp_path: Path) -> None:
    stocked(tmp_path)
    told = json.loads(plan(tmp_path, "--nights", "tue", "--json").stdout)
    assert [night["on"] for night in told["nights"]] == [
        "2026-02-03",
        "2026-02-10",
        "2026-02-17",
        "2026-02-24",
    ]
    assert told["move_to_refrigerator"][0]["on"] == "2026-02-02"
    assert told["proved_fewest"] is True


def test_a_familys_calendar_adds_crunch_evenings(tmp_path: Path) -> None:
    stocked(tmp_path)
    file = tmp_path / "family.ics"
    file.write_text(
        "BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:x\nBEGIN:VEVENT\nUID:1\nDTSTAMP:20260101T000000Z\n"
        "SUMMARY:Choir\nDTSTART:20260206T180000\nDTEND:20260206T190000\nEND:VEVENT\n"
        "END:VCALENDAR\n",
        "utf-8",
    )
    told = plan(tmp_path, "--nights", "tue", "--calendar", str(file)).stdout
    assert "Fri 6 Feb " in told
    assert "crunch: Choir" in told


@pytest.mark.parametrize(
    ("words", "fault"),
    [
        (("--nights", "tuesday,blursday"), "'blursday' is no weekday"),
        (("--nights", "tue", "--fix", "2026-03-01=Z1"), "is not in 2026-02"),
        (("--nights", "tue", "--fix", "2026-02-03=Q9"), "is no container in the freezer"),
        (("--nights", "tue", "--table", "2026-02-03=99"), "1 to 24 people"),
        (("--nights", "tue", "--swap", "2026-02-03=now"), "is no date"),
        (("--nights", "tue", "--paper", "a5"), "letter or a4"),
        ((), "--nights"),
    ],
)
def test_what_cannot_be_is_a_fault_and_nothing_is_written(
    tmp_path: Path, words: tuple[str, ...], fault: str
) -> None:
    stocked(tmp_path)
    before = (tmp_path / "freezer.sqlite").read_bytes()
    with pytest.raises(InputFault, match=fault):
        plan(tmp_path, *words)
    assert not (tmp_path / "month").exists()
    assert (tmp_path / "freezer.sqlite").read_bytes() == before


def test_a_month_that_is_none_is_a_fault(tmp_path: Path) -> None:
    with pytest.raises(InputFault, match="is no month"):
        run(tmp_path, "month", "2026-13", "--nights", "tue")


def test_a_table_on_an_evening_without_a_freezer_night_is_said_to_change_nothing(
    tmp_path: Path,
) -> None:
    stocked(tmp_path)
    told = plan(tmp_path, "--nights", "tue", "--table", "2026-02-04=6", "--table", "2026-02-03=5")
    assert "Wed 4 Feb 2026 is no freezer night, so 6 people" in told.stdout
    assert "Tue 3 Feb 2026 is no freezer night" not in told.stdout


def test_a_month_that_is_over_is_refused_and_writes_nothing(tmp_path: Path) -> None:
    stocked(tmp_path)
    out = tmp_path / "month"
    with pytest.raises(InputFault, match="2026-01: is over, and no freezer night"):
        run(
            tmp_path, "month", "2026-01", "--nights", "tue", "--on", "2026-02-03", "--out", str(out)
        )
    assert not out.exists()


def test_brackets_of_a_title_are_told_as_they_are(tmp_path: Path) -> None:
    what = ("freezer", "add", "Soup [hot]", "--keeps-as", "soup-or-stew", "--portions", "4")
    run(tmp_path, *what, "--on", "2026-01-10")
    told = plan(tmp_path, "--nights", "tue").stdout
    assert "Soup [hot]" in told
    assert "\\" not in told
