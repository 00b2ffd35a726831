"""The order for a prep day: which dishes, how many batches, when, in whose kitchen."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.day.tonight import Tonight
from batchcook.kitchens.kitchen import Kitchen, default_kitchen, load_kitchen, parse_clock
from batchcook.tomlfiles import parse_toml, read_text
from batchcook.tomlplaces import Places, shape_complaints

__all__ = [
    "MOST_BATCHES",
    "USUAL_START",
    "Busy",
    "PrepDay",
    "load_prep_day",
    "parse_date",
    "parse_orders",
]

USUAL_START = dt.time(8)
"""When a day begins that says nothing of its times."""

MOST_BATCHES = 12
"""More batches of one dish than a home kitchen sees in a day are taken for a slip of the pen."""


@dataclass(frozen=True)
class Busy:
    """So much of something is wanted elsewhere for a while: two burners for lunch."""

    what: str
    amount: int
    start: dt.time
    end: dt.time
    why: str = ""


@dataclass(frozen=True)
class PrepDay:
    """What is to be cooked.

    Attributes:
        date: The day.
        start: When work begins, or None where only the finish is given.
        finish_by: When all must be done, or None.
        orders: Recipe id to batches, in the cook's order.
        system: us or metric.
        tonight: What is eaten of it the same evening, or None.
        pace: Technique to the household's own factor on its hands-on minutes.
        scatter: Technique to how the logarithms of single times scatter about that.
        pad: Percent by which hands-on minutes are planned longer, to be sure of the finish.
    """

    date: dt.date
    start: dt.time | None
    orders: Mapping[str, int]
    kitchen: Kitchen
    finish_by: dt.time | None = None
    busy: tuple[Busy, ...] = ()
    system: str = "us"
    tonight: Tonight | None = None
    pace: Mapping[str, float] = field(default_factory=dict)
    scatter: Mapping[str, float] = field(default_factory=dict)
    pad: int = 0


class _Table(BaseModel):
    model_config = ConfigDict(extra="forbid")


class _BusyTable(_Table):
    what: str
    amount: Annotated[int, Field(ge=1)] = 1
    from_: str = Field(alias="from")
    to: str
    why: str = ""


class _DayTable(_Table):
    date: dt.date
    start: str | None = None
    finish_by: str | None = None
    kitchen: str | None = None
    units: Annotated[str, Field(pattern="^(us|metric)$")] = "us"


class _TonightTable(_Table):
    dish: str
    portions: Annotated[int, Field(ge=1, le=40)]
    at: str


class _PrepDayTable(_Table):
    day: _DayTable
    tonight: _TonightTable | None = None
    dishes: Annotated[dict[str, int], Field(min_length=1)]
    busy: list[_BusyTable] = []


def parse_date(text: str, where: str) -> dt.date:
    """A date written as 2027-01-16.

    Raises:
        InputFault: It is written otherwise.
    """
    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        raise InputFault(Complaint(where, f"{text!r} is no date", "one like 2027-01-16")) from None


def parse_orders(words: list[str], where: str) -> dict[str, int]:
    """Dishes and batches written as ``cottage-pie=2``; a dish alone means one batch.

    Raises:
        InputFault: With every word that cannot be read.
    """
    orders: dict[str, int] = {}
    complaints = []
    for word in words:
        name, _, number = word.partition("=")
        try:
            count = int(number) if number else 1
        except ValueError:
            complaints.append(
                Complaint(
                    where, f"{word!r} has {number!r} batches", "a whole number, as in cottage-pie=2"
                )
            )
            continue
        if name in orders:
            complaints.append(Complaint(where, f"{name!r} stands there twice", "each dish once"))
        orders[name] = count
    complaints += _check_batches(orders, where)
    if complaints:
        raise InputFault(complaints)
    return orders


def load_prep_day(path: Path) -> PrepDay:
    """The prep day in a file; its kitchen file is looked for beside it.

    Raises:
        InputFault: With every fault found in it.
    """
    where = str(path)
    text = read_text(path, "a prep-day file")
    found = parse_toml(text, where)
    try:
        table = _PrepDayTable.model_validate(found)
    except ValidationError as fault:
        raise InputFault(shape_complaints(fault, Places.of(where, text), _PrepDayTable)) from None
    complaints = _check_batches(table.dishes, f"{where}, dishes")
    if complaints:
        raise InputFault(complaints)
    kitchen = table.day.kitchen
    return PrepDay(
        date=table.day.date,
        start=_start(table.day, where),
        finish_by=(
            parse_clock(table.day.finish_by, f"{where}, day.finish_by")
            if table.day.finish_by
            else None
        ),
        orders=table.dishes,
        kitchen=load_kitchen(path.parent / kitchen) if kitchen else default_kitchen(),
        busy=_busy(table.busy, where),
        system=table.day.units,
        tonight=_tonight(table, where),
    )


def _start(table: _DayTable, where: str) -> dt.time | None:
    """The start; a day that says neither when it begins nor when it ends begins as usual."""
    if table.start:
        return parse_clock(table.start, f"{where}, day.start")
    return None if table.finish_by else USUAL_START


def _busy(tables: Sequence[_BusyTable], where: str) -> tuple[Busy, ...]:
    """What is wanted elsewhere, and when.

    Raises:
        InputFault: A time cannot be read, or one ends before it begins.
    """
    found, complaints = [], []
    for number, each in enumerate(tables, 1):
        key = f"{where}, busy[{number}]"
        start, end = parse_clock(each.from_, f"{key}.from"), parse_clock(each.to, f"{key}.to")
        if end <= start:
            complaints.append(Complaint(key, f"ends at {end:%H:%M}, before it begins"))
        found.append(Busy(each.what, each.amount, start, end, each.why))
    if complaints:
        raise InputFault(complaints)
    return tuple(found)


def _tonight(table: _PrepDayTable, where: str) -> Tonight | None:
    """The dinner, of a dish that the day cooks.

    Raises:
        InputFault: It is of none of them.
    """
    if table.tonight is None:
        return None
    dish = table.tonight.dish
    if dish not in table.dishes:
        raise InputFault(
            Complaint(
                f"{where}, tonight.dish",
                f"{dish!r} is not cooked that day",
                "one of " + ", ".join(table.dishes),
                nearest(dish, table.dishes),
            )
        )
    at = parse_clock(table.tonight.at, f"{where}, tonight.at")
    return Tonight(dish, table.tonight.portions, at)


def _check_batches(orders: Mapping[str, int], where: str) -> list[Complaint]:
    return [
        Complaint(where, f"{name} has {count} batches", f"a whole number from 1 to {MOST_BATCHES}")
        for name, count in orders.items()
        if not 1 <= count <= MOST_BATCHES
    ]
