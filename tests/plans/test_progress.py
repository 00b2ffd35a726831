"""Marks are on disk at once, and a crash in the middle of one loses no other."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from batchcook.complaints import InputFault
from batchcook.plans.progress import FILE, Mark, append_marks, read_marks, state_of

NOON = dt.datetime.fromisoformat("2027-01-16T12:00")


def at(minutes: int) -> dt.datetime:
    return NOON + dt.timedelta(minutes=minutes)


def test_marks_come_back_in_their_order(tmp_path: Path) -> None:
    marks = [
        Mark("start", at(0), "soup/simmer", by_itself=True),
        Mark("late", at(5), "soup/simmer", minutes=5),
        Mark("note", at(6), "soup/simmer", words="needed 10 more minutes"),
        Mark("done", at(30), "soup/simmer"),
    ]
    for mark in marks:
        append_marks(tmp_path, [mark])
    assert read_marks(tmp_path) == tuple(marks)


@pytest.mark.parametrize("cut", range(1, 60))
def test_a_line_cut_short_loses_only_itself(tmp_path: Path, cut: int) -> None:
    append_marks(tmp_path, [Mark("start", at(0), "a"), Mark("done", at(1), "a")])
    file = tmp_path / FILE
    whole = file.read_bytes()
    file.write_bytes(whole[:-cut])
    append_marks(tmp_path, [Mark("start", at(2), "b")])
    found = read_marks(tmp_path)
    assert found[0] == Mark("start", at(0), "a")
    assert found[-1] == Mark("start", at(2), "b")


def test_undo_takes_back_a_persons_mark_with_what_the_clock_marked_after_it() -> None:
    marks = [
        Mark("start", at(0), "a", by_itself=True),
        Mark("done", at(5), "a"),
        Mark("start", at(5), "b", by_itself=True),
        Mark("undo", at(6)),
    ]
    state = state_of(marks)
    assert state.started == {"a": at(0)}
    assert state.ended == {}


def test_minutes_late_add_up() -> None:
    marks = [Mark("late", at(0), "a", minutes=5), Mark("late", at(1), "a", minutes=5)]
    assert state_of(marks).late == {"a": 10}


def test_a_folder_without_progress_has_none(tmp_path: Path) -> None:
    assert read_marks(tmp_path) == ()


def test_a_folder_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / FILE).mkdir()
    with pytest.raises(InputFault, match="cannot be written"):
        append_marks(tmp_path, [Mark("start", NOON, "a")])
