"""Why a day cannot be done, and the smallest changes that would do."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Any

from batchcook.day.clashwords import dish_name, limit_words, repair_words, thing
from batchcook.day.formulation import Formulation
from batchcook.day.moretime import Shortest, more_time
from batchcook.day.prepday import PrepDay
from batchcook.day.whatif import PANS, changed_by, kinds_held
from batchcook.kitchens.pans import Pans, pan_id
from batchcook.scheduling.conflict import Conflict, Repair, explain, repairs
from batchcook.scheduling.schedule import Schedule

__all__ = ["Change", "Clash", "find_clash"]

_MAY_GIVE_WAY = frozenset({"horizon", "window", "absence", "capacity"})
"""What a cook may change. Limits of food safety are never offered."""

_MOST_CHANGES = 5

_CHANGES_TRIED = 4
"""Into so many parts the time for finding changes is divided; most are found or refuted at once."""

_MORE_TIME = 2.5
"""So many times as long each for a later finish and an earlier start: they are told with how long
the day takes, so the shorter the better."""

_MOST_PANS = 2
"""More than this many pans are not borrowed for a day."""

Possible = Callable[[PrepDay, float], Schedule | None]
"""A schedule of a changed day, found within so many seconds; None where none was."""


@dataclass(frozen=True)
class Change:
    """What would do, in kitchen words, and the day that shows it.

    Attributes:
        words: The change.
        repair: The limit that gives way, where the work stays as it is.
        day: The changed order or kitchen, where it does not.
        schedule: A schedule of the day so changed.
    """

    words: str
    schedule: Schedule
    repair: Repair | None = None
    day: PrepDay | None = None


@dataclass(frozen=True)
class Clash:
    """Limits that cannot all be kept, and changes of which each alone is enough.

    Attributes:
        limits: What clashes, a sentence each.
        changes: What would work, each verified by finding a day that does it.
        conflict: The limits in terms of the formulation.
        formulation: The day that they are of.
    """

    limits: tuple[str, ...]
    changes: tuple[Change, ...]
    conflict: Conflict
    formulation: Formulation

    def __str__(self) -> str:
        """Both as lines of text."""
        lines = ["These cannot all be:" if len(self.limits) > 1 else "This cannot be:"]
        lines += [f"- {each}" for each in self.limits]
        if self.changes:
            lines.append("Any one of these would do:")
            lines += [f"- {each.words}" for each in self.changes]
        else:
            lines.append("No single small change was found that would do.")
        return "\n".join(lines)


def find_clash(
    formulation: Formulation,
    day: PrepDay,
    possible: Possible,
    *,
    seconds: float,
    part: frozenset[str] | None = None,
    shortest: Shortest = lambda *_: None,
) -> Clash:
    """What clashes in a day that is proved impossible.

    Args:
        formulation: The day as it was put.
        day: The order it came from.
        possible: Whether a changed order can be done; solves it.
        seconds: Wall-clock time for the search of the conflict, and again for the changes.
        part: Jobs known to be impossible by themselves.
        shortest: How short a changed order can be; solves it.
    """
    conflict = explain(formulation.problem, seconds=seconds, part=part)
    changes: dict[str, Change] = {}
    for change in _changes(formulation, day, conflict, (possible, shortest), seconds):
        changes.setdefault(change.words, change)
        if len(changes) == _MOST_CHANGES:
            break
    return Clash(
        tuple(dict.fromkeys(limit_words(conflict, formulation))),
        tuple(changes.values()),
        conflict,
        formulation,
    )


def _changes(
    formulation: Formulation,
    day: PrepDay,
    conflict: Conflict,
    solving: tuple[Possible, Shortest],
    seconds: float,
) -> Iterator[Change]:
    """Every change that was found to be enough, those that leave the order as it is first."""
    possible, shortest = solving
    ends = time.monotonic() + seconds
    each_seconds = seconds / _CHANGES_TRIED
    open_to_change = [each for each in conflict.references if each.kind in _MAY_GIVE_WAY]
    found = False
    if any(each.kind == "horizon" for each in conflict.references):
        for more in more_time(day, shortest, _MORE_TIME * each_seconds):
            found = True
            yield Change(more.words, more.schedule, day=more.day)
            if more.later:
                open_to_change = [each for each in open_to_change if each.kind != "horizon"]
        # The time for changes of the order counts from here.
        ends = time.monotonic() + seconds
    for repair in repairs(formulation.problem, open_to_change, seconds=each_seconds):
        found = True
        yield Change(repair_words(repair, formulation), repair.schedule, repair)
    for tries in (*_more_pans(formulation, day), *_smaller_orders(day)):
        for words, changed in tries:
            schedule = possible(changed, min(each_seconds, ends - time.monotonic()))
            if schedule is not None:
                found = True
                yield Change(words, schedule, day=changed)
                break
    if not found and len(day.orders) > 1:
        yield from _without_impossible(day, possible, each_seconds)


def _without_impossible(day: PrepDay, possible: Possible, seconds: float) -> Iterator[Change]:
    """The order without every dish that cannot be made even by itself."""
    alone = {dish: {dish: batches} for dish, batches in day.orders.items()}
    left = {
        dish: batches
        for dish, batches in day.orders.items()
        if possible(replace(day, orders=alone[dish]), seconds) is not None
    }
    fewer = replace(day, orders=left)
    schedule = possible(fewer, seconds) if 0 < len(left) < len(day.orders) else None
    if schedule is not None:
        *others, last = (dish_name(dish) for dish in day.orders if dish not in left)
        named = f"{', '.join(others)} and {last}" if others else last
        yield Change(f"leave out {named}", schedule, day=fewer)


def _more_pans(formulation: Formulation, day: PrepDay) -> Iterator[list[tuple[str, PrepDay]]]:
    """Pans that may do: with more, dishes are laid out in fewer goes, which is other work."""
    held = kinds_held(formulation.work)
    for kind, key in PANS.items():
        there: tuple[Pans, ...] = getattr(day.kitchen, key)
        if kind not in held or not there:
            continue
        tries = []
        for number in range(1, _MOST_PANS + 1):
            more: dict[str, Any] = {key: changed_by(there, number)}
            words = f"{thing(pan_id(kind, there[0]), number)} more"
            tries.append((words, replace(day, kitchen=replace(day.kitchen, **more))))
        yield tries


def _smaller_orders(day: PrepDay) -> Iterator[list[tuple[str, PrepDay]]]:
    """Orders with fewer batches of a dish, the most that may do first."""
    for dish, batches in day.orders.items():
        tries = [
            (
                f"{number} of {dish_name(dish)} instead of {batches}",
                replace(day, orders={**day.orders, dish: number}),
            )
            for number in range(batches - 1, 0, -1)
        ]
        if len(day.orders) > 1:
            fewer = {name: number for name, number in day.orders.items() if name != dish}
            tries.append((f"leave out {dish_name(dish)}", replace(day, orders=fewer)))
        yield tries
