from __future__ import annotations

import datetime as dt
import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from batchcook.cli.freezer import app
from batchcook.cli.freezer_views import SOMETHING_DUE
from batchcook.complaints import InputFault
from batchcook.plan import Container, Plan, Summary, write_plan

RUNNER = CliRunner()
AT = dt.datetime(2026, 1, 10, 8)  # noqa: DTZ001 - plans hold local wall-clock times


@pytest.fixture
def store(tmp_path: Path) -> Path:
    return tmp_path / "data" / "freezer.sqlite"


def run(store: Path, *words: str, typed: str = "") -> Result:
    told = RUNNER.invoke(app, [*words, "--store", str(store)], env={"COLUMNS": "160"}, input=typed)
    if told.exception is not None and not isinstance(told.exception, SystemExit):
        raise told.exception
    return told


def add(store: Path, *words: str) -> Result:
    soup = ("add", "Minestrone", "--keeps-as", "soup-or-stew", "--portions", "4")
    return run(store, *soup, "--on", "2026-01-10", *words)


def plan_file(tmp_path: Path) -> Path:
    containers = tuple(
        Container(
            code=f"A{number}",
            dish="beef-stew",
            title="Beef stew",
            portions=4,
            number=number,
            of=3,
            holds="quart tub",
            grams=900,
            state="cooked",
            packed_on=AT.date(),
            best_by=dt.date(2026, 3, 10),
            use_by=dt.date(2026, 4, 10),
            storage_rows=("soup-or-stew",),
            thaw="refrigerator",
            thaw_days=1,
            keeps_thawed_days=3,
            finish="Warm it.",
        )
        for number in (1, 2, 3)
    )
    summary = Summary(
        makespan_minutes=1,
        best_bound_minutes=1,
        proved_shortest=True,
        one_after_another_minutes=1,
        hands_on_minutes=1,
    )
    plan = Plan(
        date=AT.date(),
        start=AT,
        finish=AT,
        summary=summary,
        cooks=(),
        dishes=(),
        resources=(),
        tasks=(),
        containers=containers,
    )
    file = tmp_path / "plan.json"
    file.write_text(write_plan(plan), "utf-8")
    return file


def listed(store: Path, *words: str) -> list[dict[str, object]]:
    rows = json.loads(run(store, "list", "--json", *words).stdout)
    assert isinstance(rows, list)
    return rows


def test_pack_asks_what_really_got_made(store: Path, tmp_path: Path) -> None:
    told = run(store, "pack", str(plan_file(tmp_path)), typed="2\n")
    assert "Beef stew: 3 x quart tub planned. How many got made? [3]" in told.stdout
    assert [row["code"] for row in listed(store)] == ["A1", "A2"]


def test_pack_takes_the_planned_number_on_a_plain_return(store: Path, tmp_path: Path) -> None:
    run(store, "pack", str(plan_file(tmp_path)), typed="\n")
    assert len(listed(store)) == 3


def test_pack_asks_nothing_that_was_said(store: Path, tmp_path: Path) -> None:
    told = run(store, "pack", str(plan_file(tmp_path)), "--made", "beef-stew=1")
    assert "How many" not in told.stdout
    assert [row["code"] for row in listed(store)] == ["A1"]


def test_pack_stopped_at_its_question_packs_nothing(store: Path, tmp_path: Path) -> None:
    told = RUNNER.invoke(app, ["pack", str(plan_file(tmp_path)), "--store", str(store)], input="")
    assert told.exit_code == 1
    assert not store.exists()


def test_list_shows_state_in_words_and_explains_them(store: Path) -> None:
    add(store)
    told = run(store, "list", "--on", "2026-06-01").stdout
    assert "safe but fading" in told
    assert "it stays safe" in told.replace("\n", " ")
    assert "throw" not in told


def test_an_empty_freezer_says_so_and_makes_no_file(store: Path) -> None:
    assert "empty" in run(store, "list").stdout
    assert not store.exists()


def test_what_was_ticked_is_entered_at_one_go(store: Path) -> None:
    add(store, "--count", "3")
    assert "Eaten: Z1 Minestrone, Z3 Minestrone." in run(store, "take", "z1", "z3").stdout
    assert [row["code"] for row in listed(store)] == ["Z2"]
    assert "Undone: step 2: Z1 and Z3 eaten." in run(store, "undo").stdout
    assert len(listed(store)) == 3


@pytest.mark.parametrize(
    ("on", "days", "code"),
    [
        ("2026-03-01", "8", 0),
        ("2026-03-01", "9", SOMETHING_DUE),
        ("2026-05-01", "0", SOMETHING_DUE),
    ],
)
def test_check_says_by_its_exit_code_whether_something_is_due(
    store: Path, on: str, days: str, code: int
) -> None:
    add(store)
    told = run(store, "check", "--days", days, "--on", on)
    assert told.exit_code == code
    rows = json.loads(run(store, "check", "--days", days, "--on", on, "--json").stdout)
    assert len(rows) == (1 if code else 0)


def test_the_exit_code_of_check_is_none_that_means_a_fault(store: Path) -> None:
    assert SOMETHING_DUE not in {0, 1, 2, 3}
    store.parent.mkdir()
    store.write_bytes(b"no freezer file " * 100)
    with pytest.raises(InputFault):
        run(store, "check")


