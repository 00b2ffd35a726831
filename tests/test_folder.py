"""Folders and files that are written whole or not at all."""

import os
from pathlib import Path

import pytest

from batchcook.complaints import InputFault
from batchcook.folder import check_folder, write_file, write_folder


def test_a_new_folder_holds_all_its_files(tmp_path: Path) -> None:
    write_folder(tmp_path / "a" / "b", {"x": b"1", "y": b"2"})
    assert {each.name: each.read_bytes() for each in (tmp_path / "a" / "b").iterdir()} == {
        "x": b"1",
        "y": b"2",
    }
    assert [each.name for each in (tmp_path / "a").iterdir()] == ["b"]


def test_other_files_of_an_old_folder_stay(tmp_path: Path) -> None:
    (tmp_path / "plan").mkdir()
    (tmp_path / "plan" / "notes.txt").write_text("mine")
    (tmp_path / "plan" / "x").write_text("old")
    write_folder(tmp_path / "plan", {"x": b"new"})
    assert (tmp_path / "plan" / "notes.txt").read_text() == "mine"
    assert (tmp_path / "plan" / "x").read_text() == "new"
    assert [each.name for each in tmp_path.iterdir()] == ["plan"]


def test_a_failed_write_leaves_nothing_behind(tmp_path: Path) -> None:
    with pytest.raises(InputFault):
        write_folder(tmp_path / "new" / "plan", {"x": b"1", "no/such/place": b"2"})
    assert list(tmp_path.iterdir()) == []


def test_a_file_in_the_way_is_named(tmp_path: Path) -> None:
    (tmp_path / "plan").write_text("a file")
    with pytest.raises(InputFault, match="is a file"):
        check_folder(tmp_path / "plan")
    with pytest.raises(InputFault):
        check_folder(tmp_path / "plan" / "below")


def test_a_folder_without_leave_to_write_is_refused_early(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, "access", lambda *_: False)
    with pytest.raises(InputFault, match="cannot be written"):
        check_folder(tmp_path / "plan")


def test_a_file_is_replaced_whole(tmp_path: Path) -> None:
    write_file(tmp_path / "x", b"1")
    write_file(tmp_path / "x", b"22")
    assert (tmp_path / "x").read_bytes() == b"22"
    assert len(list(tmp_path.iterdir())) == 1


def test_a_file_in_a_missing_folder_is_refused(tmp_path: Path) -> None:
    with pytest.raises(InputFault, match="cannot be written"):
        write_file(tmp_path / "none" / "x", b"1")
