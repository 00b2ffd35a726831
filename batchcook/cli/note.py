"""``batchcook note``: what to think of when a prep day comes round again."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

__all__ = ["note"]


def note(
    plan: Annotated[Path, typer.Argument(help="The plan folder of the day.")],
    words: Annotated[
        str, typer.Argument(help="What to remember; without it, the notes are shown.")
    ] = "",
    *,
    dish: Annotated[str, typer.Option(help="The dish it is about.")] = "",
    date: Annotated[str, typer.Option(help="When it is written; today if not said.")] = "",
) -> None:
    """Keep a note with a prep day; it comes back when the day is planned again.

    Example: batchcook note prep-day "made 5 tubs, not 6" --dish beef-barley-stew
    """
    import datetime as dt  # noqa: PLC0415 - keeps --help quick

    from batchcook.day.notes import Note, add_note, read_notes, told  # noqa: PLC0415 - pydantic
    from batchcook.day.prepday import parse_date  # noqa: PLC0415 - loads pint
    from batchcook.plan import read_plan  # noqa: PLC0415 - the same

    folder = plan.parent if plan.is_file() else plan
    titles = {each.id: each.title for each in read_plan(folder).dishes}
    if words:
        on = parse_date(date, "--date") if date else dt.datetime.now().astimezone().date()
        notes = add_note(folder, Note(on, words, dish))
    else:
        notes = read_notes(folder)
    for line in told(notes, titles):
        typer.echo(line)
    if not notes:
        typer.echo("No notes.")
