"""What a freezer can take in a day, and which containers wait in the refrigerator for their turn.

A freezer given more than 2 to 3 pounds of unfrozen food a cubic foot in 24 hours freezes it slowly
and warms what it holds (National Center for Home Food Preservation). The rest waits refrigerated,
at most as long as the food keeps there, and those days count against the days after thawing.
"""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from batchcook.complaints import Complaint, InputFault
from batchcook.foodsafety.limits import FREEZER, limit
from batchcook.quantities import Quantity, ureg

__all__ = ["FreezerItem", "StagedDay", "StagingPlan", "daily_load", "stage_freezing"]

_STEP = 0.25
"""Steps in which a load between the low and the high end is tried, lb a cubic foot: ours."""


@dataclass(frozen=True)
class FreezerItem:
    """Like containers of one dish.

    Attributes:
        dish: The dish.
        containers: How many.
        weight: Food in one.
        thickness: Its smallest edge; thick ones go first.
        space: What one takes up in the freezer.
        refrigerator_days: Days that the dish keeps refrigerated, the short end.
        from_day: Days after the prep day on which it is cold enough at the earliest.
    """

    dish: str
    containers: int
    weight: Quantity
    thickness: Quantity
    space: Quantity
    refrigerator_days: int
    from_day: int = 0


@dataclass(frozen=True)
class StagedDay:
    """What goes into the freezer on one day.

    Attributes:
        day: The day.
        days_waited: Days it has spent in the refrigerator by then.
        containers: Dish to containers.
        weight: All of it, in pounds.
    """

    day: dt.date
    days_waited: int
    containers: Mapping[str, int]
    weight: Quantity


@dataclass(frozen=True)
class StagingPlan:
    """Which containers go into the freezer when.

    Attributes:
        days: Day by day, in order; one day when all goes in at once.
        pounds_per_cubic_foot: The load planned for: 2, or up to 3 where less waits for it.
        words: A sentence for the cook.
    """

    days: tuple[StagedDay, ...]
    pounds_per_cubic_foot: float
    words: str


@dataclass(frozen=True)
class _One:
    """One container."""

    dish: str
    pounds: float
    thickness: float
    first_day: int
    last_day: int


def daily_load(capacity: Quantity) -> Quantity:
    """Pounds of unfrozen food that a freezer takes in 24 hours, by the high end of the range.

    Args:
        capacity: The freezer's whole capacity, a volume.
    """
    load: Quantity = (limit("freezer-loading").quantity * capacity).to("pound")
    return load


def stage_freezing(
    items: Sequence[FreezerItem],
    capacity: Quantity,
    first_day: dt.date,
    *,
    free: Quantity | None = None,
    freezer: Quantity | None = None,
) -> StagingPlan:
    """A dated plan that never overloads the freezer nor lets a dish wait longer than it keeps.

    Shortest-dated first, among equals the thickest. A dish keeps at least a day for after thawing,
    so it waits at most a day less than the short end of its refrigerator life. Of the loads within
    the published range the one is taken with which containers wait the fewest days in all, for
    those days are lost after thawing; the smallest of equals.

    Args:
        items: What is to be frozen.
        capacity: The freezer's whole capacity, a volume.
        first_day: The prep day.
        free: Free space in it, a volume; None is not checked.
        freezer: Its temperature; None is not checked.

    Raises:
        InputFault: The freezer is too warm, too full, or takes too little in a day; says what it
            could take.
    """
    faults = [*_too_warm(freezer), *_too_full(items, free)]
    singles = _singles(items)
    cubic_feet = float(capacity.to("foot ** 3").magnitude)
    ways = [(rate, *_staged(singles, rate * cubic_feet)) for rate in _rates()]
    in_time = [(rate, staged) for rate, staged, left in ways if not left]
    if not in_time:
        rate, _, left = ways[-1]
        faults.append(_too_much(singles, left, rate * cubic_feet))
    if faults:
        raise InputFault(faults)
    rate, staged = min(in_time, key=lambda way: (_days_waited(way[1]), way[0]))
    days = tuple(_day(ones, first_day, waited) for waited, ones in enumerate(staged) if ones)
    return StagingPlan(days, rate, _words(days, rate))


