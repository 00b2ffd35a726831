"""The sheet for the freezer door: everything in stock by date, with a box for each container."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from batchcook.documents.environment import render
from batchcook.documents.pdf import check_paper, to_pdf
from batchcook.freezer.codes import short_codes
from batchcook.freezer.containerwords import raw_words, temperatures
from batchcook.freezer.standing import Standing, alike, next_date, standings
from batchcook.freezer.stock import Stock
from batchcook.freezer.tables import state_words

__all__ = ["Line", "tick_sheet", "tick_sheet_html"]


@dataclass(frozen=True)
class Line:
    """Containers alike: a box and a code each."""

    title: str
    portions: int
    raw: str
    state: str
    best_by: dt.date
    use_by: dt.date
    thawed: str
    codes: tuple[str, ...]


def tick_sheet(stock: Stock, today: dt.date, suffix: str, paper: str) -> bytes:
    """The sheet as a file.

    Args:
        stock: What there is.
        today: The day of the sheet.
        suffix: ``.pdf`` or ``.html``.
        paper: letter or a4.

    Raises:
        InputFault: No such paper.
        PdfUnavailable: Pango is missing.
    """
    size = check_paper(paper)
    page = tick_sheet_html(stock, today)
    if suffix.lower() == ".html":
        return page.encode()
    return to_pdf(page, size, created=today)


def tick_sheet_html(stock: Stock, today: dt.date) -> str:
    """The sheet as one page of HTML that needs nothing else."""
    listed = standings(stock, today)
    months: dict[tuple[int, int], list[Standing]] = {}
    thawing = [each for each in listed if each.stored.eat_by is not None]
    for each in listed:
        if each.stored.eat_by is None:
            last = next_date(each.stored)
            months.setdefault((last.year, last.month), []).append(each)
    codes = short_codes(stock)
    return render(
        "tick_sheet.html",
        today=today,
        count=len(listed),
        frozen=temperatures("0 degF", stock.here.values()),
        thawing=_lines(thawing, codes),
        months=[(dt.date(*month, 1), _lines(group, codes)) for month, group in months.items()],
    )


def _lines(listed: Iterable[Standing], codes: Mapping[str, str]) -> list[Line]:
    """Containers of the same dish, size and dates on one line."""
    return [
        Line(
            title=group[0].stored.title,
            portions=group[0].stored.portions,
            raw=raw_words(group[0].stored),
            state=group[0].state,
            best_by=group[0].stored.best_by,
            use_by=group[0].stored.use_by,
            thawed=state_words(group[0]) if group[0].stored.eat_by else "",
            codes=tuple(codes[each.stored.key] for each in group),
        )
        for group in alike(listed)
    ]
