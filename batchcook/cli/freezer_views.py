"""``batchcook freezer``: what is in it, told on screen and on paper."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from batchcook.cli.freezer_words import (
    AsJson,
    On,
    Store,
    chosen_store,
    day_of,
    draw,
    json_line,
    tell_if_missing,
)

if TYPE_CHECKING:
    from batchcook.freezer.views import View

__all__ = ["SOMETHING_DUE", "add_to"]

SOMETHING_DUE = 4
"""Exit code of ``check``: there is something to eat soon."""


class Fill(StrEnum):
    """How full the freezer was."""

    FULL = "full"
    HALF = "half"


def add_to(app: typer.Typer) -> None:
    """Add these commands to the group."""
    app.command("list")(list_)
    app.command()(check)
    app.command()(history)
    app.command()(outage)
    app.command()(sheet)


def list_(*, store: Store = None, on: On = "", as_json: AsJson = False) -> None:
    """List everything by its use-by date, with how it stands.

    Example: batchcook freezer list
    """
    from batchcook.freezer.views import view  # noqa: PLC0415 - loads sqlite3

    place = chosen_store(store)
    tell_if_missing(place)
    _show(view(place, day_of(on)), "The freezer is empty.", as_json=as_json)


def check(
    *,
    days: Annotated[int, typer.Option(min=0, max=366, help="How many days ahead to look.")] = 7,
    store: Store = None,
    on: On = "",
    as_json: AsJson = False,
) -> None:
    """Say what is due within some days, for a nightly job.

    Due is what reaches its best-by, use-by or eat-by date in that time, or has passed its use-by.
    Exit code 0: nothing is due. 4: something is. 1: the freezer file is at fault.

    Example: batchcook freezer check --days 3
    """
    from batchcook.freezer.views import view  # noqa: PLC0415 - loads sqlite3

    place = chosen_store(store)
    tell_if_missing(place)
    found = view(place, day_of(on), due_within=days)
    _show(found, f"Nothing is due within {days} days.", as_json=as_json)
    if found.listed:
        raise typer.Exit(SOMETHING_DUE)


def history(
    code: Annotated[str, typer.Argument(help="A code, of now or of long ago.")],
    *,
    store: Store = None,
    as_json: AsJson = False,
) -> None:
    """Show everything that happened to a container; undone steps too.

    Example: batchcook freezer history A3
    """
    from dataclasses import asdict  # noqa: PLC0415 - only here

    from batchcook.freezer.store import read_journal  # noqa: PLC0415 - loads sqlite3
    from batchcook.freezer.undoing import history as happenings  # noqa: PLC0415 - the same

    place = chosen_store(store)
    tell_if_missing(place)
    told = happenings(read_journal(place), code)
    if as_json:
        json_line([asdict(each) for each in told])
        return
    from rich.table import Table  # noqa: PLC0415 - the same

    from batchcook.cli.console import Console  # noqa: PLC0415 - only where a table is drawn

    table = Table("step", "day", "container", "what happened")
    for each in told:
        words = each.words if each.counts else f"{each.words} (undone)"
        table.add_row(str(each.step), each.on, each.key, words)
    Console(highlight=False).print(table)


def outage(
    *,
    hours: Annotated[float, typer.Option(min=0, max=999, help="How long the power was off.")],
    fill: Annotated[Fill, typer.Option(help="How full the freezer was.")] = Fill.HALF,
    opened: Annotated[
        bool, typer.Option("--opened", help="The freezer or refrigerator was opened.")
    ] = False,
    store: Store = None,
    on: On = "",
    as_json: AsJson = False,
) -> None:
    """Say what a power cut means for what is in the freezer and the refrigerator.

    Example: batchcook freezer outage --hours 30 --fill half
    """
    from batchcook.freezer.outage import outage as after_outage  # noqa: PLC0415 - loads sqlite3
    from batchcook.freezer.tables import outage_as_data  # noqa: PLC0415 - the same
    from batchcook.freezer.views import view  # noqa: PLC0415 - the same

    place = chosen_store(store)
    tell_if_missing(place)
    found = view(place, day_of(on))
    short = found.codes
    said = after_outage(found.listed, hours, fill.value, opened=opened)
    if as_json:
        json_line(outage_as_data(said, short))
        return
    for line in said.advice:
        typer.echo(line.replace(" degF", "\u00a0°F"))
    if said.look_at:
        typer.echo("\nTo look at, raw and small ones first:")
    for each in said.look_at:
        raw = "RAW" if each.stored.raw else ""
        told = ", ".join(filter(None, (raw, each.stored.holds)))
        typer.echo(
            f"[ ] {short[each.stored.key]}  {each.stored.title}" + (f" ({told})" if told else "")
        )
    typer.echo()
    for line in said.refrigerator_advice:
        typer.echo(line.replace(" degF", "\u00a0°F"))
    for each in said.in_refrigerator:
        verdict = "can stay" if said.refrigerator_cold else "throw out, unless measured cold"
        if each.state == "throw out":
            verdict = "throw out, it is past its last day"
        typer.echo(f"[ ] {short[each.stored.key]}  {each.stored.title}: {verdict}")
    typer.echo(f"\nSource: {said.source}. Current USDA FSIS guidance stands above this.")


def sheet(
    *,
    out: Annotated[Path, typer.Option(help="The file: .pdf, or .html for any browser.")] = Path(
        "freezer-sheet.pdf"
    ),
    paper: Annotated[str, typer.Option(help="letter or a4.")] = "letter",
    store: Store = None,
    on: On = "",
) -> None:
    """Make the sheet for the freezer door: everything by date, with boxes to tick.

    What was ticked is entered at one go: batchcook freezer take A3 B1 C7

    Example: batchcook freezer sheet --out freezer-sheet.pdf --paper a4
    """
    from batchcook.documents.pdf import PdfUnavailable  # noqa: PLC0415 - only here
    from batchcook.documents.tick_sheet import tick_sheet  # noqa: PLC0415 - loads jinja2
    from batchcook.folder import check_ending, write_file  # noqa: PLC0415 - only here
    from batchcook.freezer.views import view  # noqa: PLC0415 - loads sqlite3

    check_ending(out, ".pdf", ".html")
    today, place = day_of(on), chosen_store(store)
    tell_if_missing(place)
    found = view(place, today)
    try:
        content = tick_sheet(found.stock, today, out.suffix, paper)
    except PdfUnavailable as missing:
        typer.echo(f"{missing}\nWith --out freezer-sheet.html no PDF is needed.", err=True)
        raise typer.Exit(1) from None
    write_file(out, content)
    typer.echo(f"Written: {out}")


def _show(found: View, nothing: str, *, as_json: bool) -> None:
    """What was found as JSON or as a table; a sentence where there is nothing."""
    if as_json:
        from batchcook.freezer.tables import as_data  # noqa: PLC0415 - loads sqlite3

        json_line(as_data(found.listed, found.codes, found.stock.ratings))
    elif found.listed:
        draw(found.listed, found.codes, found.stock.ratings)
    else:
        typer.echo(nothing)
