"""The stock: what the journal adds up to."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Final, Literal

from batchcook.foodsafety.storage import storage_rows
from batchcook.freezer.entries import (
    ADDED,
    BRINGS_IN,
    CORRECTED,
    MOVED,
    RATED,
    REFROZEN,
    TAKEN,
    THROWN,
    Entry,
    steps_of,
)
from batchcook.freezer.store import Journal

if TYPE_CHECKING:
    from batchcook.foodsafety.thawing import ThawWay

__all__ = [
    "Place",
    "Rating",
    "Stock",
    "Stored",
    "Verdict",
    "eaten_or_thrown",
    "refrozen",
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
        keeps_thawed_days: Days that it keeps then, by the short end of its chart.
        keeps_thawed_at_most: The same by the long end; None where only the short one is known.
        cook_to_fahrenheit: If raw: how hot it is cooked, where that is known.
        rest_minutes: If raw: how long it rests then.
        place: Where it is.
        moved_on: The day on which it went to the refrigerator, or None.
        package_use_by: The date on its package, or None where there is none.
        moved_on: The day on which it was taken out of the freezer to thaw, or None.
        thawed_by: How it thaws.
        frozen_again_on: The day on which it was frozen again, or None.
        system: us or metric, as the plan was that made it.
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
    keeps_thawed_at_most: int | None = None
    cook_to_fahrenheit: int | None = None
    rest_minutes: int = 0
    place: Place = "freezer"
    moved_on: dt.date | None = None
    package_use_by: dt.date | None = None
    thawed_by: ThawWay = "refrigerator"
    frozen_again_on: dt.date | None = None
    system: str = "us"

    @property
    def here(self) -> bool:
        """Whether it is still in the freezer or the refrigerator."""
        return self.place in {"freezer", "refrigerator"}

    @property
    def raw(self) -> bool:
        """Whether it is still to be cooked."""
        return self.state == "raw-kit"

    @property
    def thawed_on(self) -> dt.date | None:
        """Once thawing: the day on which it is thawed."""
        if self.moved_on is None:
            return None
        days = self.thaw_days if self.thawed_by == "refrigerator" else 0
        return self.moved_on + dt.timedelta(days=days)

    @property
    def eat_by(self) -> dt.date | None:
        """Once thawing: the last day for which it is planned, to be eaten or, if raw, cooked."""
        return self._kept(self.keeps_thawed_days)

    @property
    def last_day(self) -> dt.date | None:
        """Once thawing: the last day before it is thrown out, by the long end of its chart."""
        at_most = self.keeps_thawed_at_most
        return self._kept(self.keeps_thawed_days if at_most is None else at_most)

    def _kept(self, days: int) -> dt.date | None:
        """So many days after it is thawed; thawed in water or a microwave it is cooked at once."""
        if self.thawed_on is None:
            return None
        return self.thawed_on + dt.timedelta(days=days if self.thawed_by == "refrigerator" else 0)


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
            elif entry.change in {MOVED, REFROZEN, CORRECTED}:
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


def refrozen(stored: Stored, on: dt.date, days: int) -> Stored:
    """The container back in the freezer, with what is left of its days once it thaws again.

    Args:
        stored: As it stood in the refrigerator.
        on: The day on which it was frozen again.
        days: Those it has used.
    """
    at_most = stored.keeps_thawed_at_most
    return replace(
        stored,
        place="freezer",
        moved_on=None,
        frozen_again_on=on,
        keeps_thawed_days=max(0, stored.keeps_thawed_days - days),
        keeps_thawed_at_most=None if at_most is None else max(0, at_most - days),
    )


def _stored(entry: Entry) -> Stored:
    """The container that an entry brought in."""
    stored = Stored(key=entry.subject, **_values(entry))
    known = storage_rows()
    if entry.change == ADDED and any(known[row].raw for row in stored.storage_rows if row in known):
        # Journals of earlier versions have raw food as cooked where nobody said that it is raw.
        return replace(stored, state="raw-kit")
    return stored


def _values(entry: Entry) -> dict[str, Any]:
    """An entry's details with their dates and lists as a container has them."""
    told: dict[str, Any] = json.loads(entry.details)
    for name, value in told.items():
        if name in {"packed_on", "best_by", "use_by", "package_use_by"}:
            told[name] = dt.date.fromisoformat(value)
        elif isinstance(value, list):
            told[name] = tuple(value)
    return told


def _after(stored: Stored, entries: Iterable[Entry]) -> Stored:
    """The container after what happened to it."""
    for entry in entries:
        if entry.change == MOVED:
            stored = replace(
                stored,
                place="refrigerator",
                moved_on=dt.date.fromisoformat(entry.on),
                thawed_by=json.loads(entry.details).get("by", "refrigerator"),
            )
        elif entry.change == REFROZEN:
            days = json.loads(entry.details)["days_used"]
            stored = refrozen(stored, dt.date.fromisoformat(entry.on), days)
        elif entry.change == CORRECTED:
            stored = replace(stored, **_values(entry))
        elif entry.change in _GONE:
            stored = replace(stored, place=_GONE[entry.change])
    return stored


def _rating(entry: Entry) -> Rating:
    told = json.loads(entry.details)
    return Rating(told["verdict"], dt.date.fromisoformat(entry.on), told["note"])
