"""The order for a prep day from the command line: a file, dishes named, or questions."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TypeVar

import typer

from batchcook.complaints import Complaint, InputFault
from batchcook.cookbook import load_cookbook
from batchcook.cookbooks.recipe import Recipe
from batchcook.day.copying import copied_day
from batchcook.day.prepday import (
    MOST_BATCHES,
    USUAL_START,
    PrepDay,
    load_prep_day,
    parse_date,
    parse_orders,
)
from batchcook.kitchens.kitchen import KitchenCook, default_kitchen, load_kitchen
from batchcook.kitchens.written import parse_clock
from batchcook.wholenumbers import whole_number

__all__ = ["Options", "ask_order", "read_copy", "read_order"]


_T = TypeVar("_T")


@dataclass(frozen=True)
class Options:
    """What the command line said besides the dishes; empty where it said nothing."""

    date: str
    start: str
    finish_by: str
    kitchen: Path | None
    metric: bool


def read_order(words: list[str], options: Options) -> PrepDay:
    """The prep day that the words of the command order; options go before a file's own entries.

    Raises:
        InputFault: With what cannot be read.
    """
    file = Path(words[0])
    if file.suffix == ".toml":
        if len(words) > 1:
            what = f"{len(words) - 1} more words follow the prep-day file"
            raise InputFault(Complaint("dishes", what, "the file alone"))
        return _with_options(load_prep_day(file), options)
    day = PrepDay(
        date=dt.datetime.now().astimezone().date(),
        start=None if options.finish_by and not options.start else USUAL_START,
        orders=parse_orders(words, "dishes"),
        kitchen=default_kitchen() if options.kitchen is None else load_kitchen(options.kitchen),
    )
    return _with_options(day, replace(options, kitchen=None))


def read_copy(folder: Path, words: list[str], options: Options) -> PrepDay:
    """The prep day of a plan folder with the batches that the words change, today if not dated.

    Raises:
        InputFault: With what cannot be read.
    """
    day = replace(copied_day(folder, words), date=dt.datetime.now().astimezone().date())
    if options.finish_by and not options.start:
        day = replace(day, start=None)
    return _with_options(day, options)


def _with_options(day: PrepDay, options: Options) -> PrepDay:
    """The day with what the command line said in place of its own entries.

    Raises:
        InputFault: With every option that cannot be read.
    """
    complaints: list[Complaint] = []

    def said(text: str, read: Callable[[str, str], _T], name: str, otherwise: _T) -> _T:
        try:
            return read(text, name) if text else otherwise
        except InputFault as fault:
            complaints.extend(fault.complaints)
            return otherwise

    changed = replace(
        day,
        date=said(options.date, parse_date, "--date", day.date),
        start=said(options.start, parse_clock, "--start", day.start),
        finish_by=said(options.finish_by, parse_clock, "--finish-by", day.finish_by),
        system="metric" if options.metric else day.system,
    )
    if options.kitchen is not None:
        try:
            changed = replace(changed, kitchen=load_kitchen(options.kitchen))
        except InputFault as fault:
            complaints.extend(fault.complaints)
    if complaints:
        raise InputFault(complaints)
    return changed


def ask_order(options: Options, folders: Iterable[Path]) -> PrepDay:
    """Ask which dishes, how many batches, when, and who cooks.

    Raises:
        InputFault: A kitchen or recipe file is at fault; answers are asked for again instead.
    """
    cookbook = load_cookbook(folders)
    kitchen = default_kitchen() if options.kitchen is None else load_kitchen(options.kitchen)
    names = list(cookbook)
    typer.echo("What shall we cook? These are at hand:")
    for number, name in enumerate(names, 1):
        typer.echo(f"  {number:2}  {cookbook[name].title}")
    orders: dict[str, int] = {}
    while not orders:
        answer = typer.prompt("Numbers, with commas between")
        for word in answer.replace(",", " ").split():
            number = whole_number(word) or 0
            if 1 <= number <= len(names):
                orders[names[number - 1]] = 1
            else:
                typer.echo(f"  {word!r} is not one of 1 to {len(names)}.")
    for name in orders:
        orders[name] = _ask_batches(cookbook[name])
    day = PrepDay(
        date=_ask_date(options.date),
        start=_ask_time(options.start),
        orders=parse_orders([f"{name}={count}" for name, count in orders.items()], "answers"),
        kitchen=replace(kitchen, cooks=_ask_cooks(kitchen.cooks)),
    )
    return _with_options(day, replace(options, kitchen=None, start="", date=""))


def _ask_batches(recipe: Recipe) -> int:
    """How many batches, asked until it is a number that a kitchen sees."""
    while True:
        words = f"How many batches of {recipe.title} (each feeds {recipe.servings})"
        answer = str(typer.prompt(words, default="1")).strip()
        count = whole_number(answer) or 0
        if 1 <= count <= MOST_BATCHES:
            return count
        typer.echo(f"  A whole number from 1 to {MOST_BATCHES}, please.")


def _ask_date(given: str) -> dt.date:
    """The day, asked until it can be read."""
    tomorrow = dt.datetime.now().astimezone().date() + dt.timedelta(days=1)
    while True:
        answer = given or typer.prompt("Which day", default=tomorrow.isoformat())
        try:
            return parse_date(answer, "the day")
        except InputFault as fault:
            typer.echo(f"  {fault}")
            given = ""


def _ask_time(given: str) -> dt.time:
    """The start, asked until it can be read."""
    while True:
        answer = given or typer.prompt("Start at", default="08:00")
        try:
            return parse_clock(answer, "the start")
        except InputFault as fault:
            typer.echo(f"  {fault}")
            given = ""


def _ask_cooks(cooks: tuple[KitchenCook, ...]) -> tuple[KitchenCook, ...]:
    """Those of the kitchen's cooks who are there."""
    there = tuple(cook for cook in cooks if typer.confirm(f"Does {cook.name} cook", default=True))
    if not there:
        typer.echo("  Somebody has to: all of them, then.")
    return there or cooks
