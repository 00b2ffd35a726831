"""The month sheet for the pantry door, and the month's calendar file beside it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from batchcook.documents.environment import render
from batchcook.documents.pdf import PdfUnavailable, check_paper, to_pdf
from batchcook.freezer.containerwords import temperatures
from batchcook.freezer.monthcalendar import month_calendar
from batchcook.freezer.monthplan import Dinner, MonthPlan
from batchcook.freezer.monthrequest import month_days
from batchcook.freezer.monthwords import Move, codes_of, month_lines, moves_of, remarks
from batchcook.freezer.standing import next_date
from batchcook.freezer.stock import Stored
from batchcook.wording import month

__all__ = ["Day", "EatBy", "month_files", "month_sheet_html"]


@dataclass(frozen=True)
class Day:
    """One square of the calendar; a day of another month has no number."""

    number: int | None
    dinner: Dinner | None = None
    codes: str = ""
    remarks: tuple[str, ...] = ()
    moves: tuple[tuple[str, str], ...] = ()
    away: str = ""


@dataclass(frozen=True)
class EatBy:
    """Containers with the same last day that no evening has; thawed ones with what to do."""

    on: dt.date
    codes: str
    title: str
    thawed: str


def month_files(planned: MonthPlan, paper: str) -> Mapping[str, bytes]:
    """File name to content: the sheet as HTML and PDF, and the calendar.

    Args:
        planned: The month.
        paper: letter or a4.

    Raises:
        InputFault: There is no such paper.
        PdfUnavailable: Pango is missing; carries the other files.
    """
    size = check_paper(paper)
    page = month_sheet_html(planned)
    files = {"month-sheet.html": page.encode(), "freezer-nights.ics": month_calendar(planned)}
    try:
        files["month-sheet.pdf"] = to_pdf(page, size, created=planned.now.date())
    except PdfUnavailable:
        raise PdfUnavailable(files) from None
    return files


def month_sheet_html(planned: MonthPlan) -> str:
    """The sheet as one page of HTML that needs nothing else."""
    moves = moves_of(planned)
    return render(
        "month_sheet.html",
        name=month(planned.first),
        today=planned.today,
        weeks=_weeks(planned, moves),
        moves=[(move, codes_of(planned, move.containers)) for move in moves],
        eat_by=_eat_by(planned),
        lines=month_lines(planned),
        hot=temperatures(
            "165 degF", (each for dinner in planned.dinners for each in dinner.containers)
        ),
    )


def _weeks(planned: MonthPlan, moves: Iterable[Move]) -> list[list[Day]]:
    """The month in weeks from Sunday."""
    dinners = {dinner.evening.on: dinner for dinner in planned.dinners}
    squares = [Day(None)] * ((planned.first.weekday() + 1) % 7)
    for on in month_days(planned.first):
        dinner = dinners.get(on)
        squares.append(
            Day(
                number=on.day,
                dinner=dinner,
                codes=codes_of(planned, dinner.containers) if dinner else "",
                remarks=remarks(planned, dinner) if dinner else (),
                moves=tuple(
                    (codes_of(planned, move.containers), move.title)
                    for move in moves
                    if move.on == on
                ),
                away=", ".join(planned.away.get(on, ())),
            )
        )
    squares += [Day(None)] * (-len(squares) % 7)
    return [squares[start : start + 7] for start in range(0, len(squares), 7)]


def _eat_by(planned: MonthPlan) -> list[EatBy]:
    """What has its last day in this month and is on no evening, by date."""
    groups: dict[tuple[dt.date, str, str], list[Stored]] = {}
    for each in planned.use_by:
        thawed = "" if each.eat_by is None else "cook" if each.raw else "eat"
        groups.setdefault((next_date(each), each.title, thawed), []).append(each)
    return [
        EatBy(on, codes_of(planned, containers), title, thawed)
        for (on, title, thawed), containers in sorted(groups.items())
    ]
