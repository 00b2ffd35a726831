"""What ``replan`` says when it is done, or when it cannot be done."""

from __future__ import annotations

import datetime as dt
import sys
from collections.abc import Sequence
from pathlib import Path

from rich.table import Table

from batchcook.cli.console import Console
from batchcook.documents.dishkeys import dish_keys
from batchcook.pacing.surewords import sure_words, watch_lines
from batchcook.plan import Plan
from batchcook.replan.replanning import NoContinuation

__all__ = ["finish_words", "print_changes", "print_refusal"]


def print_changes(plan: Plan, folder: Path, files: Sequence[str]) -> None:
    """The new finish, what to do with food, and every change in order of time."""
    console = Console()
    told = plan.replanned
    if told is None:
        return
    finish = finish_words(plan.finish, told.finish_before)
    console.print(f"From {told.at:%H:%M} on: {finish}.")
    if plan.sure is not None:
        console.print(f"How sure that is: {sure_words(plan.sure)}.", highlight=False)
        for words in watch_lines(plan.sure):
            console.print(words, highlight=False)
    for words in (*told.late, *told.notes):
        console.print(f"- {words}", highlight=False)
    keys = dish_keys(plan.dishes)
    table = Table("", "dish", "what", "change", title="What changed")
    for change in told.changes:
        letters = " ".join(keys[dish].letter for dish in change.dishes if dish in keys)
        table.add_row(change.kind, letters, change.title, change.words)
    if told.changes:
        console.print_table(table)
    else:
        console.print("Nothing changes: go on as planned.")
    console.print(f"Written to {folder}: {', '.join(files)}")


def finish_words(now: dt.datetime, before: dt.datetime) -> str:
    """When the day is over now, and when it would have been."""
    if now == before:
        return f"done at {now:%H:%M} as before"
    return f"done at {now:%H:%M} instead of {before:%H:%M}"


def print_refusal(none: NoContinuation, folder: Path) -> None:
    """Why it cannot be done, what would help, and what to do with food now."""
    console = Console(file=sys.stderr, highlight=False)
    console.print("The rest of the day cannot be done like this:")
    for words in none.why:
        console.print(f"- {words}")
    for dish in none.without:
        console.print(f"It can be done without {dish}: add --drop {dish}.")
    if none.what_to_do:
        console.print("What to do with food now:")
    for words in none.what_to_do:
        console.print(f"- {words}")
    console.print(f"{folder} is as it was.")
