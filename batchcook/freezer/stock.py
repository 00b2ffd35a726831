"""The stock: what the journal adds up to."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any, Final, Literal

from batchcook.freezer.entries import (
    BRINGS_IN,
    CORRECTED,
    MOVED,
    RATED,
    TAKEN,
    THROWN,
    Entry,
    steps_of,
)
from batchcook.freezer.store import Journal

__all__ = [
    "Place",
    "Rating",
    "Stock",
    "Stored",
    "Verdict",
    "eaten_or_thrown",
    "stock_of",
    "titles_of",
]

Place = Literal["freezer", "refrigerator", "eaten", "thrown out"]
"""Where a container is."""

Verdict = Literal["keep", "change", "drop"]
"""What the household thinks of a dish."""

_GONE: Final[Mapping[str, Place]] = {TAKEN: "eaten", THROWN: "thrown out"}


@dataclass(frozen=True)
class Stored:
    """A container, as it went in and as it stands.

    Attributes:
        key: ``code@packed_on``: its own for good, though a later prep day uses the code again.
        code: What stands on its label.
        holds: The container in words, or an empty string.
        grams: Weight of the food; 0 where it is not known.
        main: The main ingredient, such as beef; empty where it is not known.
        thaw: refrigerator, from-frozen or either.
        thaw_days: Days that it thaws in the refrigerator.
        keeps_thawed_days: Days that it keeps then.
        cook_to: Of a raw kit, the center temperature to reach in degF; 0 where it is not known.
        place: Where it is.
        moved_on: The day on which it went to the refrigerator, or None.
    """

    key: str
    code: str
    dish: str
    title: str
    portions: int
    packed_on: dt.date
    best_by: dt.date
    use_by: dt.date
    state: str
    thaw: str
    thaw_days: int
    keeps_thawed_days: int
    main: str = ""
    holds: str = ""
    grams: int = 0
    finish: str = ""
    add: tuple[str, ...] = ()
    storage_rows: tuple[str, ...] = ()
    cook_to: int = 0
    place: Place = "freezer"
    moved_on: dt.date | None = None

    @property
    def here(self) -> bool:
        """Whether it is still in the freezer or the refrigerator."""
        return self.place in {"freezer", "refrigerator"}

    @property
    def eat_by(self) -> dt.date | None:
        """Once thawing: the last day to eat it, or to cook it if it is a raw kit."""
        if self.moved_on is None:
            return None
        return self.moved_on + dt.timedelta(days=self.thaw_days + self.keeps_thawed_days)


@dataclass(frozen=True)
class Rating:
    """A verdict with its day and what was noted."""

    verdict: Verdict
    on: dt.date
    note: str = ""


@dataclass(frozen=True)
class Stock:
    """What there is, and what is known of dishes.

    Attributes:
        here: Containers in the freezer or the refrigerator, by key, in the order they came in.
        gone: Keys of those that were eaten or thrown out.
        ratings: Dish to its latest verdict.
    """

    here: Mapping[str, Stored]
    gone: frozenset[str]
    ratings: Mapping[str, Rating]


def stock_of(journal: Journal) -> Stock:
    """The stock as it stands after the last entry."""
    came: dict[str, Entry] = {}
    then: dict[str, list[Entry]] = {}
    gone: set[str] = set()
    ratings: dict[str, Rating] = {}
    for step in steps_of(journal.entries).values():
        for entry in step.entries if step.counts else ():
            if entry.change in BRINGS_IN:
                came[entry.subject] = entry
            elif entry.change in _GONE:
                gone.add(entry.subject)
            elif entry.change in {MOVED, CORRECTED}:
                then.setdefault(entry.subject, []).append(entry)
            elif entry.change == RATED:
                ratings[entry.subject] = _rating(entry)
    return Stock(
        here={
            key: _after(_stored(entry), then.get(key, ()))
            for key, entry in came.items()
            if key not in gone
        },
        gone=frozenset(gone & came.keys()),
        ratings=ratings,
    )


def titles_of(journal: Journal) -> Mapping[str, str]:
    """Dish to its title, of every dish that ever came in."""
    titles: dict[str, str] = {}
    for step in steps_of(journal.entries).values():
        for entry in step.entries:
            if step.counts and entry.change in BRINGS_IN:
                told = json.loads(entry.details)
                titles[told["dish"]] = told["title"]
    return titles


def eaten_or_thrown(journal: Journal, stock: Stock) -> tuple[Stored, ...]:
    """The containers that are gone, as they went in."""
    return tuple(
        _stored(entry)
        for step in steps_of(journal.entries).values()
        for entry in step.entries
        if step.counts and entry.change in BRINGS_IN and entry.subject in stock.gone
    )


def _stored(entry: Entry) -> Stored:
    """The container that an entry brought in."""
    return Stored(key=entry.subject, **_values(entry))


def _values(entry: Entry) -> dict[str, Any]:
    """An entry's details with their dates and lists as a container has them."""
    told: dict[str, Any] = json.loads(entry.details)
    for name, value in told.items():
        if name in {"packed_on", "best_by", "use_by"}:
            told[name] = dt.date.fromisoformat(value)
        elif isinstance(value, list):
            told[name] = tuple(value)
    return told


def _after(stored: Stored, entries: Iterable[Entry]) -> Stored:
    """The container after what happened to it."""
    for entry in entries:
        if entry.change == MOVED:
            moved_on = dt.date.fromisoformat(entry.on)
            stored = replace(stored, place="refrigerator", moved_on=moved_on)
        elif entry.change == CORRECTED:
            stored = replace(stored, **_values(entry))
        elif entry.change in _GONE:
            stored = replace(stored, place=_GONE[entry.change])
    return stored


def _rating(entry: Entry) -> Rating:
    told = json.loads(entry.details)
    return Rating(told["verdict"], dt.date.fromisoformat(entry.on), told["note"])
