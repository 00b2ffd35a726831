"""``batchcook plan``: from dishes to a plan folder."""

from __future__ import annotations

import sys
from pathlib import Path
from threading import Thread
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from batchcook.cli.dayorder import Options
    from batchcook.day.copying import Kept
    from batchcook.day.prepday import PrepDay
    from batchcook.plan import Plan

__all__ = ["plan"]

NO_ANSWER = 3
"""Exit code: neither a plan nor a proof that there is none, in the time given."""


def plan(
    dishes: Annotated[
        list[str] | None,
        typer.Argument(
            help="A prep-day file, or dishes with their batches as in cottage-pie=2. "
            "With none, you are asked. With --like: what changes, =0 to leave out."
        ),
    ] = None,
    *,
    like: Annotated[
        Path | None, typer.Option(help="A past plan folder to cook again, changed as you say.")
    ] = None,
    out: Annotated[
        Path, typer.Option(help="The plan folder to write; prep-day if not said.")
    ] = Path("prep-day"),
    date: Annotated[str, typer.Option(help="The day, as 2027-01-16; today if not said.")] = "",
    start: Annotated[str, typer.Option(help="When work begins, as 08:00.")] = "",
    finish_by: Annotated[str, typer.Option(help="When all must be done, as 14:30.")] = "",
    kitchen: Annotated[Path | None, typer.Option(help="Your kitchen file.")] = None,
    recipes: Annotated[
        list[Path] | None, typer.Option(help="A folder of your own recipes; may be repeated.")
    ] = None,
    metric: Annotated[
        bool, typer.Option("--metric", help="Grams, litres and degrees Celsius.")
    ] = False,
    what_if: Annotated[
        bool,
        typer.Option(
            "--what-if",
            help="Solve it again with one more and one less of each thing that the day uses "
            "(burner, pot, skillet, slow cooker, pan, board, oven shelf), with a helper, and "
            "without a cook.",
        ),
    ] = False,
    pad: Annotated[
        int, typer.Option(min=0, max=100, help="Plan hands-on work so many percent longer.")
    ] = 0,
    pace: Annotated[
        Path | None,
        typer.Option(help="The file of your own times; what was learned where none is given."),
    ] = None,
    paper: Annotated[str, typer.Option(help="letter or a4.")] = "letter",
    seconds: Annotated[
        float, typer.Option(min=0.1, max=3600, help="How long to search at most.")
    ] = 20.0,
) -> None:
    """Plan a prep day and write its folder: run sheet, labels, shopping list.

    Example: batchcook plan beef-barley-stew=2 cottage-pie=2 --date 2027-01-16 --start 08:00
    """
    from batchcook.cli.dayorder import Options  # noqa: PLC0415 - loads pint

    day = _order(dishes or [], like, Options(date, start, finish_by, kitchen, metric), recipes)
    day = _paced(day, pad, pace)

    from batchcook.cli.datewarning import warn_of_date  # noqa: PLC0415 - only here
    from batchcook.cli.planning_progress import shown  # noqa: PLC0415 - loads rich
    from batchcook.complaints import InputFault  # noqa: PLC0415 - the same
    from batchcook.cookbook import load_cookbook  # noqa: PLC0415 - loads pint
    from batchcook.day.copying import kept  # noqa: PLC0415 - loads pydantic
    from batchcook.day.notes import notes_for, told  # noqa: PLC0415 - the same
    from batchcook.day.solving import Effort, NoAnswer, NoPlan  # noqa: PLC0415 - the same
    from batchcook.documents.pdf import check_paper, warm_up  # noqa: PLC0415 - loads jinja2
    from batchcook.documents.render import NAMES  # noqa: PLC0415 - loads jinja2
    from batchcook.metricwords import metric_fault, metric_words  # noqa: PLC0415 - the same
    from batchcook.planning import plan_day  # noqa: PLC0415 - the same
    from batchcook.plans.dayfolder import KITCHEN_FILE, check_plan_folder  # noqa: PLC0415 - the same

    check_plan_folder(out, (*NAMES, KITCHEN_FILE))
    check_paper(paper)
    # The solver leaves the interpreter idle; loading the printer meanwhile saves a second.
    Thread(target=warm_up, daemon=True).start()
    warn_of_date(day.date, "the prep day", ahead=True)
    cookbook = load_cookbook(recipes or ())
    keep = kept(dishes or [], kitchen, like, out)
    titles = {name: cookbook[name].title for name in day.orders if name in cookbook}
    notes = told(notes_for(keep.notes, titles), titles)
    for note in notes:
        typer.echo(f"Noted last time: {note}")
    try:
        with shown() as progress:
            made = plan_day(day, cookbook, Effort(seconds, progress), what_if=what_if)
    except NoPlan as none:
        told_why = metric_words(str(none)) if day.system == "metric" else str(none)
        typer.echo(f"This day cannot be done. {told_why}".rstrip(), err=True)
        raise typer.Exit(1) from None
    except InputFault as fault:
        raise (metric_fault(fault) if day.system == "metric" else fault) from None
    except NoAnswer:
        typer.echo(
            f"No plan was found in {seconds:g} seconds, and no proof that there is none. "
            "Give it longer with --seconds, or order fewer dishes.",
            err=True,
        )
        raise typer.Exit(NO_ANSWER) from None
    made = made.model_copy(update={"notes": notes, "paper": paper})
    _write(made, keep, out)


