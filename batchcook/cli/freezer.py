"""``batchcook freezer``: what goes in and comes out."""

from __future__ import annotations

import datetime as dt
from enum import Enum
from pathlib import Path
from typing import Annotated

import typer

from batchcook.cli import freezer_views
from batchcook.cli.freezer_words import (
    Codes,
    On,
    Store,
    chosen_store,
    day_of,
    moment_of,
    names,
    right_now,
)

__all__ = ["app", "verdict"]

ThawDays = Annotated[
    int | None, typer.Option(min=0, max=7, help="Days to thaw; 0 if heated from frozen.")
]


class ThawedBy(Enum):
    """How a container thaws."""

    REFRIGERATOR = "refrigerator"
    COLD_WATER = "cold-water"
    MICROWAVE = "microwave"


app = typer.Typer(
    no_args_is_help=True,
    help="What is in the freezer: pack a prep day, take, list, check dates. "
    "Every change is kept with its day and can be undone.",
)


@app.command()
def pack(
    plan: Annotated[Path, typer.Argument(help="A plan folder, or its plan.json.")],
    *,
    made: Annotated[
        list[str] | None,
        typer.Option(help="What really got made, as in cottage-pie=5; may be repeated."),
    ] = None,
    without: Annotated[
        list[str] | None,
        typer.Option(help="A label left over, if it is not the last of its dish; may be repeated."),
    ] = None,
    yes: Annotated[bool, typer.Option("--yes", help="All as planned; ask nothing.")] = False,
    store: Store = None,
    on: On = "",
) -> None:
    """Put a plan's containers into the freezer; asks how many really got made.

    Where a code of the plan is on a container in the freezer already, both stay: the day of packing
    then tells them apart, as in A1@2027-01-16.

    Example: batchcook freezer pack prep-day --made cottage-pie=5
    """
    from batchcook.cli.freezer_asking import ask_made, counts_of  # noqa: PLC0415 - only here
    from batchcook.freezer import changes, packing  # noqa: PLC0415 - loads pydantic
    from batchcook.plan import read_plan  # noqa: PLC0415 - the same
    from batchcook.wording import day  # noqa: PLC0415 - the same

    found = read_plan(plan)
    dishes = packing.dishes_made(found)
    counts = counts_of(made or ())
    if not yes and not without:
        counts |= ask_made([each for each in dishes if each.dish not in counts])
    filled = packing.really_packed(found, counts, without or ())
    moment = moment_of(on or min(found.date, right_now().date()).isoformat())
    details = [packing.details_of(each, found) for each in filled]
    packed = changes.pack(chosen_store(store), details, moment)
    typer.echo(f"In the freezer: {', '.join(packed.codes) or 'nothing'}.")
    if found.date > moment.on:
        typer.echo(
            f"This day is planned for {day(found.date)}, still to come; the dates on its labels "
            "count from then. Packed too early? `batchcook freezer undo` takes it back."
        )
    if packed.relabel:
        anew = ", ".join(f"{code} on {label}" for label, code in packed.relabel.items())
        typer.echo(f"Another dish of that day has these codes; write over the labels: {anew}.")
    if packed.shared:
        typer.echo(
            f"Already on an earlier container: {', '.join(packed.shared)}. Name the day of packing "
            f"with it, as in {packed.shared[0]}@{found.date.isoformat()}."
        )


@app.command()
def add(
    what: Annotated[str, typer.Argument(help="What it is.")],
    *,
    keeps_as: Annotated[
        list[str],
        typer.Option(help="A row of the cold-storage charts, as soup-or-stew; may be repeated."),
    ],
    portions: Annotated[int, typer.Option(min=1, max=99, help="How many each feeds.")],
    count: Annotated[int, typer.Option(min=1, max=99, help="How many alike.")] = 1,
    code: Annotated[str, typer.Option(help="A code of your own; numbered if not said.")] = "",
    main: Annotated[str, typer.Option(help="Its main ingredient, as chicken.")] = "",
    raw: Annotated[
        bool, typer.Option("--raw", help="It is not cooked yet; a row of raw food says so too.")
    ] = False,
    weight: Annotated[
        str, typer.Option(help="What each weighs, as '14 lb'; days to thaw follow from it.")
    ] = "",
    thaw_days: ThawDays = None,
    days_before: Annotated[
        int,
        typer.Option(
            min=0, max=60, help="Days that it was in the refrigerator before it was frozen."
        ),
    ] = 0,
    frozen_on: Annotated[str, typer.Option(help="The day it was frozen, as 2027-01-16.")] = "",
    use_by: Annotated[str, typer.Option(help="The date on its package.")] = "",
    store: Store = None,
    on: On = "",
) -> None:
    """Put in anything else; its dates follow from the cold-storage charts.

    Large pieces (whole birds, roasts, ham) thaw for days, so their weight is asked.

    Example: batchcook freezer add "Minestrone" --keeps-as soup-or-stew --portions 4 --count 2
    """
    from batchcook.freezer import adding, changes  # noqa: PLC0415 - loads sqlite3
    from batchcook.freezer.thawwords import added_words  # noqa: PLC0415 - the same
    from batchcook.wording import short_day  # noqa: PLC0415 - the same

    moment = moment_of(on)
    details = adding.details_of_addition(
        what,
        packed_on=day_of(frozen_on or on, "--frozen-on"),
        rows=keeps_as,
        use_by=day_of(use_by, "--use-by") if use_by else None,
        portions=portions,
        main=main,
        raw=raw,
        thaw_days=thaw_days,
        weight=adding.weight_of(weight),
        days_before=days_before,
    )
    codes = changes.add(chosen_store(store), details, count, moment, code)
    best_by, use_by = (
        short_day(dt.date.fromisoformat(details[name])) for name in ("best_by", "use_by")
    )
    typer.echo(
        f"In the freezer: {', '.join(codes)}. Write on the label: best by {best_by}, "
        f"use by {use_by} (quality dates)."
    )
    typer.echo(added_words(details))


