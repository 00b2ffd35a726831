"""Notes of a prep day stay with its plan."""

from __future__ import annotations

import datetime as dt
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from shopping_days import dish, plan_with

from batchcook.complaints import InputFault
from batchcook.day.notes import Note, add_note, notes_for, notes_text, read_notes, told
from batchcook.plan import write_plan
from batchcook.plans.dayfolder import NOTES_FILE

ON = dt.date(2027, 1, 17)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    made = tmp_path / "day"
    made.mkdir()
    text = write_plan(plan_with([], dishes=[dish("cottage-pie"), dish("curry")]))
    (made / "plan.json").write_text(text, "utf-8")
    return made


def test_a_folder_without_notes_has_none(folder: Path) -> None:
    assert read_notes(folder) == ()
    assert read_notes(folder / "none") == ()


def test_notes_are_kept_in_the_order_written(folder: Path) -> None:
    first, second = Note(ON, "made 5 tubs, not 6", "curry"), Note(ON, "start earlier")
    add_note(folder, first)
    assert add_note(folder, second) == (first, second)
    assert read_notes(folder) == (first, second)


@given(words=st.text(max_size=60), dish=st.sampled_from(["", "curry"]))
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=60)
def test_whatever_can_be_printed_comes_back_as_it_was(folder: Path, words: str, dish: str) -> None:
    (folder / NOTES_FILE).unlink(missing_ok=True)
    line = " ".join(words.split())
    if line and line.isprintable():
        add_note(folder, Note(ON, words, dish))
        assert read_notes(folder) == (Note(ON, line, dish),)
    else:
        with pytest.raises(InputFault):
            add_note(folder, Note(ON, words, dish))
        assert read_notes(folder) == ()


def test_a_dish_that_was_not_cooked_is_refused_with_the_nearest(folder: Path) -> None:
    with pytest.raises(InputFault, match="Did you mean 'cottage-pie'") as caught:
        add_note(folder, Note(ON, "x" * 400, "cotage-pie"))
    assert len(caught.value.complaints) == 2
    assert not (folder / NOTES_FILE).exists()


def test_a_folder_without_a_plan_is_refused(tmp_path: Path) -> None:
    with pytest.raises(InputFault, match="plan"):
        add_note(tmp_path, Note(ON, "early"))


@pytest.mark.parametrize("text", ["[[note]]\nwords = 'x'\n", "note = 3", "[[notes]]", "not toml"])
def test_a_file_of_another_shape_is_refused(folder: Path, text: str) -> None:
    (folder / NOTES_FILE).write_text(text, "utf-8")
    with pytest.raises(InputFault, match="notes"):
        read_notes(folder)


def test_only_notes_of_the_day_and_of_its_dishes_come_back() -> None:
    day, pie, curry = Note(ON, "a"), Note(ON, "b", "cottage-pie"), Note(ON, "c", "curry")
    assert notes_for((day, pie, curry, pie), {"cottage-pie": 3}) == (day, pie)


def test_notes_are_told_with_dish_and_date() -> None:
    notes = (Note(ON, "made 5", "curry"), Note(ON, "start earlier"))
    assert told(notes, {"curry": "Chicken curry"}) == (
        "Chicken curry: made 5 (17 Jan 2027)",
        "start earlier (17 Jan 2027)",
    )


def test_a_note_is_written_once() -> None:
    assert notes_text((Note(ON, "a"), Note(ON, "a"))).count("[[note]]") == 1


def test_notes_written_at_once_are_all_kept(folder: Path) -> None:
    with ThreadPoolExecutor(max_workers=8) as together:
        list(together.map(lambda n: add_note(folder, Note(ON, f"note {n}")), range(24)))
    assert {note.words for note in read_notes(folder)} == {f"note {n}" for n in range(24)}
