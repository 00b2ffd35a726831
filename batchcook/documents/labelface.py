"""The face of a label: every text with its place, in the largest type at which all fits.

Lengths are points from the label's upper left corner; a text's ``y`` is its top. Nothing is
ever clipped: what does not fit in the smallest type is shortened, and where even that does not
help there is no face.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import product
from typing import Final

from batchcook.documents.labelwords import LabelWords, Shortening, label_words
from batchcook.documents.textwidth import text_width, wider, wrap
from batchcook.plan import Container

__all__ = ["Face", "Line", "Text", "blank_face", "face", "roll_face"]

_MARGIN: Final = 6.5
"""Kept free at each edge, since printers are not exact."""

_LARGEST: Final = 11.0
_LEAST: Final = 7.0
"""Nothing is set in smaller type: read at a freezer door without looking for one's glasses. Common
practice, no source."""

_PASSES: Final = (
    (8.0, Shortening.SHORT_WORDS),
    (7.5, Shortening.NO_FINISH),
    (_LEAST, Shortening.FEWEST_WORDS),
)
"""The smallest type to try, and how far to shorten before going smaller still."""

_SHORTEST_LINE: Final = 28.0
"""A line to write on is at least 10 mm long: ``12/3`` in a plain hand."""

_STEP: Final = 0.5
_LEADING: Final = 1.17
_TITLES: Final = (1.5, 1.15, 1.0)
"""How much larger than the rest the dish is set, as far as its words have room."""

_TITLE_LINES: Final = 3
_KEPT: Final = "\u00a0"
_NEVER: Final = 99
_WRITE: Final = 1.7
_ROLL_SIZE: Final = 9.0


@dataclass(frozen=True)
class Text:
    """A text at a place."""

    x: float
    y: float
    size: float
    text: str
    bold: bool = False


@dataclass(frozen=True)
class Line:
    """A line to write on."""

    x: float
    y: float
    width: float


@dataclass(frozen=True)
class Face:
    """All that is on a label, and how high that is."""

    texts: tuple[Text, ...]
    lines: tuple[Line, ...]
    height: float


@dataclass(frozen=True)
class _Row:
    """Texts and lines side by side; places count from the row's upper left corner."""

    height: float
    texts: tuple[Text, ...] = ()
    lines: tuple[Line, ...] = ()


def face(container: Container, width: float, height: float) -> Face | None:
    """The label of a container on stock of this size, or None where it is too small.

    Raises:
        PdfUnavailable: Pango is missing, so that no width is known.
    """
    inner, room = width - 2 * _MARGIN, height - 2 * _MARGIN
    for floor, furthest in _PASSES:
        for cut in Shortening:
            if cut > furthest:
                break
            words = label_words(container, cut)
            # Dates are looked for at the freezer door: side by side in smaller type comes first.
            for beside, (size, largest) in product((True, False), tuple(_sizes(floor))):
                rows = _rows(words, inner, size, largest, beside=beside)
                if rows is not None and sum(row.height for row in rows) <= room:
                    return _stacked(rows, room)
    return None


def _sizes(floor: float) -> Iterator[tuple[float, float]]:
    """Type sizes from the largest down to a floor, and how much larger the dish is set.

    Only where the smallest type does not do is the dish set no larger than the rest.
    """
    steps = round((_LARGEST - floor) / _STEP)
    yield from ((_LARGEST - step * _STEP, _TITLES[0]) for step in range(steps + 1))
    yield from ((floor, each) for each in _TITLES[1:])


def roll_face(container: Container, width: float) -> Face | None:
    """A label as long as its text on a roll of this width, or None where that is too narrow.

    Raises:
        PdfUnavailable: Pango is missing, so that no width is known.
    """
    for cut in (Shortening.NOTHING, Shortening.SHORT_WORDS):
        for size in (_ROLL_SIZE, _PASSES[0][0], _LEAST):
            rows = _rows(label_words(container, cut), width - 2 * _MARGIN, size, roll=True)
            if rows is not None:
                return _stacked(rows, sum(row.height for row in rows))
    return None


def blank_face(width: float, height: float) -> Face:
    """A label to write on by hand."""
    inner, room = width - 2 * _MARGIN, height - 2 * _MARGIN
    captions = (
        ("Dish",),
        ("Packed", "use by"),
        ("Serves", "contains"),
        ("To refrigerator", "eat by"),
    )
    pitch = room / len(captions)
    size = max(_PASSES[-1][0], min(9.0, pitch * 0.5))
    fitting = min(len(captions), max(1, int(room / (size * 1.4))))
    rows = [_written(each, inner, size, room / fitting) for each in captions[:fitting]]
    return _stacked([row for row in rows if row], room)


def _stacked(rows: Sequence[_Row], room: float) -> Face:
    """The rows below each other, what room is left shared out between them."""
    spare = room - sum(row.height for row in rows)
    gap = min(3.0, spare / max(1, len(rows) - 1)) if spare > 0 else 0.0
    texts: list[Text] = []
    lines: list[Line] = []
    y = _MARGIN
    for row in rows:
        texts += [
            Text(round(each.x + _MARGIN, 2), round(each.y + y, 2), each.size, each.text, each.bold)
            for each in row.texts
        ]
        lines += [
            Line(round(each.x + _MARGIN, 2), round(each.y + y, 2), round(each.width, 2))
            for each in row.lines
        ]
        y += row.height + gap
    return Face(tuple(texts), tuple(lines), y)


