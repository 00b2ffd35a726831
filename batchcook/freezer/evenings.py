"""The evenings that were planned before, as the journal has them."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from batchcook.freezer.entries import BRINGS_IN, PLANNED, Entry, steps_of
from batchcook.freezer.store import Journal

__all__ = ["Evening", "Evenings", "evenings_of"]


@dataclass(frozen=True)
class Evening:
    """An evening as it was planned last.

    Attributes:
        on: The day.
        keys: The containers for it; none where it has no freezer dinner.
        people: People at the table.
        title: The dish's title, or an empty string.
        mains: The main ingredients.
        why: Why it is a freezer night: its weekday, or what fills the evening.
        kept: Whether the household settled it, so that it stays when the month is planned again.
        off: Whether it is a freezer night no longer.
        times: How often it was planned.
        at: When it was planned last, UTC, ISO 8601.
        moved_before: Days before it on which anything was ever to go to the refrigerator for it.
    """

    on: dt.date
    keys: tuple[str, ...]
    people: int
    title: str
    mains: tuple[str, ...]
    why: str
    kept: bool
    off: bool = False
    times: int = 0
    at: str = ""
    moved_before: frozenset[int] = field(default=frozenset(), compare=False)

    def details(self) -> dict[str, Any]:
        """What the journal keeps of it."""
        return {
            "keys": list(self.keys),
            "people": self.people,
            "title": self.title,
            "mains": list(self.mains),
            "why": self.why,
            "kept": self.kept,
            "off": self.off,
        }

    def same_plan(self, other: Evening | None) -> bool:
        """Whether the other says the same, whenever it was written."""
        return other is not None and self.on == other.on and self.details() == other.details()


@dataclass(frozen=True)
class Evenings:
    """Everything that was planned.

    Attributes:
        by_day: Each evening as it was planned last.
        settings: For each month, as ``2027-02``, what it was planned with.
    """

    by_day: Mapping[dt.date, Evening]
    settings: Mapping[str, Mapping[str, Any]]

    def last_settings(self, month: str) -> Mapping[str, Any]:
        """What a month was planned with last, or what the month before it was.

        Weekdays and people go on from one month to the next; what was said of single evenings is of
        its own month.

        Args:
            month: As ``2027-02``.
        """
        if month in self.settings:
            return self.settings[month]
        earlier = [name for name in self.settings if name < month]
        if not earlier:
            return {}
        last = self.settings[max(earlier)]
        return {name: value for name, value in last.items() if name in {"weekdays", "people"}}


def evenings_of(journal: Journal) -> Evenings:
    """The evenings as they stand after the last entry."""
    by_day: dict[dt.date, Evening] = {}
    settings: dict[str, Mapping[str, Any]] = {}
    times: dict[str, int] = {}
    thaw_days: dict[str, int] = {}
    moved: dict[str, set[int]] = {}
    for step in steps_of(journal.entries).values():
        for entry in step.entries:
            told = json.loads(entry.details)
            if entry.change in BRINGS_IN and told["thaw"] != "from-frozen":
                thaw_days[entry.subject] = told["thaw_days"]
            if entry.change != PLANNED:
                continue
            # What was undone counts here: it may be in a calendar that was exported.
            times[entry.subject] = times.get(entry.subject, 0) + 1
            before = moved.setdefault(entry.subject, set())
            before |= {thaw_days[key] for key in told.get("keys", ()) if thaw_days.get(key)}
            if not step.counts:
                continue
            if "keys" in told:
                evening = _evening(entry, told, times[entry.subject])
                by_day[evening.on] = replace(evening, moved_before=frozenset(before))
            else:
                settings[entry.subject] = told
    return Evenings(dict(sorted(by_day.items())), settings)


def _evening(entry: Entry, told: dict[str, Any], times: int) -> Evening:
    told["keys"], told["mains"] = tuple(told["keys"]), tuple(told["mains"])
    return Evening(on=dt.date.fromisoformat(entry.subject), times=times, at=entry.at, **told)
