"""What the freezer commands have in common: where the file is, which day, how a list is drawn."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from batchcook.complaints import Complaint, InputFault
from batchcook.dates import in_our_time

if TYPE_CHECKING:
    from batchcook.freezer.changes import Moment
    from batchcook.freezer.standing import Standing
    from batchcook.freezer.stock import Rating, Stored

__all__ = [
    "AsJson",
    "Codes",
    "On",
    "Store",
    "chosen_store",
    "day_of",
    "draw",
    "json_line",
    "moment_of",
    "names",
    "right_now",
    "tell_if_missing",
]

Store = Annotated[Path | None, typer.Option("--store", help="The freezer file; yours if not said.")]
On = Annotated[str, typer.Option("--on", help="The day, as 2027-01-16; today if not said.")]
AsJson = Annotated[bool, typer.Option("--json", help="Print JSON, for a script.")]
Codes = Annotated[list[str], typer.Argument(help="Codes as on the labels, as in A3 B1 C7.")]


def chosen_store(store: Path | None) -> Path:
    """The file named, or the user's own."""
    if store is not None:
        return store
    from batchcook.freezer.store import default_place  # noqa: PLC0415 - loads sqlite3

    return default_place()


def tell_if_missing(place: Path) -> None:
    """Say on standard error that there is no freezer file yet, so that no slip stays unseen."""
    if not place.exists():
        typer.echo(
            f"{place.absolute()}: there is no such freezer file yet; "
            "`batchcook freezer pack` or `add` makes it.",
            err=True,
        )


def right_now() -> dt.datetime:
    """The instant, in the system's own zone."""
    return dt.datetime.now().astimezone()


def day_of(text: str, option: str = "--on") -> dt.date:
    """The day that an option says; today where it is empty.

    Raises:
        InputFault: It is no date.
    """
    if not text:
        return right_now().date()
    try:
        return in_our_time(dt.date.fromisoformat(text))
    except ValueError:
        raise InputFault(
            Complaint(option, f"{text!r} is no date", "a date, as 2027-01-16")
        ) from None


def moment_of(on: str) -> Moment:
    """Now, and the day that ``--on`` says."""
    from batchcook.freezer.changes import Moment  # noqa: PLC0415 - loads sqlite3

    return Moment(right_now(), day_of(on))


def names(containers: Iterable[Stored]) -> str:
    """``A3 Cottage pie, B1 Beef stew``."""
    return ", ".join(f"{each.code} {each.title}" for each in containers)


def json_line(data: object) -> None:
    """Print JSON that a script reads."""
    import json  # noqa: PLC0415 - only here

    typer.echo(json.dumps(data, indent=1, ensure_ascii=False))


def draw(
    listed: Iterable[Standing],
    codes: Mapping[str, str],
    ratings: Mapping[str, Rating],
) -> None:
    """Draw containers as a table, those alike on one line, with what the states mean below."""
    from rich.table import Table  # noqa: PLC0415 - the same

    from batchcook.cli.console import Console  # noqa: PLC0415 - only where a table is drawn
    from batchcook.freezer.containerwords import raw_words  # noqa: PLC0415 - the same
    from batchcook.freezer.standing import WORDS, alike  # noqa: PLC0415 - loads sqlite3
    from batchcook.freezer.tables import state_words  # noqa: PLC0415 - the same
    from batchcook.wording import short_day  # noqa: PLC0415 - only here

    listed = tuple(listed)
    table = Table("codes", "what it is", "serves", "best by", "use by", "state")
    for group in alike(listed):
        stored = group[0].stored
        raw = f", {raw_words(stored)}" if stored.raw else ""
        rating = ratings.get(stored.dish)
        said = f" ({rating.verdict})" if rating and rating.verdict != "keep" else ""
        table.add_row(
            " ".join(codes.get(each.stored.key, each.stored.key) for each in group),
            f"{stored.title}{raw}{said}",
            str(stored.portions),
            short_day(stored.best_by).replace(" ", "\u00a0"),
            short_day(stored.use_by).replace(" ", "\u00a0"),
            state_words(group[0]),
        )
    console = Console(highlight=False)
    console.print(table)
    for state in dict.fromkeys(each.state for each in listed):
        console.print(f"{state}: {WORDS[state]}".replace(" degF", "\u00a0°F"), soft_wrap=True)
