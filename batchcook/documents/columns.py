"""A plan as each cook reads it: one column a cook, in order of time.

Work is an entry with a box to tick; what happens without hands is told at the end of the entry
that set it going, and called out again, as a cue, when it is done and nobody is at it already.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Final

from batchcook.documents.amounts import is_batches
from batchcook.documents.aside import Aside, asides
from batchcook.plan import Bowl, Deadline, Plan, Task

__all__ = ["Column", "Entry", "Part", "columns"]

_CLEAN_DOWN: Final = "clean-down"
_SENTENCE_END: Final = re.compile(r"(?<=[.!?]) ")


@dataclass(frozen=True)
class Part:
    """One bowl of work that several dishes share, or one load of several."""

    ready: datetime
    amount: str
    bowl: str
    dish: str


@dataclass(frozen=True)
class Entry:
    """One thing to do, or (a cue) one thing that is done by itself.

    Attributes:
        dishes: Ids of the dishes it serves.
        label: A few words for the picture of the day.
        amounts: What goes in, one line each.
        bowl: Where its outcome goes.
        then: The washing that follows at once.
        onward: What goes on by itself from here.
        deadline: By when its food must be safe, in words.
        saved: What sharing saved and why it was split, in words.
    """

    start: datetime
    end: datetime
    title: str
    dishes: tuple[str, ...]
    label: str = ""
    amounts: tuple[str, ...] = ()
    words: str = ""
    bowl: str = ""
    parts: tuple[Part, ...] = ()
    then: str = ""
    onward: tuple[str, ...] = ()
    deadline: str = ""
    saved: str = ""
    cue: bool = False


@dataclass(frozen=True)
class Column:
    """What one cook does, in order of time."""

    cook: str
    name: str
    hands_on_minutes: int
    entries: tuple[Entry, ...]


def columns(plan: Plan) -> tuple[Column, ...]:
    """A column for each cook of the plan, in its order."""
    beside = asides(plan)
    set_going = {each.task.id: each.begun_by for each in beside if each.begun_by is not None}
    deadlines = _earliest(plan.deadlines, set_going)
    entries: dict[str, list[Entry]] = defaultdict(list)
    for tasks in _goes(plan):
        cook = str(tasks[0].cook)
        entry = _entry(plan, tasks, deadlines)
        ids = {task.id for task in tasks}
        onward = tuple(aside.onward() for aside in beside if aside.begun_by in ids)
        entries[cook].append(replace(entry, onward=onward))
    for aside in beside:
        for entry in _called_out(aside):
            entries[aside.cook].append(entry)
    return tuple(
        Column(
            cook.id,
            cook.name,
            plan.summary.hands_on_by_cook.get(cook.id, 0),
            tuple(sorted(entries[cook.id], key=lambda entry: (entry.start, not entry.cue))),
        )
        for cook in plan.cooks
    )


def _goes(plan: Plan) -> list[list[Task]]:
    """The hands-on tasks, together where one cook does them without putting the knife down.

    A clean-down belongs to what it follows.
    """
    goes: list[list[Task]] = []
    last: dict[str, list[Task]] = {}
    for task in plan.tasks:
        if task.cook is None:
            continue
        before = last.get(task.cook)
        if before is not None and _belongs(task, before[-1]):
            before.append(task)
            continue
        last[task.cook] = [task]
        goes.append(last[task.cook])
    return goes


def _belongs(task: Task, before: Task) -> bool:
    if task.run is not None and task.run == before.run:
        return True
    follows = task.start == before.end and before.technique != _CLEAN_DOWN
    return task.technique == _CLEAN_DOWN and follows


def _entry(plan: Plan, tasks: Sequence[Task], deadlines: Mapping[str, Deadline]) -> Entry:
    work = [task for task in tasks if task.technique != _CLEAN_DOWN] or list(tasks)
    wash = [task for task in tasks if task not in work]
    first = work[0]
    due = [deadlines[task.id] for task in work if task.id in deadlines]
    entry = Entry(
        start=tasks[0].start,
        end=tasks[-1].end,
        title=first.title,
        dishes=tuple(dict.fromkeys(dish for task in work for dish in task.dishes)),
        label=first.label or first.title,
        then=f"Then {wash[-1].title[0].lower()}{wash[-1].title[1:]}" if wash else "",
        deadline=min(due, key=lambda each: each.at).words if due else "",
    )
    run = next((each for each in plan.shared if each.id == first.run), None)
    if run is None or (len(work) == 1 and len({bowl.name for bowl in run.bowls}) == 1):
        own = tuple(amount for amount in first.dishes.values() if not is_batches(amount))
        return replace(
            entry,
            words=first.words,
            amounts=first.amounts or (own if first.bowl else ()),
            bowl=first.bowl,
        )
    # Part for part much is the same; a sentence is read once.
    sentences = (each for task in work for each in _SENTENCE_END.split(task.words))
    words = " ".join(dict.fromkeys(sentences)).strip()
    listed = (task.amounts for task in work if task.technique != "measure")
    minutes = f"Sharing saves {run.minutes_saved} min" if len(entry.dishes) > 1 else ""
    return replace(
        entry,
        title=run.title if len(work) > 1 else first.title,
        words=words,
        amounts=next(filter(None, listed), ()),
        parts=tuple(_part(bowl, work) for bowl in run.bowls),
        saved="; ".join(each for each in (minutes, run.note) if each),
    )


def _part(bowl: Bowl, work: Sequence[Task]) -> Part:
    """A bowl with what goes in: its amount, or, where that says no more than batches, the list."""
    task = next((task for task in work if task.id == bowl.task), None)
    amount = bowl.amount
    if is_batches(amount):
        amount = " · ".join(task.amounts) if task else ""
    says_where = not bowl.name or bowl.name.startswith("into ")
    return Part(bowl.ready, amount, bowl.name if says_where else f"to the {bowl.name}", bowl.dish)


def _called_out(aside: Aside) -> list[Entry]:
    """What a cook must be told in its own entry: to switch on, and that something is done."""
    task, dishes = aside.task, tuple(aside.task.dishes)
    found = []
    if aside.to_switch_on:
        until = f"It is ready at {task.end:%H:%M}."
        found.append(Entry(task.start, task.start, task.title, dishes, words=until))
    elif aside.begun_by is None:
        found.append(
            Entry(
                task.start, task.start, f"Starts: {task.title}", dishes, words=task.words, cue=True
            )
        )
    if aside.call:
        found.append(Entry(task.end, task.end, aside.call, dishes, cue=True))
    return found


def _earliest(deadlines: Sequence[Deadline], set_going: Mapping[str, str]) -> dict[str, Deadline]:
    """The earliest deadline of each task with hands.

    One that hangs on what goes by itself is told where somebody sets it going.
    """
    found: dict[str, Deadline] = {}
    for each in sorted(deadlines, key=lambda each: each.at, reverse=True):
        found[set_going.get(each.task, each.task)] = each
    return found
