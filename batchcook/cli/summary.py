"""What ``plan`` says when it is done."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from rich.table import Table

from batchcook.cli.console import Console
from batchcook.lengths import hours
from batchcook.pacing.spreads import pad_of
from batchcook.pacing.surewords import often_lost_lines, sure_words, watch_lines
from batchcook.plan import Plan, Summary
from batchcook.wording import change_notes, change_words, day

__all__ = ["apart_words", "hands_on_words", "print_summary"]


def hands_on_words(summary: Summary) -> str:
    """All hands-on minutes of the day, and whether as short a plan could do with less."""
    minutes, bound = summary.hands_on_minutes, summary.hands_on_bound_minutes
    if summary.hands_on_proved:
        return f"{hours(minutes)}, proved: no plan as short has less"
    if bound is None or bound <= 0:
        return f"{hours(minutes)}, not proved"
    return f"{hours(minutes)}, not proved; none as short has less than {hours(bound)}"


def apart_words(summary: Summary) -> str:
    """How long the dishes take one after another, and what that saves."""
    apart = summary.one_after_another_minutes
    if apart is None:
        return "not known: it was not found in the time"
    saved = apart - summary.makespan_minutes
    # One after another waits for no dinner and for nobody who is away; such a day may be longer.
    return f"{hours(apart)}, so {hours(saved) if saved >= 0 else 'nothing'} saved"


def print_summary(plan: Plan, folder: Path, files: Sequence[str]) -> None:
    """Start and finish, hands-on time, what was saved, and how sure it is."""
    console = Console()
    _warn(console, plan)
    summary = plan.summary
    which = "that leaves food time to spare" if summary.food_has_time else "for this kitchen"
    shortest = (
        f"proved: no plan {which} is shorter"
        if summary.proved_shortest
        else f"not proved; none {which} is shorter than {hours(summary.best_bound_minutes)}"
    )
    table = Table(title=day(plan.date), show_header=False)
    table.add_row(
        "start and finish",
        f"{plan.start:%H:%M} to {plan.finish:%H:%M}, {hours(summary.makespan_minutes)}",
    )
    if plan.sure is not None:
        table.add_row("how sure that is", sure_words(plan.sure))
    if pad_of(plan):
        table.add_row("to spare", f"all work by hand is planned {pad_of(plan)} % longer")
    for words in () if plan.sure is None else watch_lines(plan.sure):
        table.add_row("", words)
    table.add_row("shortest", shortest)
    table.add_row("one dish after another", apart_words(summary))
    for cook in plan.cooks:
        minutes = summary.hands_on_by_cook.get(cook.id, 0)
        table.add_row(f"hands-on, {cook.name}", hours(minutes))
    table.add_row("hands-on in all", hands_on_words(summary))
    if summary.sharing_saved_minutes:
        saved = f"{hours(summary.sharing_saved_minutes)} of hands-on time"
        table.add_row("saved by sharing", saved)
    console.print_table(table)
    _print_shared(console, plan)
    if plan.what_if:
        changes = Table("with", "the day is")
        for change in plan.what_if:
            changes.add_row(change.change, change_words(change))
        console.print_table(changes)
        for words in change_notes(plan.what_if):
            console.print(words)
    console.print(f"Written to {folder}: {', '.join(files)}")


def _warn(console: Console, plan: Plan) -> None:
    """What leads all else where food would often be out too long."""
    for line in often_lost_lines(plan):
        console.print(line, style="bold", highlight=False)


def _print_shared(console: Console, plan: Plan) -> None:
    together = [run for run in plan.shared if len({bowl.dish for bowl in run.bowls}) > 1]
    if together:
        shared = Table("done together", "for", "minutes saved")
        for run in together:
            bowls = ", ".join(dict.fromkeys(bowl.name for bowl in run.bowls))
            shared.add_row(run.title, bowls, str(run.minutes_saved))
        console.print_table(shared)