def _rates() -> list[float]:
    """Loads within the published range, lb a cubic foot, the smallest first."""
    rule = limit("freezer-loading")
    low, high = rule.low or 0.0, rule.high or 0.0
    return [low + _STEP * step for step in range(int((high - low) / _STEP + 1e-9) + 1)]


def _days_waited(staged: Sequence[Sequence[_One]]) -> int:
    """Days that all containers wait, added up."""
    return sum(waited * len(ones) for waited, ones in enumerate(staged))


def _singles(items: Sequence[FreezerItem]) -> list[_One]:
    """Every container, in the order in which they go in."""
    singles = [
        _One(
            item.dish,
            float(item.weight.to("pound").magnitude),
            float(item.thickness.to("inch").magnitude),
            item.from_day,
            max(item.from_day, item.refrigerator_days - 1),
        )
        for item in items
        for _ in range(item.containers)
    ]
    return sorted(singles, key=lambda one: (one.last_day, -one.thickness, one.dish))


def _staged(singles: Sequence[_One], pounds: float) -> tuple[list[list[_One]], list[_One]]:
    """Containers day by day, and those for which no day is left."""
    last = max((one.last_day for one in singles), default=0)
    days: list[list[_One]] = [[] for _ in range(last + 1)]
    left = []
    for one in singles:
        for day in days[one.first_day : one.last_day + 1]:
            if sum(other.pounds for other in day) + one.pounds <= pounds + 1e-9:
                day.append(one)
                break
        else:
            left.append(one)
    return days, left


def _day(ones: Sequence[_One], first_day: dt.date, waited: int) -> StagedDay:
    return StagedDay(
        day=first_day + dt.timedelta(days=waited),
        days_waited=waited,
        containers=dict(Counter(one.dish for one in ones)),
        weight=ureg.Quantity(round(sum(one.pounds for one in ones), 2), "pound"),
    )


def _words(days: Sequence[StagedDay], rate: float) -> str:
    if len(days) <= 1:
        return f"All goes into the freezer at once: at most {rate:g} lb a cubic foot."
    return (
        f"The freezer is given {rate:g} lb a cubic foot in 24 hours: the rest waits in the "
        f"refrigerator, the last until {days[-1].day.strftime('%a')} {days[-1].day.day} "
        f"{days[-1].day.strftime('%b %Y')}. Those days count against the days after thawing."
    )


def _too_much(singles: Sequence[_One], left: Sequence[_One], pounds: float) -> Complaint:
    took = Counter(one.dish for one in singles) - Counter(one.dish for one in left)
    could = ", ".join(f"{count} containers of {dish}" for dish, count in sorted(took.items()))
    over = sum(one.pounds for one in left)
    return Complaint(
        "freezer",
        f"it takes {pounds:.0f} lb in 24 hours, and {over:.1f} lb would wait longer than they keep",
        could or "less at a time: no container of these can be frozen in time",
    )


def _too_warm(freezer: Quantity | None) -> list[Complaint]:
    if freezer is None or freezer.to("degF").magnitude <= FREEZER.magnitude:
        return []
    return [
        Complaint(
            "freezer", f"{freezer.to('degF').magnitude:.0f} degF is too warm", "0 degF or below"
        )
    ]


def _too_full(items: Sequence[FreezerItem], free: Quantity | None) -> list[Complaint]:
    if free is None:
        return []
    needed = sum(item.containers * float(item.space.to("foot ** 3").magnitude) for item in items)
    has = float(free.to("foot ** 3").magnitude)
    if needed <= has:
        return []
    count = sum(item.containers for item in items)
    return [
        Complaint(
            "freezer",
            f"the containers take {needed:.1f} cubic feet, {has:.1f} cubic feet are free",
            f"about {int(count * has / needed)} of the {count} containers",
        )
    ]
