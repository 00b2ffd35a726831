"""Reads back, from the PDF itself, where rectangles and texts were put, in millimetres."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from pypdf import PageObject, PdfReader
from pypdf.generic import ContentStream

Matrix = tuple[float, float, float, float, float, float]

MM = 25.4 / 72


@dataclass(frozen=True)
class Box:
    """A place on a page, from its upper left corner, in millimetres."""

    page: int
    left: float
    top: float
    right: float
    bottom: float
    text: str = ""


def rectangles(pdf: bytes) -> list[Box]:
    """Every rectangle that is drawn."""
    return [box for box in _read(pdf) if not box.text]


def texts(pdf: bytes) -> list[Box]:
    """Every line of text, from its base line's left end to its right end."""
    return [box for box in _read(pdf) if box.text]


def page_sizes(pdf: bytes) -> list[tuple[float, float]]:
    """Width and height of each page."""
    return [
        (float(page.mediabox.width) * MM, float(page.mediabox.height) * MM)
        for page in PdfReader(io.BytesIO(pdf)).pages
    ]


def words(pdf: bytes) -> str:
    """All the text, its white space made single."""
    reader = PdfReader(io.BytesIO(pdf))
    return " ".join(" ".join(page.extract_text() for page in reader.pages).split())


def _times(one: Matrix, other: Matrix) -> Matrix:
    """``one`` applied first."""
    a, b, c, d, e, f = one
    g, h, i, j, k, m = other
    return (
        a * g + b * i,
        a * h + b * j,
        c * g + d * i,
        c * h + d * j,
        e * g + f * i + k,
        e * h + f * j + m,
    )


def _read(pdf: bytes) -> Iterator[Box]:
    reader = PdfReader(io.BytesIO(pdf))
    for number, page in enumerate(reader.pages):
        yield from _of_page(reader, page, number)


def _of_page(reader: PdfReader, page: PageObject, number: int) -> Iterator[Box]:
    height = float(page.mediabox.height)
    fonts = _fonts(page)
    now: Matrix = (1, 0, 0, 1, 0, 0)
    line: Matrix = now
    font, size = "", 0.0
    kept: list[Matrix] = []
    content = page.get_contents()
    assert content is not None
    for operands, operator in ContentStream(content, reader).operations:
        match operator:
            case b"q":
                kept.append(now)
            case b"Q":
                now = kept.pop()
            case b"cm":
                now = _times(_matrix(operands), now)
            case b"Tm":
                line = _matrix(operands)
            case b"Tf":
                font, size = str(operands[0]), float(operands[1])
            case b"re":
                x, y, width, tall = (float(each) for each in operands)
                yield _box(number, height, now, (x, y), (x + width, y + tall))
            case b"TJ" | b"Tj":
                text, width = _shown(operands[0], fonts[font])
                end = width * size / 1000
                yield _box(number, height, _times(line, now), (0, 0), (end, 0), text)


def _matrix(operands: Any) -> Matrix:  # noqa: ANN401 - pypdf's numbers have no common type
    a, b, c, d, e, f = (float(each) for each in operands)
    return a, b, c, d, e, f


def _box(
    page: int,
    height: float,
    now: Matrix,
    one: tuple[float, float],
    other: tuple[float, float],
    text: str = "",
) -> Box:
    a, b, c, d, e, f = now
    corners = [(a * x + c * y + e, b * x + d * y + f) for x, y in (one, other)]
    xs = sorted(x * MM for x, _ in corners)
    ys = sorted((height - y) * MM for _, y in corners)
    return Box(page, xs[0], ys[0], xs[1], ys[1], text)


@dataclass(frozen=True)
class _Font:
    widths: dict[int, float]
    letters: dict[int, str]


def _fonts(page: PageObject) -> dict[str, _Font]:
    found = {}
    resources: Any = page["/Resources"]
    for name, font in resources.get("/Font", {}).items():
        descendant = font.get_object()["/DescendantFonts"][0].get_object()
        cmap = font.get_object()["/ToUnicode"].get_object().get_data().decode("latin-1")
        found[name] = _Font(_widths(descendant["/W"]), _letters(cmap))
    return found


def _widths(listed: Any) -> dict[int, float]:  # noqa: ANN401 - a PDF array of mixed things
    widths: dict[int, float] = {}
    entries = list(listed)
    while entries:
        first, following = int(entries.pop(0)), entries.pop(0).get_object()
        if isinstance(following, list):
            widths |= {first + place: float(each) for place, each in enumerate(following)}
        else:
            width = float(entries.pop(0))
            widths |= dict.fromkeys(range(first, int(following) + 1), width)
    return widths


def _letters(cmap: str) -> dict[int, str]:
    letters = {}
    for glyph, meant in re.findall(r"^<([0-9a-fA-F]{4})> <([0-9a-fA-F]+)>$", cmap, re.MULTILINE):
        letters[int(glyph, 16)] = bytes.fromhex(meant).decode("utf-16-be")
    return letters


def _shown(pieces: Any, font: _Font) -> tuple[str, float]:  # noqa: ANN401 - strings and numbers
    text, width = "", 0.0
    for piece in pieces if isinstance(pieces, list) else [pieces]:
        if isinstance(piece, (int, float)):
            width -= float(piece)
            continue
        raw = piece if isinstance(piece, bytes) else piece.original_bytes
        for place in range(0, len(raw), 2):
            glyph = int.from_bytes(raw[place : place + 2], "big")
            text += font.letters[glyph]
            width += font.widths[glyph]
    return text, width