def test_thaw_says_by_when_to_eat_it(store: Path) -> None:
    add(store)
    told = run(store, "thaw", "Z1", "--on", "2026-02-02").stdout
    assert "eat by Fri 6 Feb 2026" in told
    assert "thawing, eat by Fri 6 Feb 2026" in run(store, "list", "--on", "2026-02-06").stdout
    assert "throw out" in run(store, "list", "--on", "2026-02-07").stdout


def test_a_raw_kit_is_to_be_cooked_not_eaten(store: Path) -> None:
    add(store, "--raw")
    assert "cook by" in run(store, "thaw", "Z1", "--on", "2026-02-02").stdout
    assert "RAW" in run(store, "list").stdout


def test_history_and_correct_and_throw(store: Path) -> None:
    add(store)
    run(store, "correct", "Z1", "--portions", "3")
    run(store, "throw", "Z1", "--why", "lid off")
    told = json.loads(run(store, "history", "Z1", "--json").stdout)
    assert [each["words"] for each in told][1:] == ["corrected: portions 3", "thrown out: lid off"]
    assert "thrown out: lid off" in run(store, "history", "Z1").stdout


def test_a_verdict_is_shown_in_the_list(store: Path) -> None:
    add(store)
    run(store, "verdict", "minestrone", "change", "--note", "less salt")
    assert "Minestrone (change)" in run(store, "list").stdout


def test_outage_says_what_to_look_at(store: Path) -> None:
    add(store)
    said = json.loads(run(store, "outage", "--hours", "30", "--fill", "half", "--json").stdout)
    assert (said["cold"], said["holds_hours"], said["look_at"]) == (False, 24, ["Z1"])
    told = run(store, "outage", "--hours", "30", "--fill", "full").stdout
    assert "everything in it can stay" in told
    assert "USDA FSIS" in told


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_sheet_for_the_door_is_a_pdf_on_either_paper(
    store: Path, tmp_path: Path, paper: str
) -> None:
    add(store, "--count", "3")
    out = tmp_path / "sheet.pdf"
    run(store, "sheet", "--out", str(out), "--paper", paper)
    assert out.read_bytes().startswith(b"%PDF")


def test_the_sheet_as_a_page_has_a_box_for_each_container(store: Path, tmp_path: Path) -> None:
    add(store, "--count", "3")
    run(store, "thaw", "Z2", "--on", "2026-01-20")
    out = tmp_path / "sheet.html"
    run(store, "sheet", "--out", str(out), "--on", "2026-01-20")
    page = out.read_text("utf-8")
    assert page.count('class="box"') == 3
    assert "eat by Sat 24 Jan 2026" in page


def test_a_sheet_of_another_kind_is_refused_and_not_written(store: Path, tmp_path: Path) -> None:
    add(store)
    with pytest.raises(InputFault, match=r"ends in \.pdf or \.html"):
        run(store, "sheet", "--out", str(tmp_path / "sheet.doc"))
    assert not (tmp_path / "sheet.doc").exists()


def test_a_row_whose_food_is_not_frozen_is_refused(store: Path) -> None:
    with pytest.raises(InputFault, match="cannot be frozen"):
        run(store, "add", "Salad", "--keeps-as", "eggs-in-shell", "--portions", "4")


def test_the_date_on_a_package_stands_if_it_is_the_earlier(store: Path) -> None:
    add(store, "--use-by", "2026-02-01")
    assert listed(store)[0]["use_by"] == "2026-02-01"
    add(store, "--use-by", "2027-02-01")
    assert listed(store)[1]["use_by"] == "2026-04-10"


def test_codes_stand_in_counting_order(store: Path) -> None:
    add(store, "--count", "11")
    told = run(store, "list", "--on", "2026-01-10").stdout
    codes = [word for word in told.split() if word[:1] == "Z" and word[1:].isdecimal()]
    assert codes == [f"Z{number}" for number in range(1, 12)]


def test_a_container_without_a_size_has_no_empty_brackets_after_a_power_cut(store: Path) -> None:
    add(store)
    told = run(store, "outage", "--hours", "40", "--on", "2026-01-10").stdout
    assert "[ ] Z1  Minestrone\n" in told


def test_an_unknown_row_is_told_with_rows_about_it_and_where_all_stand(store: Path) -> None:
    with pytest.raises(InputFault) as fault:
        run(store, "add", "Chicken", "--keeps-as", "chicken-pieces", "--portions", "4")
    told = str(fault.value)
    assert "batchcook safety cold storage" in told
    assert "raw-poultry-pieces" in told


def test_packing_a_plan_twice_is_one_message(tmp_path: Path, store: Path) -> None:
    plan = plan_file(tmp_path)
    run(store, "pack", str(plan), "--yes")
    with pytest.raises(InputFault) as fault:
        run(store, "pack", str(plan), "--yes")
    (complaint,) = fault.value.complaints
    assert "A1 A2 A3, Beef stew of 2026-01-10" in str(complaint)


@pytest.mark.parametrize("command", [("list",), ("check",), ("outage", "--hours", "5")])
def test_a_file_that_is_not_there_is_told_with_its_whole_path(
    tmp_path: Path, command: tuple[str, ...]
) -> None:
    missing = tmp_path / "nofolder" / "x.sqlite"
    told = run(missing, *command)
    assert f"{missing}: there is no such freezer file yet" in told.stderr
    assert not missing.parent.exists()
