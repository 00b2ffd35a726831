"""How long food keeps: the rows of the cold-storage charts and the dates that follow from them."""

from __future__ import annotations

import calendar
import datetime as dt
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any, Final

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.foodsafety.tables import Source, source, table

__all__ = [
    "Span",
    "StorageDates",
    "StorageRow",
    "add_months",
    "dates",
    "refrigerator_life",
    "rows_for",
    "storage_row",
    "storage_rows",
]

Span = tuple[int, int]
"""A shortest and a longest time."""


@dataclass(frozen=True)
class StorageRow:
    """One row of a cold-storage chart.

    Attributes:
        name: Its name, as recipes and plans give it.
        scope: What it covers, in our words.
        refrigerator_days: Shortest and longest days at 40 degF or below, or None where the chart
            gives none.
        freezer_months: Shortest and longest months at 0 degF (quality only), or None when the
            food is not frozen.
        not_frozen: Why it is not frozen, or an empty string.
        companions: Rows of other charts for the same food.
        companions_of_meat: The same, only for meat other than poultry.
        companions_of_poultry: The same, only for poultry.
        cook_to: For raw food, names of the safe temperatures that it may fall under; else empty.
        large: Whether it is food of several pounds a piece, which thaws for days by its weight.
        source: Where it was published.
        elsewhere: Another publisher's longer or equal months for the same food, with its source.
    """

    name: str
    scope: str
    refrigerator_days: Span | None
    freezer_months: Span | None
    not_frozen: str
    companions: tuple[str, ...]
    companions_of_meat: tuple[str, ...]
    companions_of_poultry: tuple[str, ...]
    source: Source
    elsewhere: tuple[Span, Source] | None = None
    cook_to: tuple[str, ...] = ()
    large: bool = False

    @property
    def raw(self) -> bool:
        """Whether it is food that is still to be cooked."""
        return bool(self.cook_to)


@dataclass(frozen=True)
class StorageDates:
    """The dates that stand on a label.

    Attributes:
        best_by: The short end of the strictest freezer range (a quality date).
        use_by: The long end of the strictest freezer range (a quality date).
        refrigerator_days_after_thaw: Days in the refrigerator once thawed, by the short end of
            the strictest range, less the days spent there before freezing. 0 is: eat it on the
            day on which it is thawed.
        refrigerator_days_after_thaw_at_most: The same by the long end.
    """

    best_by: dt.date
    use_by: dt.date
    refrigerator_days_after_thaw: int
    refrigerator_days_after_thaw_at_most: int


def _span(entry: Mapping[str, Any], key: str) -> Span | None:
    if key not in entry:
        return None
    low, high = entry[key]
    return (int(low), int(high))


def _read_row(name: str, entry: Mapping[str, Any]) -> StorageRow:
    elsewhere = entry.get("elsewhere")
    other = _span(elsewhere, "freezer_months") if elsewhere else None
    return StorageRow(
        name=name,
        scope=entry["scope"],
        refrigerator_days=_span(entry, "refrigerator_days"),
        freezer_months=_span(entry, "freezer_months"),
        not_frozen=entry.get("not_frozen", ""),
        companions=tuple(entry.get("with", ())),
        companions_of_meat=tuple(entry.get("with_meat", ())),
        companions_of_poultry=tuple(entry.get("with_poultry", ())),
        source=source(entry["source"]),
        elsewhere=(other, source(elsewhere["source"])) if elsewhere and other else None,
        cook_to=tuple(entry.get("cook_to", ())),
        large=entry.get("large", False),
    )


@cache
def storage_rows() -> Mapping[str, StorageRow]:
    """Every row of every chart, by name."""
    return {name: _read_row(name, entry) for name, entry in table("cold_storage").items()}


def storage_row(name: str, where: str) -> StorageRow:
    """The row with this name.

    Args:
        name: A row's name.
        where: The place that named it, for the message.

    Raises:
        InputFault: There is no such row; suggests the nearest.
    """
    found = storage_rows().get(name)
    if found is None:
        raise InputFault(_unknown_row(name, where))
    return found


def rows_for(
    names: Iterable[str],
    where: str = "cold-storage rows",
    *,
    poultry: bool | None = None,
) -> tuple[StorageRow, ...]:
    """The named rows together with the rows of every other chart for the same foods.

    Args:
        names: Row names, as a recipe gives them.
        where: The place that gave them, for messages.
        poultry: Whether the meat meant is poultry (True) or other meat (False). None is: not
            known; then a row already named decides, and failing that both charts count, so that
            the stricter stands.

    Returns:
        The rows in the order given, companions after them, each once.

    Raises:
        InputFault: With a complaint for each name that is no row.
    """
    given = list(dict.fromkeys(names))
    unknown = [_unknown_row(name, where) for name in given if name not in storage_rows()]
    if unknown:
        raise InputFault(unknown)
    return _completed([storage_rows()[name] for name in given], poultry=poultry)


