"""``batchcook suggest``: what to make on the next prep day."""

from __future__ import annotations

import shlex
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from batchcook.cli.freezer_words import (
    AsJson,
    Store,
    chosen_store,
    day_of,
    json_line,
    tell_if_missing,
)

if TYPE_CHECKING:
    from batchcook.suggesting.search import Suggestion

__all__ = ["suggest"]

NIGHTS_OPEN = 4
"""Exit code: some night stays without a dinner."""


def suggest(
    *,
    nights: Annotated[
        str, typer.Option(help="How many freezer nights, as 8, or their weekdays, as tue,thu.")
    ],
    until: Annotated[str, typer.Option(help="The last evening to cover, as 2027-02-28.")],
    people: Annotated[int, typer.Option(min=1, max=24, help="People at the table.")] = 4,
    longest: Annotated[
        str, typer.Option(help="How long the prep day may be, as 6h or 4h30.")
    ] = "6h",
    date: Annotated[str, typer.Option(help="The prep day; today if not said.")] = "",
    start: Annotated[str, typer.Option(help="When it begins, as 08:00.")] = "08:00",
    kitchen: Annotated[Path | None, typer.Option(help="Your kitchen file.")] = None,
    recipes: Annotated[
        list[Path] | None, typer.Option(help="A folder of your own recipes; may be repeated.")
    ] = None,
    seconds: Annotated[
        float, typer.Option(min=1, max=3600, help="How long to look, about.")
    ] = 12.0,
    store: Store = None,
    as_json: AsJson = False,
) -> None:
    """Suggest what to make on the next prep day, so that every freezer night is covered.

    What the freezer holds comes first. For the nights it leaves open, recipes and batches are
    chosen that keep until then, differ, are liked, and fit the freezer and the length of the day;
    the best are really scheduled. Exit code 4: some night stays without a dinner.

    Example: batchcook suggest --nights 8 --until 2027-02-28 --date 2027-01-16 --longest 6h
    """
    from batchcook.cookbook import load_cookbook  # noqa: PLC0415 - loads pint
    from batchcook.freezer.store import read_journal  # noqa: PLC0415 - loads sqlite3
    from batchcook.kitchens.kitchen import default_kitchen, load_kitchen  # noqa: PLC0415 - loads pint
    from batchcook.kitchens.written import parse_clock  # noqa: PLC0415 - the same
    from batchcook.suggesting.request import (  # noqa: PLC0415 - loads pint
        SuggestRequest,
        read_how_many,
        read_length,
    )
    from batchcook.suggesting.search import suggest_day  # noqa: PLC0415 - loads pydantic

    request = SuggestRequest(
        date=day_of(date, "--date"),
        start=parse_clock(start, "--start"),
        nights=read_how_many(nights),
        until=day_of(until, "--until"),
        people=people,
        longest=read_length(longest),
        kitchen=default_kitchen() if kitchen is None else load_kitchen(kitchen),
        seconds=seconds,
    )
    cookbook = load_cookbook(recipes or ())
    place = chosen_store(store)
    tell_if_missing(place)
    journal = read_journal(place)
    with _shown() as told:
        found = suggest_day(request, cookbook, journal, told)
    command = _command(found, kitchen, recipes or ())
    if as_json:
        from batchcook.suggesting.telling import as_data  # noqa: PLC0415 - only here

        json_line(as_data(found, command))
    else:
        _show(found, command)
    if found.uncovered:
        raise typer.Exit(NIGHTS_OPEN)


@contextmanager
def _shown() -> Iterator[Callable[[str], None]]:
    """A line on the terminal that says how the search goes."""
    import time  # noqa: PLC0415 - only here

    from batchcook.cli.console import Console  # noqa: PLC0415 - only where something is drawn

    began = time.monotonic()
    with Console(stderr=True).status("Looking") as status:

        def told(words: str) -> None:
            plain = words.replace("[", r"\[")
            status.update(f"{plain} ({time.monotonic() - began:.0f} s)")

        yield told


def _command(found: Suggestion, kitchen: Path | None, recipes: Sequence[Path]) -> tuple[str, ...]:
    """The words that plan the suggested day; none where nothing is to be made."""
    from batchcook.suggesting.reasons import order_words  # noqa: PLC0415 - only here

    if found.chosen is None:
        return ()
    return (
        "batchcook",
        "plan",
        *order_words(found.chosen.candidate.orders.items()),
        "--date",
        found.request.date.isoformat(),
        "--start",
        f"{found.request.start:%H:%M}",
        *(() if kitchen is None else ("--kitchen", str(kitchen))),
        *(word for folder in recipes for word in ("--recipes", str(folder))),
    )


def _show(found: Suggestion, command: Sequence[str]) -> None:
    """The nights, the dishes with their reasons, what is to be known, and how to go on."""
    from rich.table import Table  # noqa: PLC0415 - the same

    from batchcook.cli.console import Console  # noqa: PLC0415 - only where a table is drawn
    from batchcook.suggesting.telling import (  # noqa: PLC0415 - the same
        day_lines,
        dish_rows,
        night_rows,
    )

    console = Console(highlight=False)
    for heads, rows in (
        (("evening", "dinner", "from"), night_rows(found)),
        (("to make", "batches", "why"), dish_rows(found)),
    ):
        if rows:
            table = Table(*heads)
            for row in rows:
                table.add_row(*row)
            console.print(table)
    for line in day_lines(found):
        console.print(line, soft_wrap=True)
    if command:
        console.print(f"Go on with: {shlex.join(command)}", soft_wrap=True)
