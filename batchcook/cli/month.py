"""``batchcook month``: the month's freezer nights."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from batchcook.cli.freezer_words import (
    AsJson,
    On,
    Store,
    chosen_store,
    day_of,
    json_line,
    right_now,
)

if TYPE_CHECKING:
    from batchcook.freezer.monthplan import MonthPlan

__all__ = ["month"]


def month(
    of: Annotated[str, typer.Argument(metavar="MONTH", help="The month, as 2027-02.")],
    *,
    nights: Annotated[
        str, typer.Option(help="Freezer nights, as tue,thu; those of last time if not said.")
    ] = "",
    people: Annotated[int | None, typer.Option(min=1, max=24, help="People at the table.")] = None,
    table: Annotated[
        list[str] | None,
        typer.Option(help="Another number on one evening, as 2027-02-11=6; may be repeated."),
    ] = None,
    calendar: Annotated[
        list[Path] | None,
        typer.Option(help="The family's calendar, an .ics file; may be repeated."),
    ] = None,
    away: Annotated[
        list[str] | None,
        typer.Option(help="A word in a title that means nobody eats at home; may be repeated."),
    ] = None,
    zone: Annotated[
        str, typer.Option(help="Where you live, as America/Chicago; the computer's if not said.")
    ] = "",
    fix: Annotated[
        list[str] | None,
        typer.Option(help="Settle an evening, as 2027-02-09=A3,A4; may be repeated."),
    ] = None,
    swap: Annotated[
        list[str] | None,
        typer.Option(help="Two evenings change dinners, as 2027-02-09=2027-02-16."),
    ] = None,
    without: Annotated[
        list[str] | None, typer.Option(help="No freezer dinner on this evening.")
    ] = None,
    free: Annotated[
        list[str] | None, typer.Option(help="Choose this settled evening anew.")
    ] = None,
    out: Annotated[
        Path | None, typer.Option(help="The folder to write; month-2027-02 if not said.")
    ] = None,
    paper: Annotated[str, typer.Option(help="letter or a4.")] = "letter",
    store: Store = None,
    on: On = "",
    as_json: AsJson = False,
) -> None:
    """Fill a month's freezer nights from the stock, and write its sheet and calendar.

    Everything within its dates, oldest first, no main ingredient on two freezer nights running.
    Settled evenings and swaps are kept when the month is planned again.

    Example: batchcook month 2027-02 --nights tue,thu --people 4 --calendar family.ics
    """
    from batchcook.documents.pdf import check_paper  # noqa: PLC0415 - only here
    from batchcook.folder import check_folder  # noqa: PLC0415 - the same
    from batchcook.freezer import monthrequest as asked  # noqa: PLC0415 - the same
    from batchcook.freezer.familycalendar import (  # noqa: PLC0415 - the same
        AWAY_WORDS,
        read_family_evenings,
        read_zone,
    )
    from batchcook.freezer.monthplan import plan_month  # noqa: PLC0415 - loads sqlite3

    first = asked.read_month(of)
    folder = out or Path(f"month-{of}")
    check_paper(paper)
    check_folder(folder)
    family = read_family_evenings(
        calendar or (),
        first,
        asked.month_days(first)[-1],
        zone=read_zone(zone),
        away_words=(*AWAY_WORDS, *(away or ())),
    )
    request = asked.MonthRequest(
        first=first,
        weekdays=asked.read_nights(nights) if nights else None,
        people=people,
        table=asked.read_table(table or (), first),
        fix=asked.read_fixes(fix or (), first),
        without=asked.read_dates("--without", without or (), first),
        free=asked.read_dates("--free", free or (), first),
        swaps=asked.read_swaps(swap or (), first),
        crunch=family.crunch,
        away=family.away,
    )
    now = right_now()
    planned = plan_month(chosen_store(store), request, day_of(on), now=now)
    if as_json:
        from batchcook.freezer.monthwords import month_as_data  # noqa: PLC0415 - only here

        json_line(month_as_data(planned))
    else:
        _show(planned)
    _write(planned, folder, paper, quiet=as_json)


def _show(planned: MonthPlan) -> None:
    """The nights as a table, then what is to be known."""
    from rich.table import Table  # noqa: PLC0415 - the same

    from batchcook.cli.console import Console  # noqa: PLC0415 - only where a table is drawn
    from batchcook.freezer.monthwords import month_lines, night_rows  # noqa: PLC0415 - the same

    drawn = Table("evening", "dinner", "containers", "serves", "to the refrigerator", "note")
    for row in night_rows(planned):
        drawn.add_row(*row)
    console = Console(highlight=False)
    console.print(drawn)
    for line in month_lines(planned):
        console.print(line, soft_wrap=True)


def _write(planned: MonthPlan, folder: Path, paper: str, *, quiet: bool) -> None:
    """The folder: the sheet as HTML and PDF, and the calendar."""
    from batchcook.documents.month_sheet import month_files  # noqa: PLC0415 - loads jinja2
    from batchcook.documents.pdf import PdfUnavailable  # noqa: PLC0415 - the same
    from batchcook.folder import write_folder  # noqa: PLC0415 - only here

    missing = ""
    try:
        files = month_files(planned, paper)
    except PdfUnavailable as fault:
        files, missing = fault.without_pdf, str(fault)
    write_folder(folder, files)
    if not quiet:
        typer.echo(f"Written to {folder}: {', '.join(sorted(files))}")
    if missing:
        typer.echo(missing, err=True)
