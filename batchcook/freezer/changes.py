"""Everything that can happen to a container.

Each change is judged on the stock as it stands, then written as one step.
"""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from batchcook.complaints import Complaint, InputFault
from batchcook.freezer.codes import code_of_ones_own, key_of, next_codes, pick, same_key
from batchcook.freezer.entries import (
    ADDED,
    BRINGS_IN,
    CORRECTED,
    PACKED,
    TAKEN,
    THROWN,
    Draft,
    steps_of,
)
from batchcook.freezer.stock import Stock, Stored, stock_of
from batchcook.freezer.store import Journal, write_entries

__all__ = ["Moment", "Packed", "add", "change_each", "correct", "pack", "take", "throw"]

_ENDS: Final[tuple[str, ...]] = ("", *"bcdefghijklmnopqrstuvwxyz")
"""What may be put behind a code that another dish of the same day has."""


@dataclass(frozen=True)
class Moment:
    """When a change is entered, and the day on which it happened.

    Attributes:
        now: The instant, with its zone.
        on: The day that counts; today unless it is entered later.
    """

    now: dt.datetime
    on: dt.date

    def check(self) -> None:
        """See that the day is not still to come.

        Raises:
            InputFault: It is.
        """
        if self.on > self.now.date():
            raise InputFault(
                Complaint("--on", f"{self.on.isoformat()} is still to come", "today or earlier")
            )

    def check_frozen(self, frozen_on: dt.date) -> None:
        """See that what is put in had been frozen by then; a later day would lengthen its dates.

        Raises:
            InputFault: It had not.
        """
        if frozen_on > self.on:
            what = f"{frozen_on.isoformat()} is after {self.on.isoformat()}"
            raise InputFault(Complaint("--frozen-on", what, "that day or an earlier one"))


@dataclass(frozen=True)
class Packed:
    """What a packing brought in.

    Attributes:
        codes: The codes, in order.
        relabel: Code on the label to code in the stock, where another dish of the same day had
            it already.
        shared: Codes that an earlier container in the freezer carries too.
    """

    codes: tuple[str, ...]
    relabel: Mapping[str, str]
    shared: tuple[str, ...]


def pack(place: Path, containers: Sequence[dict[str, Any]], moment: Moment) -> Packed:
    """Put a plan's containers in.

    Args:
        place: The file.
        containers: What the journal keeps of each.
        moment: When.

    Raises:
        InputFault: Some were packed before, with a complaint for each; or the file is at fault.
    """
    moment.check()

    def judge(journal: Journal) -> tuple[list[Draft], Packed]:
        there = _dish_by_key(journal)
        stock = stock_of(journal)
        before = {each.code for each in stock.here.values()}
        drafts: list[Draft] = []
        relabel: dict[str, str] = {}
        again: dict[tuple[str, str], list[str]] = {}
        for details in containers:
            code, day = details["code"], dt.date.fromisoformat(details["packed_on"])
            if details["dish"] in (there.get(each) for each in _like(code, day)):
                again.setdefault((details["title"], day.isoformat()), []).append(code)
                continue
            free = _free_code(code, day, there)
            if free != code:
                relabel[code] = free
            there[same_key(key_of(free, day))] = details["dish"]
            drafts.append(Draft(PACKED, key_of(free, day), moment.on, {**details, "code": free}))
        if again:
            what = "; ".join(
                f"{' '.join(codes)}, {title} of {day}" for (title, day), codes in again.items()
            )
            expected = "each container packed once; `freezer undo` takes a packing back"
            raise InputFault(Complaint("pack", f"in the book already: {what}", expected))
        codes = tuple(str(draft.details["code"]) for draft in drafts)
        shared = tuple(code for code in codes if code in before)
        return drafts, Packed(codes, relabel, shared)

    return write_entries(place, judge, now=moment.now)


def add(
    place: Path, details: Mapping[str, Any], count: int, moment: Moment, code: str = ""
) -> tuple[str, ...]:
    """Put in something that no plan made.

    Args:
        place: The file.
        details: What the journal keeps of each, without its code.
        count: How many alike.
        moment: When.
        code: A code for it; without one they are numbered on.

    Returns:
        The codes.

    Raises:
        InputFault: The code is none, is there already, or stands for several; it is frozen on a
            day still to come; or the file is at fault.
    """
    moment.check()
    moment.check_frozen(dt.date.fromisoformat(details["packed_on"]))
    if code and count != 1:
        raise InputFault(Complaint("--code", f"one code for {count} containers", "no code"))
    own = code_of_ones_own(code) if code else ""

    def judge(journal: Journal) -> tuple[list[Draft], tuple[str, ...]]:
        codes = (own,) if own else next_codes(journal.entries, count)
        day = dt.date.fromisoformat(details["packed_on"])
        if same_key(key_of(codes[0], day)) in _dish_by_key(journal):
            raise InputFault(Complaint("--code", f"{codes[0]} of that day is in the book already"))
        drafts = [
            Draft(ADDED, key_of(each, day), moment.on, {"code": each, **details}) for each in codes
        ]
        return drafts, codes

    return write_entries(place, judge, now=moment.now)


