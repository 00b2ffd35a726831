"""``batchcook safety``: any figure that the program goes by, with its source."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import asdict
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from batchcook.foodsafety.catalogue import Entry

__all__ = ["safety"]


def safety(
    about: Annotated[
        list[str] | None,
        typer.Argument(help="A topic, the name of a row, or words to look for; none lists topics."),
    ] = None,
    *,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON instead of a table.")] = False,
) -> None:
    """Show the food-safety figures that plans and labels go by, each with its source.

    Example: batchcook safety thawing
    """
    from batchcook.foodsafety.catalogue import about as rows_about  # noqa: PLC0415 - quick --help
    from batchcook.foodsafety.catalogue import entries, topics  # noqa: PLC0415 - the same

    wanted = " ".join(about or ())
    if not wanted and not as_json:
        _print_topics(topics(), entries())
        return
    found = rows_about(wanted) if wanted else entries()
    if as_json:
        rows = [{**asdict(each), "checked": each.checked.isoformat()} for each in found]
        typer.echo(json.dumps(rows, indent=1))
        return
    _print_rows(found)


def _print_topics(topics: Sequence[str], rows: Sequence[Entry]) -> None:
    """The headings with how many rows stand under each."""
    from rich.table import Table  # noqa: PLC0415 - the same

    from batchcook.cli.console import Console  # noqa: PLC0415 - keeps --help quick

    table = Table("topic", "rows", title="batchcook safety TOPIC shows them")
    for topic in topics:
        table.add_row(topic, str(sum(row.topic == topic for row in rows)))
    Console().print_table(table)


_NAME = 16
"""Characters of a row's name to a line, where the terminal is narrow."""


def _print_rows(rows: Sequence[Entry]) -> None:
    """The rows, their sources told once each below, by number."""
    from rich.table import Column, Table  # noqa: PLC0415 - the same

    from batchcook.cli.console import Console  # noqa: PLC0415 - keeps --help quick

    sources = list(dict.fromkeys(row.source for row in rows))
    console = Console()
    for topic in dict.fromkeys(row.topic for row in rows):
        # A name is typed as it stands here, so none may be cut short.
        name = Column("name", overflow="fold", min_width=_NAME)
        table = Table(name, "figure", "covers", "source", "checked", title=topic)
        for row in rows:
            if row.topic == topic:
                number = str(sources.index(row.source) + 1)
                table.add_row(row.name, row.figure, row.scope, number, row.checked.isoformat())
        console.print_table(table)
    for place, source in enumerate(sources, 1):
        console.print(f"{place}  {source}")