def dates(
    rows: Sequence[StorageRow],
    packed_on: dt.date,
    *,
    refrigerated_days_before: int = 0,
) -> StorageDates:
    """The label's dates: of all the charts that apply, the strictest.

    Best-by is the shortest short end and use-by the shortest long end over all rows, in calendar
    months. Rows of other charts for the same food count even when they were not given.

    Args:
        rows: The rows that the dish carries, of :func:`rows_for` or :func:`storage_row`.
        packed_on: The day on which it was made.
        refrigerated_days_before: Days in the refrigerator before it was frozen; they count
            against the days after thawing.

    Raises:
        InputFault: No row was given, a row's food is not frozen, or the food spent longer in the
            refrigerator before freezing than it keeps there.
    """
    carried = _completed(rows)
    faults = [
        Complaint(
            row.name,
            f"cannot be frozen: {row.not_frozen}",
            "a row with freezer months, or the food added on the night",
        )
        for row in carried
        if row.freezer_months is None
    ]
    if not carried:
        faults.append(Complaint("cold-storage rows", "none given", "at least one row"))
    if refrigerated_days_before < 0:
        faults.append(
            Complaint(
                "days before freezing", f"{refrigerated_days_before} is negative", "0 or more"
            )
        )
    if faults:
        raise InputFault(faults)
    life = refrigerator_life(carried)
    if refrigerated_days_before > life[1]:
        raise InputFault(
            Complaint(
                "days before freezing",
                f"{refrigerated_days_before} days in the refrigerator are longer than it keeps",
                f"at most {life[1]} days, then throw out",
            )
        )
    months = [row.freezer_months for row in carried if row.freezer_months is not None]
    short = min(span[0] for span in months)
    long = min(span[1] for span in months)
    return StorageDates(
        best_by=add_months(packed_on, short),
        use_by=add_months(packed_on, long),
        refrigerator_days_after_thaw=max(0, life[0] - refrigerated_days_before),
        refrigerator_days_after_thaw_at_most=life[1] - refrigerated_days_before,
    )


def refrigerator_life(rows: Sequence[StorageRow]) -> Span:
    """Shortest short end and shortest long end in the refrigerator over all rows, in days.

    Args:
        rows: The rows that a dish carries.

    Raises:
        InputFault: No row, nor any companion of one, says how long the food keeps refrigerated.
    """
    spans = [row.refrigerator_days for row in _completed(rows) if row.refrigerator_days]
    if not spans:
        raise InputFault(
            Complaint(
                "cold-storage rows",
                "none of them says how long the food keeps in the refrigerator",
                "a row with refrigerator days",
            )
        )
    return (min(span[0] for span in spans), min(span[1] for span in spans))


def add_months(day: dt.date, months: int) -> dt.date:
    """The same day so many calendar months on, or the last of that month if it is shorter.

    Args:
        day: Where to count from.
        months: How many months on; 0 or more.

    Returns:
        31 January and 1 month, say, give 28 February, or 29 in a leap year.
    """
    years, month = divmod(day.month - 1 + months, 12)
    year = day.year + years
    last = calendar.monthrange(year, month + 1)[1]
    return dt.date(year, month + 1, min(day.day, last))


def _completed(
    rows: Sequence[StorageRow], *, poultry: bool | None = None
) -> tuple[StorageRow, ...]:
    """The rows and, until nothing new appears, their companions."""
    found = {row.name: row for row in rows}
    waiting = list(found.values())
    while waiting:
        row = waiting.pop(0)
        for name in _companions(row, found, poultry):
            if name not in found:
                found[name] = storage_rows()[name]
                waiting.append(found[name])
    return tuple(found.values())


def _companions(
    row: StorageRow, found: Mapping[str, StorageRow], poultry: bool | None
) -> tuple[str, ...]:
    """Companions of one row, given what is already carried and what is known of the meat."""
    either = row.companions_of_meat + row.companions_of_poultry
    if poultry is True:
        return row.companions + row.companions_of_poultry
    if poultry is False:
        return row.companions + row.companions_of_meat
    if any(name in found for name in either):
        return row.companions
    return row.companions + either


def _unknown_row(name: str, where: str) -> Complaint:
    """Names the nearest row, and those that have a word of the name in theirs or in their scope."""
    words = [word for word in re.split(r"[^a-z]+", name.lower()) if len(word) >= _WORD]
    about = [
        row.name
        for row in storage_rows().values()
        if any(word in f"{row.name} {row.scope}".lower() for word in words)
    ]
    such = f", such as {', '.join(about[:_TOLD])}" if about else ""
    return Complaint(
        where,
        f"unknown cold-storage row {name!r}",
        f"a row of the cold-storage charts, as listed by `batchcook safety cold storage`{such}",
        nearest(name, storage_rows()),
    )


_WORD: Final = 4
"""Letters of a word that is worth looking for in the rows."""
_TOLD: Final = 6
"""Rows named at the most where none of them is the one."""