def take(place: Path, codes: Sequence[str], moment: Moment) -> tuple[Stored, ...]:
    """Enter that containers were eaten.

    Raises:
        InputFault: With a complaint for each code that is wrong or that was frozen or moved to the
            refrigerator only later, and nothing is entered.
    """

    def details(stored: Stored) -> dict[str, Any]:
        _check_order(stored, moment)
        return {}

    return change_each(place, codes, moment, TAKEN, details)


def throw(place: Path, codes: Sequence[str], why: str, moment: Moment) -> tuple[Stored, ...]:
    """Enter that containers were thrown out, and why.

    Raises:
        InputFault: As :func:`take` does.
    """

    def details(stored: Stored) -> dict[str, Any]:
        _check_order(stored, moment)
        return {"why": why}

    return change_each(place, codes, moment, THROWN, details)


def correct(
    place: Path,
    code: str,
    changed: Callable[[Stored], dict[str, Any]],
    moment: Moment,
) -> Stored:
    """Set right what stands about a container.

    Args:
        place: The file.
        code: Which one.
        changed: From the container as it stands to what shall stand instead.
        moment: When.

    Returns:
        The container as it stood before.

    Raises:
        InputFault: The code is wrong, it is frozen on a day still to come, or whatever
            ``changed`` raised.
    """

    def details(stored: Stored) -> dict[str, Any]:
        told = changed(stored)
        if "packed_on" in told:
            moment.check_frozen(dt.date.fromisoformat(told["packed_on"]))
        return told

    return change_each(place, (code,), moment, CORRECTED, details)[0]


def _check_order(stored: Stored, moment: Moment) -> None:
    """See that nothing happens to a container before what happened to it earlier."""
    since, what = stored.frozen_again_on or stored.packed_on, "was frozen"
    if stored.moved_on is not None:
        since, what = stored.moved_on, "went to the refrigerator"
    if moment.on < since:
        raise InputFault(
            Complaint(
                stored.code,
                f"{what} on {since.isoformat()}, after {moment.on.isoformat()}",
                "--on that day or a later one",
            )
        )


def change_each(
    place: Path,
    codes: Sequence[str],
    moment: Moment,
    change: str,
    details: Callable[[Stored], dict[str, Any]],
) -> tuple[Stored, ...]:
    """One change to each of some containers, as one step; all codes are judged first.

    Args:
        place: The file.
        codes: Which.
        moment: When.
        change: What happened, a word of ``entries``.
        details: From a container as it stands to what the journal keeps of the change.

    Returns:
        The containers as they stood before.

    Raises:
        InputFault: With a complaint for each code that is wrong, and all that ``details`` raised.
    """
    moment.check()

    def judge(journal: Journal) -> tuple[list[Draft], tuple[Stored, ...]]:
        stock: Stock = stock_of(journal)
        meant = pick(stock, codes)
        drafts: list[Draft] = []
        faults: list[Complaint] = []
        for stored in meant:
            try:
                drafts.append(Draft(change, stored.key, moment.on, details(stored)))
            except InputFault as fault:
                faults.extend(fault.complaints)
        if faults:
            raise InputFault(faults)
        return drafts, meant

    return write_entries(place, judge, now=moment.now)


def _dish_by_key(journal: Journal) -> dict[str, str]:
    """The dish of every container that ever came in and was not undone, by its key in capitals."""
    return {
        same_key(entry.subject): str(json.loads(entry.details)["dish"])
        for step in steps_of(journal.entries).values()
        if step.counts
        for entry in step.entries
        if entry.change in BRINGS_IN
    }


def _free_code(code: str, day: dt.date, there: Mapping[str, str]) -> str:
    """The code, or the code with b, c, d ... behind it where another dish of that day has it."""
    free = [end for end, key in zip(_ENDS, _like(code, day), strict=True) if key not in there]
    if not free:
        what = f"{len(_ENDS)} dishes of {day.isoformat()} have it already"
        raise InputFault(Complaint(code, what, "another code on the label"))
    return code + free[0]


def _like(code: str, day: dt.date) -> list[str]:
    """The keys, in capitals, that a container with this label may have been given."""
    return [same_key(key_of(code + end, day)) for end in _ENDS]
