from __future__ import annotations

import datetime as dt
import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from batchcook.cli import main
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


def test_a_day_still_to_come_is_not_packed_without_a_word(store: Path, tmp_path: Path) -> None:
    plan = str(plan_file(tmp_path))
    early = run(store, "pack", plan, "--yes", "--on", "2026-01-09").stdout
    assert "planned for Sat 10 Jan 2026, still to come" in early
    assert "freezer undo" in early
    run(store, "undo")
    assert "still to come" not in run(store, "pack", plan, "--yes").stdout


def test_the_freezer_of_a_metric_day_is_told_in_degc(store: Path, tmp_path: Path) -> None:
    file = plan_file(tmp_path)
    run(store, "pack", str(file), "--yes")
    assert "40\u00a0°F" in run(store, "outage", "--hours", "30").stdout
    run(store, "undo")
    plan = json.loads(file.read_text("utf-8"))
    for each in plan["containers"]:
        each["system"] = "metric"
        each["state"], each["cook_to_degF"] = "raw-kit", 165
    file.write_text(json.dumps(plan), "utf-8")
    run(store, "pack", str(file), "--yes")
    told = run(store, "outage", "--hours", "30").stdout + run(store, "list").stdout
    assert "°F" not in told
    assert "4\u00a0°C" in told
    assert "74\u00a0°C" in told


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
    assert "eat today, last day Sat 7 Feb 2026" in run(store, "list", "--on", "2026-02-07").stdout
    assert "throw out" in run(store, "list", "--on", "2026-02-08").stdout


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
    said = ["verdict", "minestrone", "change", "--note", "less salt", "--store", str(store)]
    assert RUNNER.invoke(main.app, said).exit_code == 0
    assert "Minestrone (change)" in run(store, "list").stdout


def test_outage_says_what_to_look_at(store: Path) -> None:
    add(store)
    said = json.loads(run(store, "outage", "--hours", "30", "--fill", "half", "--json").stdout)
    assert (said["cold"], said["holds_hours"], said["look_at"]) == (False, 24, ["Z1"])
    told = run(store, "outage", "--hours", "30", "--fill", "full").stdout
    assert "what is still frozen in it can stay" in told
    assert "ice crystals in each container" in told
    assert "30 h is past those 4 hours" in told
    assert "Throw out all perishable food in it" in told
    assert "USDA FSIS" in told


def test_a_door_that_was_opened_counts_for_the_refrigerator_too(store: Path) -> None:
    add(store, "--count", "2")
    run(store, "thaw", "Z1", "--on", "2026-01-12")
    for words, verdict in ((["3"], "can stay"), (["3", "--opened"], "throw out, unless measured")):
        told = run(store, "outage", "--on", "2026-01-13", "--hours", *words).stdout
        assert f"Z1  Minestrone: {verdict}" in told
    late = run(store, "outage", "--on", "2026-01-20", "--hours", "1").stdout
    assert "Z1  Minestrone: throw out, it is past its last day" in late


WHOLE_BIRD = ("Whole turkey", "--keeps-as", "raw-poultry-whole", "--portions", "12")


def test_a_large_piece_asks_for_its_weight_and_thaws_by_it(store: Path) -> None:
    with pytest.raises(InputFault, match="--weight: missing"):
        run(store, "add", *WHOLE_BIRD)
    assert not store.exists()
    # USDA FSIS, The Big Thaw: 24 hours for each 4 to 5 lb; here the slower of the two.
    told = run(store, "add", *WHOLE_BIRD, "--weight", "14 lb", "--on", "2026-01-20").stdout
    assert "to the refrigerator 4 days before" in told
    assert "cook by Sun 1 Feb 2026" in run(store, "thaw", "Z1", "--on", "2026-01-27").stdout


def test_a_weight_asks_for_no_less_than_its_days(store: Path) -> None:
    with pytest.raises(InputFault, match="1 for 14 lb; expected 4 or more"):
        run(store, "add", *WHOLE_BIRD, "--weight", "14 lb", "--thaw-days", "1")
    with pytest.raises(InputFault, match="is no weight"):
        run(store, "add", *WHOLE_BIRD, "--weight", "3 cups")
    with pytest.raises(InputFault, match="--weight: missing"):
        run(store, "add", *WHOLE_BIRD, "--thaw-days", "2")
    assert "from frozen" in run(store, "add", *WHOLE_BIRD, "--thaw-days", "0").stdout


def test_a_weight_is_set_right_with_its_days(store: Path) -> None:
    run(store, "add", *WHOLE_BIRD, "--weight", "9 lb", "--on", "2026-01-20")
    run(store, "correct", "Z1", "--weight", "14 lb")
    with pytest.raises(InputFault, match="2 for 14 lb"):
        run(store, "correct", "Z1", "--thaw-days", "2")
    assert "cook by Sun 1 Feb 2026" in run(store, "thaw", "Z1", "--on", "2026-01-27").stdout


