"""The order for a prep day: which dishes, how many batches, when, in whose kitchen."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Annotated, Any, Final, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, field_validator, model_validator

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.dates import in_our_time
from batchcook.day.tonight import Tonight
from batchcook.kitchens.kitchen import Kitchen, default_kitchen, load_kitchen
from batchcook.kitchens.written import END_OF_SPAN, TIME_OF_DAY, clock, ends_after
from batchcook.shapewords import own_fault
from batchcook.tomlfiles import parse_toml, read_text
from batchcook.tomlplaces import Places, read_table

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

_BATCHES = f"a whole number from 1 to {MOST_BATCHES}"


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
    from_: Annotated[str, TIME_OF_DAY] = Field(alias="from")
    to: Annotated[str, TIME_OF_DAY, END_OF_SPAN]
    why: str = ""

    @model_validator(mode="after")
    def _in_order(self) -> _BusyTable:
        ends_after(self.from_, self.to)
        return self


class _DayTable(_Table):
    date: dt.date = Field(description="a date such as 2027-01-16")
    start: Annotated[str, TIME_OF_DAY] | None = None
    finish_by: Annotated[str, TIME_OF_DAY] | None = None
    kitchen: str | None = None
    units: Literal["us", "metric"] = "us"

    @field_validator("date")
    @classmethod
    def _in_our_time(cls, date: dt.date) -> dt.date:
        try:
            return in_our_time(date)
        except ValueError:
            raise own_fault(f"{date} is no date to cook on", "one like 2027-01-16") from None


class _TonightTable(_Table):
    dish: str
    portions: Annotated[int, Field(ge=1, le=40)]
    at: Annotated[str, TIME_OF_DAY]


def _in_reason(batches: int) -> int:
    if not 1 <= batches <= MOST_BATCHES:
        raise own_fault(f"{batches} batches", _BATCHES)
    return batches


_A_DISH: Final = "a dish and its batches, as in cottage-pie = 2"


def _some_dish(orders: dict[str, int]) -> dict[str, int]:
    if not orders:
        raise own_fault("no dish is named", _A_DISH)
    return orders


class _PrepDayTable(_Table):
    day: _DayTable = Field(description="[day], with its date, as in date = 2027-01-16")
    tonight: _TonightTable | None = None
    dishes: Annotated[
        dict[str, Annotated[int, AfterValidator(_in_reason)]], AfterValidator(_some_dish)
    ] = Field(description=f"[dishes], with {_A_DISH}")
    busy: list[_BusyTable] = []


def parse_date(text: str, where: str) -> dt.date:
    """A date written as 2027-01-16.

    Raises:
        InputFault: It is written otherwise, or is in no year that anybody cooks in.
    """
    try:
        return in_our_time(dt.date.fromisoformat(text))
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
        name, given, number = word.partition("=")
        try:
            count = int(number) if given else 1
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
    kitchen, faults = _kitchen(found, path)
    places = Places.of(where, text)
    try:
        table = read_table(_PrepDayTable, found, places, *_no_such_dinner(found, places))
    except InputFault as fault:
        raise InputFault([*fault.complaints, *faults]) from None
    if faults:
        raise InputFault(faults)
    day = table.day
    start = USUAL_START if day.finish_by is None else None
    return PrepDay(
        date=day.date,
        start=start if day.start is None else clock(day.start),
        finish_by=None if day.finish_by is None else clock(day.finish_by),
        orders=table.dishes,
        kitchen=kitchen,
        busy=tuple(
            Busy(each.what, each.amount, clock(each.from_), clock(each.to), each.why)
            for each in table.busy
        ),
        system=day.units,
        tonight=_tonight(table.tonight),
    )


def _kitchen(found: Mapping[str, Any], path: Path) -> tuple[Kitchen, Sequence[Complaint]]:
    """The day's kitchen with the faults of its file; the ordinary one where none is named."""
    day = found.get("day")
    named = day.get("kitchen") if isinstance(day, Mapping) else None
    if not isinstance(named, str) or not named:
        return default_kitchen(), ()
    try:
        return load_kitchen(path.parent / named), ()
    except InputFault as fault:
        return default_kitchen(), fault.complaints


def _no_such_dinner(found: Mapping[str, Any], places: Places) -> list[Complaint]:
    """A dinner of a dish that the day does not cook, whatever else is wrong with the file."""
    tonight, dishes = found.get("tonight"), found.get("dishes")
    if not isinstance(tonight, Mapping) or not isinstance(dishes, Mapping):
        return []
    dish = tonight.get("dish")
    if not isinstance(dish, str) or dish in dishes:
        return []
    return [
        Complaint(
            places.at("tonight", "dish"),
            f"{dish!r} is not cooked that day",
            "one of " + ", ".join(dishes),
            nearest(dish, dishes),
        )
    ]


def _tonight(table: _TonightTable | None) -> Tonight | None:
    return None if table is None else Tonight(table.dish, table.portions, clock(table.at))


def _check_batches(orders: Mapping[str, int], where: str) -> list[Complaint]:
    return [
        Complaint(where, f"{name} has {count} batches", _BATCHES)
        for name, count in orders.items()
        if not 1 <= count <= MOST_BATCHES
    ]
