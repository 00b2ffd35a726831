"""``batchcook pace``: how long hands-on work really takes in this household."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

__all__ = ["app"]

app = typer.Typer(help="How long hands-on work really takes you.", no_args_is_help=True)

_File = Annotated[
    Path | None, typer.Option("--pace", help="The file of times; your own where none is given.")
]


@app.command()
def learn(
    followed: Annotated[
        list[Path],
        typer.Argument(
            help="A plan folder that was followed, or a file saved from its kitchen screen; or "
            "both, where some was marked here and some there."
        ),
    ],
    *,
    pace: _File = None,
) -> None:
    """Keep the real times of a followed day for the plans to come.

    Example: batchcook pace learn prep-day day-2027-01-16.json
    """
    from batchcook.pacing.followed import followed_times, why_nothing  # noqa: PLC0415 - loads pydantic
    from batchcook.pacing.learning import keep_times, pace_file  # noqa: PLC0415 - the same

    found = followed_times(followed)
    if not found:
        why = why_nothing(followed) or ("no hands-on task was marked begun or done",)
        typer.echo(f"Nothing to learn, so nothing is kept: {'; '.join(why)}.", err=True)
        raise typer.Exit(1)
    keep_times(pace or pace_file(), found)
    typer.echo(f"Kept the times of {len(found)} tasks.")


@app.command()
def show(*, pace: _File = None) -> None:
    """Show each kind of work with its factor, and the times behind it.

    Example: batchcook pace show
    """
    from rich.table import Table  # noqa: PLC0415 - the same

    from batchcook.cli.console import Console  # noqa: PLC0415 - only where a table is drawn
    from batchcook.pacing.learning import pace_file  # noqa: PLC0415 - the same
    from batchcook.pacing.pace import fit_paces, read_observations  # noqa: PLC0415 - loads numpy

    paces = fit_paces(read_observations(pace or pace_file()))
    if not paces:
        typer.echo("No times are kept yet; follow a day, then: batchcook pace learn PLAN")
        return
    table = Table("work", "by the table 10 min are", "times", "last: planned, took")
    for each in paces.values():
        last = ", ".join(f"{one.planned:.0f}: {one.real:.0f}" for one in each.history[-5:])
        table.add_row(each.technique, f"{10 * each.factor:.1f} min", str(len(each.history)), last)
    Console().print_table(table)


@app.command()
def reset(
    work: Annotated[str, typer.Argument(help="A kind of work; all where none is named.")] = "",
    *,
    pace: _File = None,
) -> None:
    """Forget the times of one kind of work, or all.

    Example: batchcook pace reset diced
    """
    from batchcook.complaints import Complaint, InputFault, nearest  # noqa: PLC0415 - only here
    from batchcook.filelock import held  # noqa: PLC0415 - only here
    from batchcook.pacing.learning import pace_file  # noqa: PLC0415 - the same
    from batchcook.pacing.pace import read_observations, without, write_observations  # noqa: PLC0415 - numpy

    file = pace or pace_file()
    with held(file.parent):
        kept = read_observations(file)
        known = sorted({each.technique for each in kept})
        if work and work not in known:
            what = f"no times are kept of {work!r}"
            raise InputFault(Complaint("work", what, ", ".join(known), nearest(work, known)))
        left = without(kept, work or None)
        if kept:
            write_observations(file, left)
    typer.echo(f"Forgot {len(kept) - len(left)} times.")
