"""A past prep day copied and changed."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from shopping_days import DAY, dish, plan_with

from batchcook.complaints import InputFault
from batchcook.day.copying import changed_orders, copied_day, kept
from batchcook.day.notes import Note, notes_text
from batchcook.kitchens.kitchen import default_kitchen
from batchcook.plan import Cook, Plan, write_plan
from batchcook.plans.dayfolder import KITCHEN_FILE, NOTES_FILE

ORDERS = {"cottage-pie": 2, "curry": 1}
NOTE = Note(dt.date(2027, 1, 17), "made 5 tubs, not 6", "curry")


def folder_of(place: Path, plan: Plan) -> Path:
    place.mkdir()
    (place / "plan.json").write_text(write_plan(plan), "utf-8")
    return place


@pytest.fixture
def past(tmp_path: Path) -> Path:
    plan = plan_with([], dishes=[dish("cottage-pie"), dish("curry", 1)])
    return folder_of(tmp_path / "past", plan)


@pytest.mark.parametrize(
    ("changes", "orders"),
    [
        ([], ORDERS),
        (["cottage-pie=3", "curry=0"], {"cottage-pie": 3}),
        (["stew=2"], {**ORDERS, "stew": 2}),
        (["stew"], {**ORDERS, "stew": 1}),
        (["cottage-pie=0", "curry=0", "stew=1"], {"stew": 1}),
    ],
)
def test_batches_change_dishes_are_left_out_and_added(
    changes: list[str], orders: dict[str, int]
) -> None:
    assert changed_orders(ORDERS, changes) == orders


def test_every_change_that_makes_no_sense_is_told_at_once() -> None:
    with pytest.raises(InputFault) as caught:
        changed_orders(ORDERS, ["cotage-pie=0", "curry=0", "curry=2", "stew=many", "pie=99"])
    told = [str(each) for each in caught.value.complaints]
    assert "Did you mean 'cottage-pie'?" in told[0]
    assert any("'many' batches" in each for each in told)
    assert len(told) >= 3


def test_a_dish_may_not_be_both_left_out_and_cooked() -> None:
    with pytest.raises(InputFault, match="both left out and cooked"):
        changed_orders(ORDERS, ["curry=0", "curry=2"])


def test_something_has_to_be_left_to_cook() -> None:
    with pytest.raises(InputFault, match="nothing is left to cook"):
        changed_orders(ORDERS, ["curry=0", "cottage-pie=0"])


def test_the_copy_has_the_day_s_start_units_and_kitchen(past: Path) -> None:
    copy = copied_day(past, ["curry=0"])
    assert copy.orders == {"cottage-pie": 2}
    assert (copy.date, copy.start, copy.system) == (DAY, dt.time(8), "us")
    assert copy.kitchen == default_kitchen()
    assert copied_day(past / "plan.json", ["curry=0"]) == copy


def test_the_kitchen_kept_with_the_plan_is_used_with_the_cooks_of_that_day(past: Path) -> None:
    text = kept([], None, None, past).kitchen.decode().replace("count = 4", "count = 3", 1)
    (past / KITCHEN_FILE).write_text(text, "utf-8")
    first = default_kitchen().cooks[0]
    alone = plan_with([], dishes=[dish("curry")]).model_copy(
        update={"cooks": (Cook(id=first.id, name=first.name),)}
    )
    (past / "plan.json").write_text(write_plan(alone), "utf-8")
    copy = copied_day(past, [])
    assert copy.kitchen.cooks == (first,)
    assert copy.kitchen.burners.count == default_kitchen().burners.count - 1


def test_a_plan_keeps_the_kitchen_it_was_planned_in(tmp_path: Path, past: Path) -> None:
    own = tmp_path / "own.toml"
    own.write_text("# ours", "utf-8")
    ordered = tmp_path / "day.toml"
    ordered.write_text('[day]\ndate = 2027-01-16\nkitchen = "own.toml"\n', "utf-8")
    (past / KITCHEN_FILE).write_text("# theirs", "utf-8")
    out = tmp_path / "out"
    assert kept([], own, None, out).kitchen == b"# ours"
    assert kept([str(ordered)], None, None, out).kitchen == b"# ours"
    assert kept([], None, past, out).kitchen == b"# theirs"
    assert kept([], own, past, out).kitchen == b"# ours"
    assert b"[burners]" in kept(["curry=2"], None, None, out).kitchen


def test_notes_of_the_past_day_come_along_and_those_already_there_stay(
    tmp_path: Path, past: Path
) -> None:
    (past / NOTES_FILE).write_text(notes_text([NOTE]), "utf-8")
    out = tmp_path / "out"
    out.mkdir()
    there = Note(NOTE.on, "start earlier")
    (out / NOTES_FILE).write_text(notes_text([there]), "utf-8")
    keep = kept([], None, past, out)
    assert keep.notes == (there, NOTE)
    assert keep.files_for(out)[NOTES_FILE].decode() == notes_text([there, NOTE])
    later = Note(NOTE.on, "written while the search went on")
    (out / NOTES_FILE).write_text(notes_text([there, later]), "utf-8")
    assert keep.files_for(out)[NOTES_FILE].decode() == notes_text([there, later, NOTE])
    fresh = tmp_path / "fresh"
    assert NOTES_FILE not in kept([], None, None, fresh).files_for(fresh)


def test_a_folder_without_a_plan_cannot_be_copied(tmp_path: Path) -> None:
    with pytest.raises(InputFault, match="plan"):
        copied_day(tmp_path, [])
