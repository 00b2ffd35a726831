"""The program's commands, and what happens to faults on the way out."""

from __future__ import annotations

import re
import sys
from types import SimpleNamespace

import typer

from batchcook.cli import freezer, kitchen, pace, recipes
from batchcook.cli.follow import follow
from batchcook.cli.labels import labels
from batchcook.cli.month import month
from batchcook.cli.note import note
from batchcook.cli.plan import NO_ANSWER, plan
from batchcook.cli.replan import replan
from batchcook.cli.safety import safety
from batchcook.cli.shop import shop
from batchcook.cli.suggest import suggest
from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.withheld import Withheld

__all__ = ["app", "run", "usage_words"]

app = typer.Typer(
    name="batchcook",
    help="Plan a freezer-cooking prep day, label what it makes, and eat it in time.",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode="rich",
    pretty_exceptions_enable=False,
)
app.command("plan")(plan)
app.command("follow")(follow)
app.command("replan")(replan)
app.command("labels")(labels)
app.command("shop")(shop)
app.command("note")(note)
app.command("suggest")(suggest)
app.command("safety")(safety)
app.command("month")(month)
app.command("verdict")(freezer.verdict)
app.add_typer(freezer.app, name="freezer")
app.add_typer(recipes.app, name="recipes")
app.add_typer(kitchen.app, name="kitchen")
app.add_typer(pace.app, name="pace")


_UsageError: type[Exception] = typer.BadParameter.__bases__[0]
"""What every slip of the command line is: the class has no public name of its own in typer."""

_MOST_TOLD = 100
"""Faults that are told at once; nobody mends more before trying again."""

_INTERRUPTED = 130
"""Exit code after Ctrl-C; also what the library gives back where it was pressed."""


def usage_words(fault: Exception) -> str:
    """What is wrong with a command line and where its words are told; the help of a bare group."""
    told: str = fault.format_message()  # type: ignore[attr-defined] # a _UsageError has it
    if "Usage:" in told:
        return told
    context = fault.ctx  # type: ignore[attr-defined] # the same
    command = "batchcook" if context is None else context.command_path
    return f"{command}: {_own_words(fault) or told.rstrip('.')}; see {command} --help"


def _own_words(fault: Exception) -> str:
    """What is wrong with a value, as of one in a file; empty where the fault is of another kind."""
    from pydantic import ValidationError  # noqa: PLC0415 - only where something is wrong

    from batchcook.shapewords import fault_words  # noqa: PLC0415 - the same

    if not isinstance(fault.__cause__, ValidationError):
        return ""
    option = getattr(fault, "param", None)
    ends = {"ge": getattr(option, "min", None), "le": getattr(option, "max", None)}
    bounds = SimpleNamespace(**{name: end for name, end in ends.items() if end is not None})
    error = fault.__cause__.errors(include_url=False)[0]
    what, expected = fault_words(error, (bounds,))
    given, *valid = re.findall(r"'([^']*)'", what)  # of a choice it names those there are
    where = "a value" if option is None else option.opts[-1]
    return str(Complaint(where, what.rstrip("."), expected, nearest(given, valid)))


def run() -> None:
    """Run the program; the input's faults go to standard error, with exit code 1.

    So do those of the command line itself, a line each like all others.

    A plan that its checkers reject is withheld, with exit code 3: that fault is the program's own.
    Ctrl-C ends with the exit code that shells expect of it, 130.
    """
    try:
        sys.exit(_called())
    except _UsageError as fault:
        sys.stderr.write(f"{usage_words(fault)}\n")
        sys.exit(1)
    except typer.Abort:
        sys.stderr.write("Stopped; nothing was written.\n")
        sys.exit(1)
    except InputFault as fault:
        for complaint in fault.complaints[:_MOST_TOLD]:
            sys.stderr.write(f"{complaint}\n")
        if len(fault.complaints) > _MOST_TOLD:
            sys.stderr.write(f"And {len(fault.complaints) - _MOST_TOLD} more.\n")
        sys.exit(1)
    except OSError as fault:
        # A path too long, a disk that is full: what is read and written by name says so itself.
        named = f"{fault.filename}: " if fault.filename else ""
        sys.stderr.write(f"{named}{fault.strerror or fault}\n")
        sys.exit(1)
    except Withheld as fault:
        sys.stderr.write(f"{fault.told}\n")
        sys.exit(NO_ANSWER)
    except KeyboardInterrupt:
        sys.stderr.write("\nStopped; no file is half written.\n")
        sys.exit(_INTERRUPTED)


def _called() -> str | int | None:
    """Call the command that was asked for; gives back its exit code.

    Raises:
        KeyboardInterrupt: Ctrl-C was pressed, whatever the libraries made of it.
    """
    try:
        # Not standalone: the library would answer a slip with a box of its own and another code.
        code: str | int | None = app(prog_name="batchcook", standalone_mode=False)
    except ImportError as fault:
        # A compiled library that is broken off while it is loaded says only that it was not.
        if isinstance(fault.__cause__ or fault.__context__, KeyboardInterrupt):
            raise KeyboardInterrupt from None
        raise
    if code == _INTERRUPTED:
        raise KeyboardInterrupt
    return code
