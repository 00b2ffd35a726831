"""Label stock, described by size: the sheets that ship, and a cook's own by measurements.

All lengths are millimetres, as they are measured on the sheet.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from importlib import resources
from pathlib import Path
from typing import Final

from pydantic import BaseModel, ConfigDict, Field

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.documents.pdf import PAPERS, Paper
from batchcook.tomlfiles import parse_toml, read_text
from batchcook.tomlplaces import Places, read_table

__all__ = ["DEFAULT_SHEETS", "LabelSheet", "find_sheet", "load_sheets", "own_sheet"]

DEFAULT_SHEETS: Final[Mapping[str, str]] = {"letter": "2x4", "a4": "99x68"}
"""The sheet that a plan's labels are set on, by paper."""

_OF_A_SHEET: Final = ("height", "columns", "rows", "left", "top", "pitch_x", "pitch_y")

_TOLERANCE: Final = 0.6
"""How far, in millimetres, rounded measurements may seem to leave the paper or overlap."""


class LabelSheet(BaseModel):
    """A sheet of labels, or a roll where ``paper`` is None.

    Attributes:
        name: What the command calls it.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    name: str = ""
    title: str = Field(description="a description by size", min_length=1)
    paper: Paper | None = Field(None, description="letter or a4; none for a roll")
    width: float = Field(description="millimetres, of one label", gt=5, le=300)
    height: float = Field(0.0, description="millimetres, of one label", ge=0, le=300)
    columns: int = Field(1, description="labels across", ge=1, le=20)
    rows: int = Field(1, description="labels down", ge=1, le=60)
    left: float = Field(0.0, description="millimetres, paper edge to first label", ge=0, le=200)
    top: float = Field(0.0, description="millimetres, paper edge to first label", ge=0, le=200)
    pitch_x: float = Field(0.0, description="millimetres, left edge to left edge", ge=0, le=300)
    pitch_y: float = Field(0.0, description="millimetres, top edge to top edge", ge=0, le=300)

    @property
    def count(self) -> int:
        """How many labels a sheet has."""
        return self.columns * self.rows

    @property
    def page(self) -> tuple[float, float]:
        """Width and height of the paper; a roll is its own label."""
        return PAPERS[self.paper] if self.paper else (self.width, self.height)

    def corner(self, number: int) -> tuple[float, float]:
        """Left and top of a label from the paper's edges, counted from 0 along the rows."""
        row, column = divmod(number, self.columns)
        return self.left + column * self.pitch_x, self.top + row * self.pitch_y


@cache
def load_sheets() -> Mapping[str, LabelSheet]:
    """The sheets that ship with the program, by name."""
    text = resources.files("batchcook.data").joinpath("label_sheets.toml").read_text("utf-8")
    entries = parse_toml(text, "label_sheets.toml")
    return {name: LabelSheet(name=name, **entry) for name, entry in entries.items()}


def find_sheet(name: str) -> LabelSheet:
    """The sheet of that name, or the one in a file of measurements.

    Raises:
        InputFault: Neither is found, or the file is at fault.
    """
    sheets = load_sheets()
    if name in sheets:
        return sheets[name]
    if name.endswith(".toml"):
        return own_sheet(Path(name))
    raise InputFault(
        Complaint(
            "--sheet",
            f"unknown label sheet {name!r}",
            f"one of {', '.join(sheets)}, or a .toml file with your own measurements",
            nearest(name, sheets),
        )
    )


def own_sheet(path: Path) -> LabelSheet:
    """A cook's own sheet: the keys of one table of the shipped file, at the top of a file.

    Raises:
        InputFault: The file cannot be read, a measurement is missing or wrong, or the labels
            overlap or leave the paper.
    """
    text = read_text(path, "a TOML file with your sheet's measurements")
    found = parse_toml(text, str(path))
    named = {"title": path.stem, **found, "name": path.stem}
    sheet = read_table(LabelSheet, named, Places.of(str(path), text))
    complaints = [Complaint(str(path), *each) for each in _misfits(sheet)]
    if complaints:
        raise InputFault(complaints)
    return sheet


def _misfits(sheet: LabelSheet) -> list[tuple[str, str]]:
    """What is wrong with the measurements taken together, and what was expected."""
    if sheet.paper is None:
        return _not_of_a_roll(sheet)
    found = []
    if not sheet.height:
        found.append(("height is missing", "the height of one label in millimetres"))
    for across, pitch, size, count in (
        ("pitch_x", sheet.pitch_x, sheet.width, sheet.columns),
        ("pitch_y", sheet.pitch_y, sheet.height, sheet.rows),
    ):
        if count > 1 and pitch < size - _TOLERANCE:
            found.append(
                (f"{across} is {pitch:g} mm, so labels overlap", f"{size:g} mm at the least")
            )
    right, bottom = (
        a + b for a, b in zip(sheet.corner(sheet.count - 1), _size(sheet), strict=True)
    )
    width, height = sheet.page
    if right > width + _TOLERANCE:
        found.append((f"the labels end {right:g} mm from the left", f"at most {width:g} mm"))
    if bottom > height + _TOLERANCE:
        found.append((f"the labels end {bottom:g} mm from the top", f"at most {height:g} mm"))
    return found


def _not_of_a_roll(sheet: LabelSheet) -> list[tuple[str, str]]:
    """What only a sheet on paper has, given without saying which paper."""
    given = [name for name in _OF_A_SHEET if name in sheet.model_fields_set]
    if not given:
        return []
    verb = "is" if len(given) == 1 else "are"
    return [
        (
            f"{', '.join(given)} {verb} given but no paper",
            'paper = "letter" or "a4", or the width alone for a roll',
        )
    ]


def _size(sheet: LabelSheet) -> tuple[float, float]:
    return sheet.width, sheet.height
