"""Folders and files that are written whole or not at all."""

import os
import tempfile
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


@pytest.mark.parametrize("mode", [0o600, 0o640, 0o664])
def test_a_file_that_is_replaced_keeps_its_mode(tmp_path: Path, mode: int) -> None:
    (tmp_path / "x").write_bytes(b"1")
    (tmp_path / "x").chmod(mode)
    write_file(tmp_path / "x", b"22")
    assert (tmp_path / "x").read_bytes() == b"22"
    assert (tmp_path / "x").stat().st_mode & 0o777 == mode


def test_what_a_link_points_to_is_written_and_the_link_stays(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    (tmp_path / "real" / "x").write_bytes(b"1")
    (tmp_path / "real" / "x").chmod(0o600)
    (tmp_path / "link").symlink_to(Path("real") / "x")
    write_file(tmp_path / "link", b"22")
    assert (tmp_path / "link").is_symlink()
    assert (tmp_path / "real" / "x").read_bytes() == b"22"
    assert (tmp_path / "real" / "x").stat().st_mode & 0o777 == 0o600
    assert len(list((tmp_path / "real").iterdir())) == 1


def test_a_file_in_a_missing_folder_is_refused(tmp_path: Path) -> None:
    with pytest.raises(InputFault, match="cannot be written"):
        write_file(tmp_path / "none" / "x", b"1")


def contents(folder: Path) -> dict[str, bytes]:
    return {each.name: each.read_bytes() for each in folder.iterdir()}


def test_a_file_that_cannot_be_replaced_leaves_the_old_folder_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "plan"
    before = {"a": b"old a", "marks": b"old marks", "plan.json": b"old plan"}
    write_folder(folder, before)
    replace = Path.replace

    def refused(self: Path, target: Path) -> Path:
        if target.name == "plan.json":
            raise PermissionError(1, "Operation not permitted")
        return replace(self, target)

    monkeypatch.setattr(Path, "replace", refused)
    with pytest.raises(InputFault, match="cannot be written"):
        write_folder(folder, {"a": b"1", "b": b"2", "plan.json": b"3"}, gone=["marks"])
    assert contents(folder) == before


def test_files_to_be_gone_go_with_the_writing(tmp_path: Path) -> None:
    write_folder(tmp_path / "plan", {"marks": b"old", "x": b"old"})
    write_folder(tmp_path / "plan", {"x": b"new"}, gone=["marks", "never there"])
    assert contents(tmp_path / "plan") == {"x": b"new"}


def test_files_are_moved_into_place_in_their_order(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_folder(tmp_path / "plan", {"x": b"old"})
    moved: list[str] = []
    replace = Path.replace

    def noted(self: Path, target: Path) -> Path:
        moved.append(target.name)
        return replace(self, target)

    monkeypatch.setattr(Path, "replace", noted)
    write_folder(tmp_path / "plan", {"z": b"1", "x": b"2", "plan.json": b"3"})
    assert moved == ["z", "x", "plan.json"]


def test_nothing_is_written_beside_a_folder_that_is_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is above it may be read-only, or on another file system."""
    (tmp_path / "plan").mkdir()
    places: list[Path] = []
    mkdtemp = tempfile.mkdtemp

    def noted(prefix: str, dir: Path) -> str:  # noqa: A002 - the library's own name
        places.append(dir)
        return mkdtemp(prefix=prefix, dir=dir)

    monkeypatch.setattr(tempfile, "mkdtemp", noted)
    write_folder(tmp_path / "plan", {"x": b"1"})
    assert places == [tmp_path / "plan"]
    assert contents(tmp_path / "plan") == {"x": b"1"}


@pytest.mark.parametrize("name", ["x" * 300, f"{'x' * 300}/plan", f"plan/{'x' * 300}", "a/" * 3000])
def test_a_name_that_is_too_long_is_refused_early(tmp_path: Path, name: str) -> None:
    with pytest.raises(InputFault, match="cannot be written"):
        check_folder(tmp_path / name)
    assert list(tmp_path.iterdir()) == []


def test_the_longest_name_that_a_folder_may_have_is_written(tmp_path: Path) -> None:
    write_folder(tmp_path / ("x" * 255), {"x": b"1"})
    write_folder(tmp_path / ("x" * 255), {"x": b"2"})
    assert contents(tmp_path / ("x" * 255)) == {"x": b"2"}


def test_a_folder_in_the_place_of_a_file_is_named_early(tmp_path: Path) -> None:
    (tmp_path / "plan.json").mkdir()
    with pytest.raises(InputFault, match=r"plan\.json: is a folder"):
        check_folder(tmp_path, ["labels.pdf", "plan.json"])


def test_a_link_to_nowhere_is_refused_early(tmp_path: Path) -> None:
    (tmp_path / "plan").symlink_to(tmp_path / "none")
    with pytest.raises(InputFault, match="link to what is not there"):
        check_folder(tmp_path / "plan")