@app.command()
def take(codes: Codes, *, store: Store = None, on: On = "") -> None:
    """Enter what was eaten, all at one go.

    Example: batchcook freezer take A3 B1 C7
    """
    from batchcook.freezer import changes  # noqa: PLC0415 - loads sqlite3

    typer.echo(f"Eaten: {names(changes.take(chosen_store(store), codes, moment_of(on)))}.")


@app.command()
def thaw(
    codes: Codes,
    *,
    by: Annotated[
        ThawedBy, typer.Option(help="How it thaws; in water or a microwave, cook it at once.")
    ] = ThawedBy.REFRIGERATOR,
    store: Store = None,
    on: On = "",
) -> None:
    """Enter what was moved to the refrigerator, and see by when to eat it.

    Example: batchcook freezer thaw A3
    """
    from batchcook.freezer import thawing  # noqa: PLC0415 - loads sqlite3
    from batchcook.freezer.thawwords import thawing_words  # noqa: PLC0415 - the same

    for each in thawing.thaw(chosen_store(store), codes, moment_of(on), by.value):
        typer.echo(thawing_words(each))


@app.command()
def refreeze(codes: Codes, *, store: Store = None, on: On = "") -> None:
    """Enter what thawed in the refrigerator and is frozen again while it keeps.

    The days that it has used are remembered: the next thaw gives only what is left. What thawed in
    cold water or a microwave, or was kept too long, is refused.

    Example: batchcook freezer refreeze A3
    """
    from batchcook.freezer import thawing  # noqa: PLC0415 - loads sqlite3
    from batchcook.freezer.thawwords import refrozen_words  # noqa: PLC0415 - the same

    for each in thawing.refreeze(chosen_store(store), codes, moment_of(on)):
        typer.echo(refrozen_words(each))


@app.command()
def throw(
    codes: Codes,
    *,
    why: Annotated[str, typer.Option(help="Why, in a few words.")],
    store: Store = None,
    on: On = "",
) -> None:
    """Enter what was thrown out, and why.

    Example: batchcook freezer throw B2 --why "lid off, freezer-burnt"
    """
    from batchcook.freezer import changes  # noqa: PLC0415 - loads sqlite3

    thrown = changes.throw(chosen_store(store), codes, why, moment_of(on))
    typer.echo(f"Thrown out: {names(thrown)}.")


@app.command()
def correct(
    code: Annotated[str, typer.Argument(help="The code of the container.")],
    *,
    portions: Annotated[int | None, typer.Option(min=1, max=99, help="How many it feeds.")] = None,
    title: Annotated[str, typer.Option(help="What it is.")] = "",
    main: Annotated[str | None, typer.Option(help="Its main ingredient.")] = None,
    frozen_on: Annotated[
        str, typer.Option(help="The day it was frozen; its dates follow from it.")
    ] = "",
    weight: Annotated[str, typer.Option(help="What it weighs; days to thaw follow from it.")] = "",
    thaw_days: ThawDays = None,
    store: Store = None,
    on: On = "",
) -> None:
    """Set right what stands about a container.

    Example: batchcook freezer correct A3 --portions 3
    """
    from batchcook.freezer import adding, changes  # noqa: PLC0415 - loads sqlite3

    packed_on = day_of(frozen_on, "--frozen-on") if frozen_on else None
    moment = moment_of(on)
    if packed_on is not None:
        moment.check_frozen(packed_on)
    weighs = adding.weight_of(weight)
    before = changes.correct(
        chosen_store(store),
        code,
        lambda stored: adding.corrected_details(
            stored,
            title=title,
            portions=portions,
            packed_on=packed_on,
            main=main,
            thaw_days=thaw_days,
            weight=weighs,
        ),
        moment,
    )
    typer.echo(f"Corrected: {before.code} {before.title}.")


@app.command()
def undo(
    step: Annotated[
        int | None, typer.Argument(help="A step of the history; the latest if not said.")
    ] = None,
    *,
    store: Store = None,
) -> None:
    """Take back the latest change, or the one with this number; an undoing too.

    Example: batchcook freezer undo
    """
    from batchcook.freezer.undoing import undo as undo_step  # noqa: PLC0415 - loads sqlite3

    undone = undo_step(chosen_store(store), step, now=right_now())
    typer.echo(f"Undone: {undone}.")


def verdict(
    dish: Annotated[str, typer.Argument(help="A dish, as in cottage-pie.")],
    said: Annotated[str, typer.Argument(metavar="keep|change|drop", help="What you think of it.")],
    *,
    note: Annotated[str, typer.Option(help="What to change, or why.")] = "",
    store: Store = None,
    on: On = "",
) -> None:
    """Say what the household thinks of a dish; what is dropped is not suggested any more.

    A starter recipe may be dropped before it was ever made.

    Example: batchcook verdict cottage-pie change --note "less salt"
    """
    from batchcook.freezer.verdicts import rate  # noqa: PLC0415 - loads sqlite3

    title = rate(chosen_store(store), dish, said, note, moment_of(on))
    typer.echo(f"{title}: {said}." + (f" {note}" if note else ""))


freezer_views.add_to(app)