def test_a_raw_row_says_that_it_is_raw(store: Path) -> None:
    told = run(store, "add", "Ground beef", "--keeps-as", "raw-ground-meat-fsis", "--portions", "4")
    # FoodSafety.gov, Safe Minimum Internal Temperature Chart: ground beef 160 degF.
    raw = "RAW: cook it through, to 160\u00a0°F"
    assert raw in told.stdout
    assert listed(store)[0]["raw"] is True
    assert listed(store)[0]["cook_to_degF"] == 160
    assert raw in run(store, "list").stdout
    assert raw in run(store, "thaw", "Z1").stdout


def test_raw_food_under_a_row_of_cooked_food_keeps_as_raw_food_does(store: Path) -> None:
    add(store, "--raw")
    assert "cook by Wed 4 Feb 2026" in run(store, "thaw", "Z1", "--on", "2026-02-02").stdout
    assert listed(store)[0]["cook_to_degF"] == 165


def test_a_package_date_stays_when_the_day_of_freezing_is_set_right(store: Path) -> None:
    add(store, "--use-by", "2026-02-01")
    run(store, "correct", "Z1", "--frozen-on", "2026-01-12")
    assert listed(store)[0]["use_by"] == "2026-02-01"


def test_refreezing_leaves_only_the_days_that_were_not_used(store: Path) -> None:
    add(store)
    run(store, "thaw", "Z1", "--on", "2026-02-02")
    told = run(store, "refreeze", "Z1", "--on", "2026-02-04").stdout
    assert "once thawed it then keeps 1 day" in told
    assert listed(store)[0]["place"] == "freezer"
    assert "eat by Tue 3 Mar 2026" in run(store, "thaw", "Z1", "--on", "2026-03-01").stdout
    words = [each["words"] for each in json.loads(run(store, "history", "Z1", "--json").stdout)]
    assert "frozen again" in words


def test_what_thawed_in_cold_water_is_not_frozen_again(store: Path) -> None:
    add(store)
    told = run(store, "thaw", "Z1", "--by", "cold-water", "--on", "2026-02-02").stdout
    assert "thawed in cold water, eat it at once" in told
    with pytest.raises(InputFault, match="cook it before freezing it again"):
        run(store, "refreeze", "Z1", "--on", "2026-02-02")


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


def test_days_in_the_refrigerator_before_freezing_count_against_those_after(store: Path) -> None:
    # FDA Food Code 3-501.17 guidance: days before freezing and after thawing add up.
    add(store, "--days-before", "2")
    assert "eat by Wed 4 Feb 2026" in run(store, "thaw", "Z1", "--on", "2026-02-02").stdout
    with pytest.raises(InputFault, match="longer than it keeps"):
        add(store, "--days-before", "5")


def test_a_day_of_freezing_still_to_come_is_refused(store: Path) -> None:
    with pytest.raises(InputFault, match="--frozen-on: 2026-01-11 is after 2026-01-10"):
        add(store, "--frozen-on", "2026-01-11")
    add(store)
    with pytest.raises(InputFault, match="--frozen-on"):
        run(store, "correct", "Z1", "--frozen-on", "2026-01-11", "--on", "2026-01-10")


def test_raw_and_cooked_of_one_name_stand_on_lines_of_their_own(store: Path) -> None:
    add(store)
    add(store, "--raw")
    assert listed(store)[0]["use_by"] == listed(store)[1]["use_by"]
    rows = [line for line in run(store, "list").stdout.splitlines() if "Minestrone" in line]
    assert ["RAW" in line for line in rows] == [False, True]


def test_days_to_thaw_cannot_stretch_the_days_that_it_keeps(store: Path) -> None:
    with pytest.raises(InputFault, match="at most 2, or a --weight"):
        add(store, "--thaw-days", "3")
    with pytest.raises(InputFault, match=r"at most 2$"):
        add(store, "--thaw-days", "3", "--weight", "2 lb")
    add(store, "--thaw-days", "3", "--weight", "8 lb")
    add(store, "--thaw-days", "2")


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


def test_brackets_of_a_title_are_told_as_they_are(store: Path) -> None:
    add(store)
    run(store, "correct", "Z1", "--title", "Soup [hot] :egg:", "--on", "2026-01-10")
    listed = run(store, "list", "--on", "2026-01-11").stdout
    assert "Soup [hot] :egg:" in listed
    told = run(store, "history", "Z1").stdout
    assert "[hot]" in told
    assert "\\" not in listed + told


def test_what_it_is_is_shown_with_its_brackets(store: Path) -> None:
    run(store, "add", "Chili [/hot]\n", "--keeps-as", "soup-or-stew", "--portions", "2")
    for words in (("list",), ("history", "Z1")):
        assert "Chili [/hot]" in run(store, *words).output


@pytest.mark.parametrize("title", [" ", "x" * 101, "a\x1b[2J"])
def test_what_no_list_can_show_is_refused(store: Path, title: str) -> None:
    with pytest.raises(InputFault, match="very long, or cannot be printed"):
        run(store, "add", title, "--keeps-as", "soup-or-stew", "--portions", "2")
