"""What a journal is made of: dated entries, each of one change to one thing."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any, Final

__all__ = [
    "ADDED",
    "BRINGS_IN",
    "CORRECTED",
    "MOVED",
    "PACKED",
    "PLANNED",
    "RATED",
    "REFROZEN",
    "TAKEN",
    "THROWN",
    "UNDONE",
    "Draft",
    "Entry",
    "Step",
    "steps_of",
]

PACKED: Final = "packed"
"""A container of a prep day went into the freezer."""
ADDED: Final = "added"
"""Anything else went in."""
MOVED: Final = "thawing"
"""A container was moved to the refrigerator."""
REFROZEN: Final = "refrozen"
"""A container that had thawed in the refrigerator was frozen again."""
TAKEN: Final = "taken"
"""A container was eaten."""
THROWN: Final = "thrown"
"""A container was thrown out."""
CORRECTED: Final = "corrected"
"""What stood about a container was wrong."""
RATED: Final = "rated"
"""The household said what it thinks of a dish."""
PLANNED: Final = "planned"
"""An evening was given its dinner, or set free again."""
UNDONE: Final = "undone"
"""An earlier step counts no longer; its subject is that step's number."""

BRINGS_IN: Final = frozenset({PACKED, ADDED})


@dataclass(frozen=True)
class Draft:
    """An entry to be written.

    Attributes:
        change: What happened, one of the words of this module.
        subject: What it happened to: a container's key, a dish, an evening, a step's number.
        on: The day on which it happened.
        details: The rest, in plain values.
    """

    change: str
    subject: str
    on: dt.date
    details: dict[str, Any] = field(default_factory=dict)


@dataclass(frozen=True)
class Entry:
    """An entry as it was written.

    Attributes:
        number: Its place in the journal, from 1.
        step: The command that wrote it; entries of one command share a number and are undone
            together.
        at: When it was written, UTC, ISO 8601 to the second.
        on: The day on which it happened, ISO 8601.
        change: What happened.
        subject: What it happened to.
        details: The rest, as JSON.
    """

    number: int
    step: int
    at: str
    on: str
    change: str
    subject: str
    details: str


@dataclass(frozen=True)
class Step:
    """What one command wrote.

    Attributes:
        counts: Whether it still counts; False once it was undone.
    """

    number: int
    entries: tuple[Entry, ...]
    counts: bool

    @property
    def undoes(self) -> int | None:
        """The number of the step that this one undoes, or None."""
        first = self.entries[0]
        return int(first.subject) if first.change == UNDONE else None


def steps_of(journal: Sequence[Entry]) -> dict[int, Step]:
    """The journal by steps, in order, each with whether it still counts.

    An undoing may itself be undone, so the latest are decided first.
    """
    grouped: dict[int, list[Entry]] = {}
    for entry in journal:
        grouped.setdefault(entry.step, []).append(entry)
    undone: set[int] = set()
    for number in sorted(grouped, reverse=True):
        first = grouped[number][0]
        if first.change == UNDONE and number not in undone:
            undone.add(int(first.subject))
    return {
        number: Step(number, tuple(entries), counts=number not in undone)
        for number, entries in grouped.items()
    }
