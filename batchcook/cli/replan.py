"""``batchcook replan``: the rest of the day planned anew."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

__all__ = ["replan"]

NO_ANSWER = 3
"""Exit code: neither a plan nor a proof that there is none, in the time given."""

Marked = Annotated[
    list[str] | None,
    typer.Option(help="A task that is done, by its id, with =HH:MM for when; may be repeated."),
]


def replan(
    plan: Annotated[Path, typer.Argument(help="The plan folder.")],
    *,
    at: Annotated[str, typer.Option(help="What time it is, as 11:20.")],
    done: Marked = None,
    running: Annotated[
        list[str] | None,
        typer.Option(help="A task under way, with =HH:MM for when it began; may be repeated."),
    ] = None,
    without: Annotated[
        list[str] | None,
        typer.Option(help="What is missing from now on: burner=1, or cook=NAME; may be repeated."),
    ] = None,
    drop: Annotated[
        list[str] | None, typer.Option(help="A dish that is given up; may be repeated.")
    ] = None,
    as_planned: Annotated[
        bool, typer.Option("--as-planned", help="What is not marked went as planned until now.")
    ] = False,
    out: Annotated[
        Path | None, typer.Option(help="The folder to write; the plan's own if not said.")
    ] = None,
    paper: Annotated[str, typer.Option(help="letter or a4; as before if not said.")] = "",
    seconds: Annotated[
        float, typer.Option(min=0.1, max=3600, help="How long to search at most.")
    ] = 10.0,
) -> None:
    """Plan the rest of a day anew: what is done stays done, what runs keeps running.

    What was marked in the plan folder counts, and what --done and --running say besides, with
    what comes before it. Where nothing is marked, or with --as-planned, all else went as planned
    until now. Food that is out keeps its clock.

    Example: batchcook replan prep-day --at 11:20 --without burner=1
    """
    from batchcook.cli.planning_progress import shown  # noqa: PLC0415 - loads rich
    from batchcook.cli.replanned import print_changes, print_refusal  # noqa: PLC0415 - the same
    from batchcook.day.solving import Effort, NoAnswer  # noqa: PLC0415 - the same
    from batchcook.documents.render import NAMES, PdfUnavailable  # noqa: PLC0415 - loads jinja2
    from batchcook.plan import read_plan  # noqa: PLC0415 - loads pydantic
    from batchcook.plans.dayfolder import check_plan_folder  # noqa: PLC0415 - the same
    from batchcook.replan.driftwords import Words, drift_of  # noqa: PLC0415 - loads pydantic
    from batchcook.replan.replanfolder import write_replanned  # noqa: PLC0415 - the same
    from batchcook.replan.replanning import NoContinuation  # noqa: PLC0415 - loads pint
    from batchcook.replan.replanning import replan as planned_anew  # noqa: PLC0415 - the same

    before = read_plan(plan)
    folder = plan if plan.is_dir() else plan.parent
    target = out or folder
    check_plan_folder(target, NAMES)
    words = Words(at, done or (), running or (), without or (), drop or (), as_planned)
    drift, marks = drift_of(before, folder, words)
    try:
        with shown() as progress:
            after = planned_anew(before, drift, Effort(seconds, progress))
    except NoContinuation as none:
        print_refusal(none, plan)
        raise typer.Exit(1) from None
    except NoAnswer:
        typer.echo(
            f"No way to go on was found in {seconds:g} seconds, and no proof that there is none. "
            "Give it longer with --seconds, or drop a dish with --drop.",
            err=True,
        )
        raise typer.Exit(NO_ANSWER) from None
    missing: PdfUnavailable | None = None
    try:
        files = write_replanned(folder, target, before, after, marks, paper)
    except PdfUnavailable as fault:
        missing, files = fault, tuple(fault.without_pdf)
    print_changes(after, target, files)
    if missing is not None:
        typer.echo(str(missing), err=True)
