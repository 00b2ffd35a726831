"""Label sheets measured in the PDF itself, to 0.1 mm."""

from __future__ import annotations

import pytest
from pdf_reading import page_sizes, rectangles, texts
from sample_plan import container

from batchcook.complaints import InputFault
from batchcook.documents.labels import blank_labels_pdf, label_test_page_pdf, labels_pdf
from batchcook.documents.labelsheets import LabelSheet, load_sheets

TENTH = 0.1

SHEETS = [sheet for sheet in load_sheets().values() if sheet.paper]
ROLLS = [sheet for sheet in load_sheets().values() if not sheet.paper]


def corners(sheet: LabelSheet) -> list[tuple[float, float]]:
    """Worked out from the measurements alone."""
    return [
        (sheet.left + column * sheet.pitch_x, sheet.top + row * sheet.pitch_y)
        for row in range(sheet.rows)
        for column in range(sheet.columns)
    ]


def label_of(sheet: LabelSheet, left: float, top: float) -> int:
    """The number of the label on which a point lies; fails where it lies on none."""
    for number, (x, y) in enumerate(corners(sheet)):
        if x <= left <= x + sheet.width and y <= top <= y + sheet.height:
            return number
    raise AssertionError(f"{left}, {top} is on no label of {sheet.name}")


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.name)
def test_the_test_page_outlines_every_label_within_a_tenth_of_a_millimetre(
    sheet: LabelSheet,
) -> None:
    drawn = [box for box in rectangles(label_test_page_pdf(sheet)) if not box.text]
    outlines = [
        box for box in drawn if abs((box.right - box.left) - sheet.width) < TENTH and box.left > -1
    ]
    for x, y in corners(sheet):
        assert any(
            abs(box.left - x) < TENTH
            and abs(box.top - y) < TENTH
            and abs(box.right - x - sheet.width) < TENTH
            and abs(box.bottom - y - sheet.height) < TENTH
            for box in outlines
        ), f"no outline at {x}, {y}"


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.name)
def test_every_text_lies_on_its_own_label_and_keeps_off_the_edge(sheet: LabelSheet) -> None:
    count = sheet.count + 2
    made = [container(code=f"A{number}", number=number) for number in range(1, count + 1)]
    pdf = labels_pdf(made, sheet)
    found = texts(pdf)
    for box in found:
        number = label_of(sheet, box.left, box.top)
        x, y = corners(sheet)[number]
        assert box.left >= x + 2
        assert box.right <= x + sheet.width - 2
        assert y + 2 <= box.top <= y + sheet.height - 1.5
    codes = [box for box in found if box.text in {each.code for each in made}]
    assert [label_of(sheet, box.left, box.top) for box in codes] == [
        *range(sheet.count),
        0,
        1,
    ]
    assert len(page_sizes(pdf)) == 2


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.name)
def test_labels_repeat_at_the_pitch_of_the_sheet(sheet: LabelSheet) -> None:
    alike = [container() for _ in range(sheet.count)]
    titles = [box for box in texts(labels_pdf(alike, sheet)) if box.text.startswith("Bean")]
    first = titles[0]
    assert abs(first.left - sheet.left - 6.5 / 72 * 25.4) < TENTH
    for box, (x, y) in zip(titles, corners(sheet), strict=True):
        assert abs(box.left - first.left - (x - sheet.left)) < TENTH
        assert abs(box.top - first.top - (y - sheet.top)) < TENTH


def test_the_page_has_the_size_of_its_paper() -> None:
    sheets = load_sheets()
    [letter] = page_sizes(labels_pdf([container()], sheets["2x4"]))
    [a4] = page_sizes(labels_pdf([container()], sheets["99x68"]))
    assert letter == pytest.approx((215.9, 279.4), abs=TENTH)
    assert a4 == pytest.approx((210.0, 297.0), abs=TENTH)


def test_printing_starts_at_the_label_asked_for() -> None:
    sheet = load_sheets()["2x4"]
    found = texts(labels_pdf([container(), container(code="A2")], sheet, start_at=10))
    codes = [(box.page, label_of(sheet, box.left, box.top)) for box in found if box.text[0] == "A"]
    assert (0, 9) in codes
    assert (1, 0) in codes


def test_a_sheet_has_no_label_beyond_its_last() -> None:
    with pytest.raises(InputFault, match="a number from 1 to 10"):
        labels_pdf([container()], load_sheets()["2x4"], start_at=11)


def test_an_offset_moves_everything_by_just_that_much() -> None:
    sheet = load_sheets()["2x4"]
    straight = texts(labels_pdf([container()], sheet))
    moved = texts(labels_pdf([container()], sheet, offset=(1.5, -0.8)))
    assert straight
    for one, other in zip(straight, moved, strict=True):
        assert abs(other.left - one.left - 1.5) < TENTH / 2
        assert abs(other.top - one.top + 0.8) < TENTH / 2


@pytest.mark.parametrize("sheet", ROLLS, ids=lambda sheet: sheet.name)
def test_a_roll_has_a_page_a_label_as_long_as_its_text(sheet: LabelSheet) -> None:
    pdf = labels_pdf([container(), container(finish="", add=())], sheet)
    sizes = page_sizes(pdf)
    assert [width for width, _ in sizes] == pytest.approx([sheet.width] * 2, abs=TENTH)
    assert sizes[1][1] < sizes[0][1]
    for box in texts(pdf):
        assert box.left >= 2
        assert box.right <= sheet.width - 2
        assert box.top <= sizes[box.page][1] - 2


def test_copies_are_printed_one_after_another() -> None:
    found = texts(labels_pdf([container(), container(code="A2")], load_sheets()["2x4"], copies=2))
    assert [box.text for box in found if box.text in {"A1", "A2"}] == ["A1", "A1", "A2", "A2"]


def test_blank_labels_fill_from_the_label_asked_for() -> None:
    sheet = load_sheets()["1x2.625"]
    dishes = [
        box for box in texts(blank_labels_pdf(sheet, 3, start_at=29)) if box.text.strip() == "Dish"
    ]
    assert [(box.page, label_of(sheet, box.left, box.top)) for box in dishes] == [
        (0, 28),
        (0, 29),
        (1, 0),
    ]


def test_a_roll_needs_no_test_page() -> None:
    with pytest.raises(InputFault, match="needs no test page"):
        label_test_page_pdf(load_sheets()["roll-62"])


def test_the_rulers_of_the_test_page_are_100_mm_and_4_inches_long() -> None:
    drawn = rectangles(label_test_page_pdf(load_sheets()["1x2.625"]))
    thin = [box.right - box.left for box in drawn if box.bottom - box.top < TENTH * 3]
    assert sorted(thin) == pytest.approx([100.0, 101.6], abs=TENTH / 2)