@lru_cache(maxsize=4096)
def _rows(
    words: LabelWords,
    width: float,
    size: float,
    largest: float = _TITLES[0],
    *,
    roll: bool = False,
    beside: bool = False,
) -> tuple[_Row, ...] | None:
    """Every row at this type size, or None where one cannot be set in the width.

    Where the dates are to stand beside each other, one too wide for that is such a row. On a roll
    the dish may take any number of lines, and a word too long for one goes on in the next.
    """
    scales = [each for each in _TITLES if each <= largest]
    titles = (_title(words, width, size * each, endless=roll) for each in scales)
    title = next((each for each in titles if each is not None), None)
    if title is None and roll:
        title = _title(words, width, size, endless=True, whole_words=False)
    dates = _dates(words, width, size, beside=beside)
    write = _write_lines(words.write, width, size)
    if title is None or dates is None or write is None:
        return None
    rows = [
        *title,
        *_paragraph(words.state, width, size * 1.08, bold=True),
        *_paragraph(words.night, width, size),
        *_paragraph(words.finish, width, size),
        *_paragraph(words.add, width, size),
        *dates,
        *write,
    ]
    return (
        *rows,
        *_paragraph(words.foot, width, max(_LEAST, size * 0.92)),
        *_paragraph(words.small, width, max(_LEAST, size * 0.75)),
    )


def _paragraph(text: str, width: float, size: float, *, bold: bool = False) -> list[_Row]:
    return [
        _Row(size * _LEADING, (Text(0, 0, size, line, bold),))
        for line in wrap(text, width / wider(), size, bold=bold)
    ]


def _title(
    words: LabelWords, width: float, size: float, *, endless: bool, whole_words: bool = True
) -> list[_Row] | None:
    """The dish, with the code at the right of its first line; None where it takes too much."""
    code = text_width(words.code, size, bold=True) * wider()
    room = width - code - size * 0.5
    if room < code:
        return None
    lines = wrap(words.title, room / wider(), size, bold=True)
    if len(lines) > _TITLE_LINES and not endless:
        return None
    if whole_words and any(word not in " ".join(lines) for word in words.title.split()):
        return None
    rows = _paragraph(words.title, room, size, bold=True)
    first = rows[0]
    marked = (*first.texts, Text(width - code, 0, size, words.code, bold=True))
    return [_Row(first.height, marked), *rows[1:]]


def _dates(words: LabelWords, width: float, size: float, *, beside: bool) -> list[_Row] | None:
    """Side by side with their captions above where there is room; else, if they may, as a text."""
    small = max(_LEAST, size * 0.78)
    cell = width / len(words.dates)
    widest = max(
        max(text_width(caption, small), text_width(date, size, bold=True))
        for caption, date in words.dates
    )
    if widest * wider() <= cell - size * 0.4:
        captions = tuple(
            Text(cell * place, 0, small, caption) for place, (caption, _) in enumerate(words.dates)
        )
        dates = tuple(
            Text(cell * place, 0, size, date, bold=True)
            for place, (_, date) in enumerate(words.dates)
        )
        return [_Row(small * 1.1, captions), _Row(size * _LEADING, dates)]
    if beside:
        return None
    lines = min(
        (_joined(words, width, size, whole=whole) for whole in (True, False)),
        key=lambda each: len(each) if each else _NEVER,
    )
    if not lines:
        return None
    return [_Row(size * _LEADING, (Text(0, 0, size, line.rstrip(" ·")),)) for line in lines]


def _joined(words: LabelWords, width: float, size: float, *, whole: bool) -> tuple[str, ...]:
    """The dates as running text; nothing where one is too wide.

    Args:
        words: What the label says.
        width: Of a line, in points.
        size: Of the type.
        whole: Whether a date stays on one line with its caption.
    """
    joined = " · ".join(
        f"{_kept(caption) if whole else caption}{_KEPT if whole else ' '}{_kept(date)}"
        for caption, date in words.dates
    )
    fits = all(text_width(piece, size) * wider() <= width for piece in joined.split(" "))
    return wrap(joined, width / wider(), size) if fits else ()


def _kept(text: str) -> str:
    """The text on one line."""
    return text.replace(" ", _KEPT)


def _write_lines(captions: Sequence[str], width: float, size: float) -> list[_Row] | None:
    """Where it is written when thawing began; nothing for what is never thawed."""
    if not captions:
        return []
    height = size * _WRITE
    one = _written(captions, width, size, height)
    if one is not None:
        return [one]
    two = [_written((caption,), width, size, height) for caption in captions]
    return [row for row in two if row] if all(two) else None


def _written(captions: Sequence[str], width: float, size: float, height: float) -> _Row | None:
    """Captions, each with a line to write on; None where the lines would be too short."""
    spent = [text_width(f"{caption} ", size) * wider() for caption in captions]
    length = (width - sum(spent)) / len(captions)
    if length < _SHORTEST_LINE:
        return None
    base = height - size * 0.25
    texts, lines, x = [], [], 0.0
    for caption, taken in zip(captions, spent, strict=True):
        texts.append(Text(x, base - size, size, caption))
        lines.append(Line(x + taken, base, length - size * 0.3))
        x += taken + length
    return _Row(height, tuple(texts), tuple(lines))
