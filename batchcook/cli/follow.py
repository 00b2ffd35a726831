"""``batchcook follow``: the day live in the terminal."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

__all__ = ["follow"]


def follow(
    plan: Annotated[Path, typer.Argument(help="The plan folder.")],
    *,
    at: Annotated[
        str, typer.Option(help="Begin as though it were this time, as 08:00; now if not said.")
    ] = "",
    as_planned: Annotated[
        bool, typer.Option("--as-planned", help="Mark all as gone to the minute until now.")
    ] = False,
) -> None:
    """Follow a day live: who is at what, what is next, timers, food clocks.

    Keys: d done, s start now, l five minutes more, n note, u undo, r replan; arrows choose. All
    that is marked is kept in the plan folder at once; open it again and it goes on.

    Example: batchcook follow prep-day
    """
    from batchcook.follow.app import FollowApp  # noqa: PLC0415 - loads Textual, only here
    from batchcook.follow.session import (  # noqa: PLC0415 - loads pydantic
        day_clock,
        mark_as_planned,
        plan_anew,
        room_of,
    )
    from batchcook.plan import read_plan  # noqa: PLC0415 - the same

    if not plan.is_dir():
        typer.echo(f"{plan} is no folder; progress is kept in the plan folder.", err=True)
        raise typer.Exit(1)
    found = read_plan(plan)
    clock = day_clock(found, at)
    if as_planned:
        mark_as_planned(found, plan, clock())
    FollowApp(plan, room_of(found), clock, plan_anew).run()
