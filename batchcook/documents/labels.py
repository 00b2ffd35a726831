"""Labels on stock of any size, as PDF; plain black."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.documents.environment import render
from batchcook.documents.labelface import Face, blank_face, face, roll_face
from batchcook.documents.labelsheets import LabelSheet, load_sheets
from batchcook.documents.pdf import to_pdf
from batchcook.plan import Container

__all__ = [
    "Placed",
    "blank_labels_pdf",
    "label_test_page_pdf",
    "labels_pdf",
    "mm_to_points",
    "pick",
]

_BLANKS_MADE: Final = date(2000, 1, 1)
"""Blank labels and test pages belong to no day, and their files must not change with the clock."""

_BLANK_ROLL_MM: Final = 40.0


@dataclass(frozen=True)
class Placed:
    """A face with the place of its upper left corner, in points."""

    x: float
    y: float
    face: Face


@dataclass(frozen=True)
class _Page:
    """One page of labels; lengths in millimetres."""

    width: float
    height: float
    placed: tuple[Placed, ...]


def mm_to_points(length: float) -> float:
    """Millimetres as points, of which an inch has 72."""
    return length / 25.4 * 72


def pick(containers: Sequence[Container], codes: Iterable[str]) -> list[Container]:
    """The containers with these codes, in the order of the codes; all where there are none.

    Raises:
        InputFault: With a complaint for each code that no container has.
    """
    by_code = {each.code.upper(): each for each in containers}
    wanted = [code.upper() for code in codes]
    complaints = [
        Complaint("--only", f"no container {code!r}", _codes(containers), nearest(code, by_code))
        for code in wanted
        if code not in by_code
    ]
    if complaints:
        raise InputFault(complaints)
    return [by_code[code] for code in wanted] or list(containers)


def _codes(containers: Sequence[Container]) -> str:
    """The codes of each dish, from first to last."""
    dishes = dict.fromkeys(each.dish for each in containers)
    spans = []
    for dish in dishes:
        own = [each.code for each in containers if each.dish == dish]
        spans.append(own[0] if len(own) == 1 else f"{own[0]} to {own[-1]}")
    return ", ".join(spans)


def labels_pdf(
    containers: Sequence[Container],
    sheet: LabelSheet,
    *,
    start_at: int = 1,
    offset: tuple[float, float] = (0.0, 0.0),
    copies: int = 1,
) -> bytes:
    """A label for each container.

    Args:
        containers: What is labelled, in order.
        sheet: The stock.
        start_at: The first label to print on, from 1 along the rows, on a part-used sheet.
        offset: Millimetres by which all is moved right and down, to set a printer straight.
        copies: How many of each.

    Raises:
        InputFault: There is no such label on a sheet, or a label is too small for what must be
            on it; proposes stock that is not.
        PdfUnavailable: Pango is missing.
    """
    _check_start(sheet, start_at)
    faces = [_face(container, sheet) for container in containers for _ in range(copies)]
    made = containers[0].packed_on if containers else _BLANKS_MADE
    return _pdf(_pages(faces, sheet, start_at, offset), made)


def blank_labels_pdf(
    sheet: LabelSheet,
    count: int,
    *,
    start_at: int = 1,
    offset: tuple[float, float] = (0.0, 0.0),
) -> bytes:
    """Labels to write on by hand; see :func:`labels_pdf`."""
    _check_start(sheet, start_at)
    height = sheet.height or _BLANK_ROLL_MM
    one = blank_face(mm_to_points(sheet.width), mm_to_points(height))
    return _pdf(_pages([one] * count, sheet, start_at, offset), _BLANKS_MADE)


def label_test_page_pdf(sheet: LabelSheet, *, offset: tuple[float, float] = (0.0, 0.0)) -> bytes:
    """The outlines of every label with crop marks and rulers, to hold against the stock.

    Raises:
        InputFault: The stock is a roll, which needs none.
        PdfUnavailable: Pango is missing.
    """
    if sheet.paper is None:
        raise InputFault(
            Complaint("--test-page", f"{sheet.title} needs no test page", "a sheet of labels")
        )
    corners = [_moved(sheet.corner(number), offset) for number in range(sheet.count)]
    page = render(
        "label-test-page.html", sheet=sheet, corners=corners, offset=offset, page=sheet.page
    )
    return to_pdf(page, None, created=_BLANKS_MADE)


def _check_start(sheet: LabelSheet, start_at: int) -> None:
    if sheet.paper is not None and not 1 <= start_at <= sheet.count:
        raise InputFault(
            Complaint(
                "--start-at",
                f"a sheet has no label {start_at}",
                f"a number from 1 to {sheet.count}",
            )
        )


def _face(container: Container, sheet: LabelSheet) -> Face:
    width = mm_to_points(sheet.width)
    if sheet.paper is None:
        found = roll_face(container, width)
    else:
        found = face(container, width, mm_to_points(sheet.height))
    if found is None:
        raise InputFault(_too_small(container, sheet))
    return found


def _too_small(container: Container, sheet: LabelSheet) -> Complaint:
    """The complaint, with the smallest stock on which this label fits."""
    sheets = sorted(
        (each for each in load_sheets().values() if each.paper),
        key=lambda each: each.width * each.height,
    )
    fits = next(
        (
            each
            for each in sheets
            if face(container, mm_to_points(each.width), mm_to_points(each.height))
        ),
        None,
    )
    size = f"{sheet.width:g} mm wide" + (f" and {sheet.height:g} mm high" if sheet.paper else "")
    return Complaint(
        f"label of {container.code}, {container.title}",
        f"what must be on it does not fit a label {size}",
        f"larger stock, such as {fits.title}" if fits else "a shorter title",
        fits.name if fits else "",
    )


def _pages(
    faces: Sequence[Face], sheet: LabelSheet, start_at: int, offset: tuple[float, float]
) -> Iterator[_Page]:
    """The faces on as many pages as they need."""
    if sheet.paper is None:
        x, y = map(mm_to_points, offset)
        for each in faces:
            length = round(each.height * 25.4 / 72 + 2, 2)
            yield _Page(sheet.width, length, (Placed(x, y, each),))
        return
    places: list[Face | None] = [*[None] * (start_at - 1), *faces]
    for first in range(0, len(places), sheet.count):
        placed = []
        for number, place in enumerate(places[first : first + sheet.count]):
            if place is not None:
                left, top = _moved(sheet.corner(number), offset)
                placed.append(Placed(mm_to_points(left), mm_to_points(top), place))
        yield _Page(*sheet.page, tuple(placed))


def _moved(corner: tuple[float, float], offset: tuple[float, float]) -> tuple[float, float]:
    return corner[0] + offset[0], corner[1] + offset[1]


def _pdf(pages: Iterator[_Page], made: date) -> bytes:
    drawn = list(pages)
    sizes = list(dict.fromkeys((page.width, page.height) for page in drawn))
    html = render("labels.html", pages=drawn, sizes=sizes, points=mm_to_points)
    return to_pdf(html, None, created=made)
