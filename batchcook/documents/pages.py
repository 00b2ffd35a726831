"""The columns cut into pages, all at the same minute: each page is a stretch of the day.

Heights are estimates in points, on the tall side; where one is wrong the page runs over onto the
next and nothing is lost. Whoever has less to do gets a narrower column where that saves a page.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Final

from batchcook.documents.columns import Column, Entry
from batchcook.documents.pdf import Paper
from batchcook.documents.textwidth import wider_if_known, wrap
from batchcook.wording import bound, degrees, with_time

__all__ = ["Paged", "Stretch", "paged"]

_ROOM: Final[Mapping[tuple[Paper, bool], tuple[float, float]]] = {
    ("letter", False): (540.0, 682.0),
    ("letter", True): (720.0, 500.0),
    ("a4", False): (523.0, 731.0),
    ("a4", True): (770.0, 484.0),
}
"""Width and height between the margins, less the column's head, upright and on its side."""

_NARROWER: Final = (1.0, 0.94, 0.88, 0.82, 0.76)
"""How wide the column of the cook with the least to read is tried, of an equal share."""

_NARROWEST: Final = 110.0
"""Words need so much room in points: some 22 letters."""

_BESIDE: Final = 85.0
"""Margins of a column, its times and its boxes."""

_DUE_WIDTH: Final = 47.0
_LETTER: Final = "W "
"""As wide as the letter of a dish with the space behind it."""

_GAP: Final = 6.2


@dataclass(frozen=True)
class Stretch:
    """One page: what each cook starts in this stretch of the day."""

    start: datetime
    end: datetime
    cells: tuple[tuple[Entry, ...], ...]


@dataclass(frozen=True)
class Paged:
    """The pages, and the share of their width that each column has."""

    shares: tuple[float, ...]
    stretches: tuple[Stretch, ...]


def paged(columns: Sequence[Column], *, wide: bool, paper: Paper = "letter") -> Paged:
    """The columns in as few pages as their widths can make it.

    Args:
        columns: The cooks that stand side by side.
        wide: Whether the paper lies on its side.
        paper: What it is printed on.
    """
    width, height = _ROOM[paper, wide]
    tried = [
        Paged(shares, _stretches(columns, [width * each - _BESIDE for each in shares], height))
        for shares in _shares(columns, width)
    ]
    return min(tried, key=lambda each: len(each.stretches))


def _shares(columns: Sequence[Column], width: float) -> Iterator[tuple[float, ...]]:
    """Equal shares first, then less and less for whoever has the least to read."""
    equal = 1 / max(1, len(columns))
    least = min(
        range(len(columns)),
        key=lambda place: sum(_height(each, width) for each in columns[place].entries),
        default=0,
    )
    for part in _NARROWER if len(columns) > 1 else _NARROWER[:1]:
        own = equal * part
        if part < 1 and width * own - _BESIDE < _NARROWEST:
            return
        rest = (1 - own) / max(1, len(columns) - 1)
        yield tuple(own if place == least else rest for place in range(len(columns)))


def _stretches(
    columns: Sequence[Column], rooms: Sequence[float], height: float
) -> tuple[Stretch, ...]:
    in_order = sorted(
        ((entry, place) for place, column in enumerate(columns) for entry in column.entries),
        key=lambda each: (each[0].start, each[1]),
    )
    pages: list[list[tuple[Entry, int]]] = []
    filled = [0.0] * len(columns)
    for entry, place in in_order:
        needed = _height(entry, rooms[place])
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
    title = _lines(entry.title, 11.5, room, len(entry.dishes), bold=True) * 13.8
    parts = sum(
        _lines(f"{bound(part.amount)} {part.bowl}, 00:00", 10.5, room, 1, bold=True) * 13.6 + 1
        for part in entry.parts
    )
    amounts = _lines(bound(" · ".join(entry.amounts)), 10.5, room) * 13.6 + 1
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
    due = 0.0
    if entry.deadline:
        before, time, after = with_time(entry.deadline)
        due = sum(_lines(each, 8, _DUE_WIDTH, bold=True) * 9.3 for each in (before, after))
        due += 9 + (13.8 if time else 0)
    beside = 18 + 10 + due
    return max(title + parts + amounts + plain, beside) + _GAP


def _lines(text: str, size: float, room: float, letters: int = 0, *, bold: bool = False) -> int:
    """How many lines a text takes, after the letters of so many dishes."""
    if not text:
        return 0
    said = f"{_LETTER * letters}{degrees(text)}"
    return len(wrap(said, room / wider_if_known(), size, bold=bold))
