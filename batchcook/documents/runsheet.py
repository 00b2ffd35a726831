"""The run sheet: the day at a glance, the day before, a column for each cook, the morning after."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Final

from batchcook.documents.columns import Column, Entry, columns
from batchcook.documents.dishkeys import dish_keys
from batchcook.documents.environment import render
from batchcook.documents.pdf import check_paper, to_pdf
from batchcook.documents.picture import picture
from batchcook.plan import Plan

__all__ = ["Band", "run_sheet_html", "run_sheet_pdf"]

_BAND: Final = 30
"""Minutes of the day that stand side by side before the columns are brought level again."""

_COLUMNS_A_PAGE: Final = 3
_UPRIGHT: Final = 2
_PICTURE_HEIGHT: Final = 478.0


@dataclass(frozen=True)
class Band:
    """What each cook starts in one stretch of the day."""

    start: datetime
    cells: tuple[tuple[Entry, ...], ...]


def run_sheet_html(plan: Plan) -> str:
    """The run sheet as one page of HTML that needs nothing else."""
    cooks = columns(plan)
    keys = dish_keys(plan.dishes)
    groups = [
        cooks[first : first + _COLUMNS_A_PAGE] for first in range(0, len(cooks), _COLUMNS_A_PAGE)
    ]
    return render(
        "run-sheet.html",
        plan=plan,
        keys=keys,
        picture=picture(plan, cooks, keys, _PICTURE_HEIGHT),
        cooks=cooks,
        groups=[(group, _bands(group)) for group in groups],
        wide=len(cooks) > _UPRIGHT,
        glance=_glance(plan),
    )


def run_sheet_pdf(plan: Plan, paper: str = "letter", *, html: str | None = None) -> bytes:
    """The run sheet as PDF.

    Args:
        plan: The day.
        paper: letter or a4.
        html: The page, where it is made already.

    Raises:
        InputFault: There is no such paper.
        PdfUnavailable: Pango is missing.
    """
    size = check_paper(paper)
    return to_pdf(html or run_sheet_html(plan), size, created=plan.date)


@dataclass(frozen=True)
class _Glance:
    """The day in a few figures, minutes throughout."""

    length: int
    saved: int
    apart: int
    longer_at_most: int


def _glance(plan: Plan) -> _Glance:
    summary = plan.summary
    length = int((plan.finish - plan.start).total_seconds() // 60)
    slack = 0 if summary.proved_shortest else summary.makespan_minutes - summary.best_bound_minutes
    return _Glance(
        length=length,
        saved=max(0, summary.one_after_another_minutes - summary.makespan_minutes),
        apart=summary.one_after_another_minutes,
        longer_at_most=slack,
    )


def _bands(cooks: Sequence[Column]) -> tuple[Band, ...]:
    """The entries of these cooks, level at each half hour."""
    cells: dict[datetime, list[list[Entry]]] = defaultdict(lambda: [[] for _ in cooks])
    for number, column in enumerate(cooks):
        for entry in column.entries:
            at = entry.start.replace(minute=entry.start.minute - entry.start.minute % _BAND)
            cells[at][number].append(entry)
    return tuple(Band(at, tuple(map(tuple, cells[at]))) for at in sorted(cells))
