"""The shopping list, and what changed on it, on the screen."""

from __future__ import annotations

import dataclasses
import json as written
from collections.abc import Sequence

import typer
from rich.table import Table

from batchcook.buying.linewords import food_words
from batchcook.buying.purchasechanges import Change
from batchcook.buying.purchases import ShoppingList, keeps_at_home
from batchcook.cli.console import Console
from batchcook.plan import Plan, ShoppingLine

__all__ = ["print_changes", "print_list"]


def print_list(plan: Plan, bought: ShoppingList, *, json: bool) -> None:
    """The list by day and section, or as JSON."""
    if json:
        typer.echo(written.dumps(_as_json(plan, bought), indent=1))
        return
    console = Console()
    now = [line for line in bought.lines if not line.later]
    prep_day = f"{plan.date:%a} {plan.date.day} {plan.date:%b %Y}"
    console.print(f"Shopping list for {prep_day}", style="bold")
    days = sorted({line.buy_from for line in now if line.buy_from})
    for on in (None, *days):
        title = f"not before {on:%a} {on.day} {on:%b}" if on else "any day"
        dated = [line for line in now if line.buy_from == on]
        if dated:
            console.print_table(_table(title, dated, bought.currency))
    later = [line for line in bought.lines if line.later]
    for keeps, title in ((False, "fresh for the nights"), (True, "to have by the nights")):
        lines = [line for line in later if keeps_at_home(line.food) is keeps]
        if lines:
            console.print_table(_table(title, lines, bought.currency))
    if bought.containers:
        packing = Table("to pack in", "needed", "at home", "buy")
        for kind in bought.containers:
            packing.add_row(kind.words, str(kind.count), str(kind.at_hand or ""), str(kind.buy))
        console.print_table(packing)
    if bought.at_home:
        names = ", ".join(f"{food_words(line.food)} ({line.amount})" for line in bought.at_home)
        console.print(f"At home already: {names}.")
    if bought.cost is not None:
        rest = f"; {bought.unpriced} lines have no price" if bought.unpriced else ""
        console.print(f"About {bought.currency}{bought.cost:.2f}{rest}.")


def print_changes(found: Sequence[Change], *, json: bool) -> None:
    """What to do about a list that is being shopped, or as JSON."""
    if json:
        typer.echo(written.dumps([dataclasses.asdict(each) for each in found], indent=1))
        return
    if not found:
        typer.echo("Nothing changes on the list.")
        return
    table = Table("", "food", "by", "so that it is", "it was", "when")
    for each in sorted(found, key=lambda change: _ORDER.index(change.what)):
        night = "on the night" if each.later else each.when
        table.add_row(each.what, food_words(each.food), each.difference, each.now, each.was, night)
    Console().print_table(table)


_ORDER = ("leave out", "buy less", "buy more", "buy")


def _table(title: str, lines: Sequence[ShoppingLine], currency: str) -> Table:
    """Lines by section, without the columns in which nothing stands."""
    columns = {
        "take": [line.purchase or line.amount for line in lines],
        "for": [line.amount.split(" (")[0] if line.purchase else "" for line in lines],
        "at home": [line.on_hand for line in lines],
        "left over": [line.leftover for line in lines],
        f"cost, {currency}": ["" if line.cost is None else f"{line.cost:.2f}" for line in lines],
        "when": [line.when for line in lines],
    }
    filled = {head: column for head, column in columns.items() if any(column)}
    table = Table(title, *filled)
    section = ""
    for line, *cells in zip(lines, *filled.values(), strict=True):
        if line.section != section:
            table.add_row(line.section, style="bold")
            section = line.section
        table.add_row(food_words(line.food), *cells)
    return table


def _as_json(plan: Plan, bought: ShoppingList) -> dict[str, object]:
    return {
        "date": plan.date.isoformat(),
        "buy": [line.model_dump(mode="json") for line in bought.lines],
        "at_home": [line.model_dump(mode="json") for line in bought.at_home],
        "containers": [{**dataclasses.asdict(kind), "buy": kind.buy} for kind in bought.containers],
        "currency": bought.currency,
        "cost": bought.cost,
        "lines_without_price": bought.unpriced,
    }
