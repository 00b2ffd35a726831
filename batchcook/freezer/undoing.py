"""Undoing a step, and what has happened to a container, told in words."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.freezer.codes import same_key
from batchcook.freezer.containerwords import THAWED
from batchcook.freezer.entries import (
    ADDED,
    BRINGS_IN,
    CORRECTED,
    MOVED,
    PACKED,
    PLANNED,
    RATED,
    REFROZEN,
    TAKEN,
    THROWN,
    UNDONE,
    Draft,
    Entry,
    Step,
    steps_of,
)
from batchcook.freezer.store import Journal, write_entries

if TYPE_CHECKING:
    from batchcook.foodsafety.thawing import ThawWay

__all__ = ["Happening", "history", "step_in_words", "undo"]

_LOOSE: Final = frozenset({RATED, PLANNED, UNDONE})
"""Changes of which the latest counts, so that an earlier one may be undone on its own."""

_SAID: Final[Mapping[str, str]] = {
    PACKED: "packed into the freezer",
    ADDED: "put into the freezer",
    MOVED: "moved to the refrigerator",
    REFROZEN: "frozen again",
    TAKEN: "eaten",
    THROWN: "thrown out",
    CORRECTED: "corrected",
    RATED: "rated",
    PLANNED: "planned for an evening",
}


@dataclass(frozen=True)
class Happening:
    """One entry of a container's history.

    Attributes:
        step: The number that ``undo`` takes.
        key: The container.
        on: The day, ISO 8601.
        words: What happened.
        counts: False once it was undone.
    """

    step: int
    key: str
    on: str
    words: str
    counts: bool


def history(journal: Journal, code: str) -> tuple[Happening, ...]:
    """Everything that happened to every container that ever had a code, oldest first.

    Args:
        journal: The journal.
        code: A code, or a container's own key.

    Raises:
        InputFault: No container ever had it.
    """
    wanted = code.strip().upper()
    found = tuple(
        Happening(entry.step, entry.subject, entry.on, _entry_in_words(entry), step.counts)
        for step in steps_of(journal.entries).values()
        for entry in step.entries
        if entry.change not in _LOOSE
        and wanted in {entry.subject.upper(), entry.subject.partition("@")[0].upper()}
    )
    if not found:
        known = {
            entry.subject.partition("@")[0] for entry in journal.entries if "@" in entry.subject
        }
        raise InputFault(
            Complaint(code, "was never in the freezer", "a code", nearest(code, known))
        )
    return found


def undo(place: Path, number: int | None, *, now: dt.datetime) -> str:
    """Let a step count no longer.

    Args:
        place: The file.
        number: The step; without one, the latest that counts and is itself no undoing.
        now: The instant of writing, with its zone.

    Returns:
        What was undone, in words.

    Raises:
        InputFault: There is no such step, it was undone already, later steps build on it, or it
            would bring a container in a second time.
    """

    def judge(journal: Journal) -> tuple[list[Draft], str]:
        steps = steps_of(journal.entries)
        step = _wanted(steps, number)
        _nothing_builds_on(steps, step)
        _nothing_comes_twice(journal, step)
        return [Draft(UNDONE, str(step.number), now.date())], step_in_words(step)

    return write_entries(place, judge, now=now)


def step_in_words(step: Step) -> str:
    """``step 12: B1 and B2 eaten``."""
    first = step.entries[0]
    if step.undoes is not None:
        return f"step {step.number}: step {step.undoes} undone"
    names = [entry.subject.partition("@")[0] for entry in step.entries]
    listed = names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
    return f"step {step.number}: {listed} {_SAID[first.change]}"


def _wanted(steps: Mapping[int, Step], number: int | None) -> Step:
    if number is None:
        return _latest(steps)
    step = steps.get(number)
    if step is None:
        raise InputFault(
            Complaint(
                "undo", f"there is no step {number}", f"a number up to {max(steps, default=0)}"
            )
        )
    if not step.counts:
        raise InputFault(Complaint("undo", f"step {number} was undone already"))
    return step


def _latest(steps: Mapping[int, Step]) -> Step:
    for step in reversed(list(steps.values())):
        if step.counts and step.undoes is None:
            return step
    raise InputFault(Complaint("undo", "there is nothing to undo"))


def _nothing_builds_on(steps: Mapping[int, Step], step: Step) -> None:
    touched = _containers_of(steps, step)
    later = [
        step_in_words(each)
        for number, each in steps.items()
        if number > step.number
        and each.counts
        and each.undoes is None
        and touched & _containers_of(steps, each)
    ]
    if later:
        raise InputFault(
            Complaint(
                "undo",
                f"{step_in_words(step)} cannot be undone alone, since this came after it: "
                + "; ".join(reversed(later)),
                "the later undone first",
            )
        )


def _nothing_comes_twice(journal: Journal, step: Step) -> None:
    """Undoing an undoing brings containers back; by then another may have the same label."""
    number = len(journal.entries) + 1
    undone = Entry(number, number, "", "", UNDONE, str(step.number), "{}")
    came: dict[str, Step] = {}
    for each in steps_of((*journal.entries, undone)).values():
        for entry in each.entries if each.counts else ():
            if entry.change not in BRINGS_IN:
                continue
            before = came.setdefault(same_key(entry.subject), each)
            if before is not each:
                raise InputFault(
                    Complaint(
                        "undo",
                        f"{step_in_words(step)} would bring {entry.subject} in twice: "
                        f"{step_in_words(before)}, and {step_in_words(each)}",
                        "one of the two: enter the other with another code",
                    )
                )


def _containers_of(steps: Mapping[int, Step], step: Step) -> set[str]:
    """The containers that a step changed; those of the step that it undoes, if it is an undoing."""
    while step.undoes is not None:
        step = steps[step.undoes]
    return {entry.subject for entry in step.entries if entry.change not in _LOOSE}


def _entry_in_words(entry: Entry) -> str:
    told = json.loads(entry.details)
    if entry.change in {PACKED, ADDED}:
        return f"{told['title']}, serves {told['portions']}, {_SAID[entry.change]}"
    if entry.change == THROWN:
        return f"thrown out: {told['why']}"
    if entry.change == CORRECTED:
        changes = ", ".join(f"{name.replace('_', ' ')} {value}" for name, value in told.items())
        return f"corrected: {changes}"
    if entry.change == MOVED and "by" in told:
        way: ThawWay = told["by"]
        return THAWED[way]
    return _SAID[entry.change]
