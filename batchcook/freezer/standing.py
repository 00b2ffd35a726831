"""How each container stands today, and what is due.

Best by and use by are quality dates: what is past them is safe while it stays frozen, and is
never called something to throw out. The safety clock starts when a container is moved to the
refrigerator, and only past *its* end the words are: throw out. The charts give days from a short
to a long end: plans go by the short one, and from there to the long one it is to be eaten today.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final, Literal

from batchcook.freezer.stock import Stock, Stored

__all__ = ["WORDS", "Standing", "alike", "due", "next_date", "standing", "standings"]

State = Literal["at its best", "eat first", "safe but fading", "thawing", "last days", "throw out"]

WORDS: Final[Mapping[State, str]] = {
    "at its best": "Frozen, before its best-by date.",
    "eat first": "Frozen, past best by and not yet past use by: still good, so eat it first.",
    "safe but fading": "Frozen, past use by. Both are quality dates: kept at 0 degF or below it "
    "stays safe; taste and texture go.",
    "thawing": "In the refrigerator: the safety clock runs. Eat it (a raw kit: cook it) by the "
    "date shown.",
    "last days": "Thawed, past the fewest days that the charts give and not past the most: eat it "
    "(a raw kit: cook it) today; the day shown is the very last.",
    "throw out": "Thawed, and past the last day on which it was to be eaten.",
}
"""Each state, and what it says."""


@dataclass(frozen=True)
class Standing:
    """A container and its state on a day.

    Attributes:
        until: The last day of that state; None for one that has no end.
    """

    stored: Stored
    state: State
    until: dt.date | None


def standing(stored: Stored, today: dt.date) -> Standing:
    """How one container stands."""
    if stored.eat_by is not None:
        if today <= stored.eat_by:
            return Standing(stored, "thawing", stored.eat_by)
        if stored.last_day is not None and today <= stored.last_day:
            return Standing(stored, "last days", stored.last_day)
        return Standing(stored, "throw out", None)
    if today <= stored.best_by:
        return Standing(stored, "at its best", stored.best_by)
    if today <= stored.use_by:
        return Standing(stored, "eat first", stored.use_by)
    return Standing(stored, "safe but fading", None)


def next_date(stored: Stored) -> dt.date:
    """The day that it is sorted by: eat by once thawing, else use by."""
    return stored.eat_by or stored.use_by


def _counted(code: str) -> tuple[str, int]:
    """A code to sort by, D2 before D10."""
    letters = code.rstrip("0123456789")
    return letters, int(code[len(letters) :] or 0)


def standings(stock: Stock, today: dt.date) -> tuple[Standing, ...]:
    """Everything there is, what thaws first, then by use-by, best-by and age."""
    ordered = sorted(
        stock.here.values(),
        key=lambda each: (
            each.eat_by is None,
            next_date(each),
            each.best_by,
            each.packed_on,
            _counted(each.code),
            each.key,
        ),
    )
    return tuple(standing(each, today) for each in ordered)


def alike(listed: Iterable[Standing]) -> tuple[tuple[Standing, ...], ...]:
    """Those of the same dish, size, dates and state, raw ones apart, in the order of the list."""
    groups: dict[tuple[object, ...], list[Standing]] = {}
    for each in listed:
        kept = each.stored
        same = (kept.title, kept.portions, kept.packed_on, kept.best_by, kept.use_by)
        stands = (each.state, kept.eat_by, kept.last_day, kept.thawed_by)
        safety = (kept.raw, kept.cook_to_fahrenheit, kept.rest_minutes)
        groups.setdefault((*same, *stands, *safety), []).append(each)
    return tuple(map(tuple, groups.values()))


def due(all_of_them: Iterable[Standing], today: dt.date, days: int) -> tuple[Standing, ...]:
    """Those of which a state ends within so many days, or has no end any more.

    Args:
        all_of_them: From :func:`standings`.
        today: The day.
        days: How far to look; 0 is today only.
    """
    last = today + dt.timedelta(days=days)
    return tuple(each for each in all_of_them if each.until is None or each.until <= last)
