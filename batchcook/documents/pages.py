"""The columns cut into pages, all at the same minute: each page is a stretch of the day.

Heights are estimates in points, on the tall side; where one is wrong the page runs over onto the
next and nothing is lost.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from math import ceil
from typing import Final

from batchcook.documents.columns import Column, Entry
from batchcook.documents.textwidth import text_width, wider_if_known, wrap
from batchcook.wording import degrees

__all__ = ["Stretch", "stretches"]

_UPRIGHT: Final = (540.0, 682.0)
_ON_ITS_SIDE: Final = (722.0, 488.0)
"""Width and height of Letter between the margins, less the column's head; what A4 lacks in width it
has in height, upright, and on its side the lesser of both."""

_BESIDE: Final = 85.0
"""Margins of a column, its times and its boxes."""

_DUE_WIDTH: Final = 47.0
_LETTER: Final = 12.5
_GAP: Final = 6.2


@dataclass(frozen=True)
class Stretch:
    """One page: what each cook starts in this stretch of the day."""

    start: datetime
    end: datetime
    cells: tuple[tuple[Entry, ...], ...]


def stretches(columns: Sequence[Column], *, wide: bool) -> tuple[Stretch, ...]:
    """The columns in pages.

    Args:
        columns: The cooks that stand side by side.
        wide: Whether the paper lies on its side.
    """
    width, height = _ON_ITS_SIDE if wide else _UPRIGHT
    room = width / max(1, len(columns)) - _BESIDE
    in_order = sorted(
        ((entry, place) for place, column in enumerate(columns) for entry in column.entries),
        key=lambda each: (each[0].start, each[1]),
    )
    pages: list[list[tuple[Entry, int]]] = []
    filled = [0.0] * len(columns)
    for entry, place in in_order:
        needed = _height(entry, room)
        if not pages or filled[place] + needed > height:
            pages.append([])
            filled = [0.0] * len(columns)
        pages[-1].append((entry, place))
        filled[place] += needed
    return tuple(_stretch(page, len(columns)) for page in pages)


def _stretch(page: Sequence[tuple[Entry, int]], count: int) -> Stretch:
    return Stretch(
        start=page[0][0].start,
        end=max(entry.end for entry, _ in page),
        cells=tuple(
            tuple(entry for entry, place in page if place == column) for column in range(count)
        ),
    )


def _height(entry: Entry, room: float) -> float:
    """How high an entry stands, its gap included."""
    letters = _LETTER * len(entry.dishes)
    title = _lines(entry.title, 11.5, room, letters, bold=True) * 13.8
    parts = sum(
        _lines(f"{part.amount} {part.bowl}, 00:00", 10.5, room, _LETTER) * 13.6 + 1
        for part in entry.parts
    )
    amounts = _lines(" · ".join(entry.amounts), 10.5, room) * 13.6 + 1
    plain = sum(
        _lines(text, 10, room - 7, bold=bold) * 12.9 + 1
        for text, bold in (
            (entry.words, False),
            (entry.bowl and f"Into the {entry.bowl}.", True),
            (entry.saved, False),
            (entry.then, True),
            *((text, False) for text in entry.onward),
        )
        if text
    )
    due = _lines(entry.deadline, 8, _DUE_WIDTH, bold=True) * 9.3 + 9 if entry.deadline else 0
    beside = 18 + 10 + due
    return max(title + parts + amounts + plain, beside) + _GAP


def _lines(text: str, size: float, room: float, indent: float = 0.0, *, bold: bool = False) -> int:
    """How many lines a text takes, something standing before it on the first."""
    if not text:
        return 0
    said = degrees(text)
    lines = len(wrap(said, room / wider_if_known(), size, bold=bold))
    if not indent:
        return lines
    whole = text_width(said, size, bold=bold) * wider_if_known() + indent
    return max(lines, ceil(whole / room))