def _write(made: Plan, keep: Kept, out: Path) -> None:
    """Write the plan folder and say what is in it."""
    from batchcook.cli.summary import print_summary  # noqa: PLC0415 - loads rich
    from batchcook.documents.render import PdfUnavailable, documents  # noqa: PLC0415 - loads jinja2
    from batchcook.plan import write_plan  # noqa: PLC0415 - loads pydantic
    from batchcook.plans.dayfolder import PLAN_FILE, write_day  # noqa: PLC0415 - the same

    files = dict(keep.files_for(out))
    pdf_missing: PdfUnavailable | None = None
    try:
        files |= documents(made, made.paper)
    except PdfUnavailable as missing:
        files |= missing.without_pdf
        pdf_missing = missing
    files[PLAN_FILE] = write_plan(made).encode()
    aside = write_day(out, files)
    print_summary(made, out, sorted(files))
    if aside is not None:
        typer.echo(f"What was followed of the plan before is set aside, whole, in {aside}.")
    if pdf_missing is not None:
        typer.echo(str(pdf_missing), err=True)
        typer.echo("All else was made; the HTML page prints from any browser.", err=True)


def _paced(day: PrepDay, pad: int, pace: Path | None) -> PrepDay:
    """The day at the household's own pace, and padded.

    Raises:
        InputFault: The file of times that was named is not there, or at fault.
    """
    from dataclasses import replace  # noqa: PLC0415 - only here

    from batchcook.complaints import Complaint, InputFault  # noqa: PLC0415 - only here
    from batchcook.pacing.learning import own_paces, pace_file  # noqa: PLC0415 - loads numpy

    if pace is not None and not pace.exists():
        expected = "a file that 'batchcook pace learn' has written"
        raise InputFault(Complaint(str(pace), "there is no such file", expected))
    paces = own_paces(pace or pace_file()).items()
    return replace(
        day,
        pace={name: round(each.factor, 3) for name, each in paces},
        scatter={name: round(each.scatter, 3) for name, each in paces},
        pad=pad,
    )


def _order(
    words: list[str], like: Path | None, options: Options, recipes: list[Path] | None
) -> PrepDay:
    """The day: of a past one, of the words of the command, or of answers."""
    from batchcook.cli.dayorder import ask_order, read_copy, read_order  # noqa: PLC0415 - pint

    if like is not None:
        return read_copy(like, words, options)
    if words:
        return read_order(words, options)
    if sys.stdin.isatty():
        return ask_order(options, recipes or ())
    typer.echo("Name the dishes, as in cottage-pie=2, or a prep-day file.", err=True)
    raise typer.Exit(1)
