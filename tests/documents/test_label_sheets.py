"""Label stock: what ships, and a cook's own measurements."""

from __future__ import annotations

from pathlib import Path

import pytest

from batchcook.complaints import InputFault
from batchcook.documents.labelsheets import find_sheet, load_sheets, own_sheet

OWN = """\
title = "my sheet"
paper = "a4"
width = 90.0
height = 40.0
columns = 2
rows = 6
left = 10.0
top = 10.0
pitch_x = 95.0
pitch_y = 45.0
"""


def written(folder: Path, text: str) -> Path:
    path = folder / "mine.toml"
    path.write_text(text, "utf-8")
    return path


@pytest.mark.parametrize("name", list(load_sheets()))
def test_every_sheet_that_ships_fits_its_paper_without_overlap(name: str) -> None:
    sheet = load_sheets()[name]
    if sheet.paper is None:
        assert sheet.height == 0
        return
    width, height = sheet.page
    left, top = sheet.corner(sheet.count - 1)
    assert left + sheet.width <= width + 0.01
    assert top + sheet.height <= height + 0.01
    assert sheet.columns == 1 or sheet.pitch_x >= sheet.width - 0.01
    assert sheet.rows == 1 or sheet.pitch_y >= sheet.height - 0.01


@pytest.mark.parametrize("name", [name for name, each in load_sheets().items() if each.paper])
def test_every_sheet_that_ships_has_margins_alike_left_and_right(name: str) -> None:
    sheet = load_sheets()[name]
    right = sheet.page[0] - sheet.corner(sheet.count - 1)[0] - sheet.width
    assert right == pytest.approx(sheet.left, abs=0.35)


def test_the_default_is_two_by_four_inches_ten_to_a_letter_page() -> None:
    sheet = find_sheet("2x4")
    assert (sheet.count, sheet.paper) == (10, "letter")
    assert (sheet.width, sheet.height) == pytest.approx((4 * 25.4, 2 * 25.4))


def test_an_unknown_sheet_is_told_with_the_nearest() -> None:
    with pytest.raises(InputFault, match=r"Did you mean '1\.33x4'"):
        find_sheet("1.3x4")


def test_own_measurements_are_read(tmp_path: Path) -> None:
    sheet = find_sheet(str(written(tmp_path, OWN)))
    assert (sheet.name, sheet.count, sheet.corner(3)) == ("mine", 12, (105.0, 55.0))


def test_every_fault_of_own_measurements_is_told_at_once(tmp_path: Path) -> None:
    text = OWN.replace("width = 90.0", "widht = 90.0").replace("rows = 6", "rows = 0")
    with pytest.raises(InputFault) as fault:
        own_sheet(written(tmp_path, text))
    assert len(fault.value.complaints) == 2
    assert "Did you mean 'width'" in str(fault.value)


def test_labels_that_overlap_or_leave_the_paper_are_refused(tmp_path: Path) -> None:
    text = OWN.replace("pitch_y = 45.0", "pitch_y = 30.0").replace(
        "pitch_x = 95.0", "pitch_x = 125.0"
    )
    with pytest.raises(InputFault) as fault:
        own_sheet(written(tmp_path, text))
    assert "labels overlap" in str(fault.value)
    assert "the labels end 225 mm from the left" in str(fault.value)


def test_a_sheet_without_a_height_is_refused(tmp_path: Path) -> None:
    with pytest.raises(InputFault, match="height is missing"):
        own_sheet(written(tmp_path, OWN.replace("height = 40.0\n", "")))


def test_a_file_that_cannot_be_read_is_told(tmp_path: Path) -> None:
    with pytest.raises(InputFault, match="cannot be read"):
        find_sheet(str(tmp_path / "none.toml"))


def test_measurements_of_a_sheet_without_its_paper_are_refused(tmp_path: Path) -> None:
    with pytest.raises(InputFault, match=r"height is given but no paper; expected paper = "):
        own_sheet(written(tmp_path, "width = 90.0\nheight = 40.0\n"))
    with pytest.raises(InputFault, match=r"height, columns, rows, .* are given but no paper"):
        own_sheet(written(tmp_path, OWN.replace('paper = "a4"\n', "")))


def test_a_roll_of_ones_own_has_a_width_only(tmp_path: Path) -> None:
    assert own_sheet(written(tmp_path, "width = 57.0\n")).paper is None
