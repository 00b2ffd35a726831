"""What happens without hands, and which cook is told of it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import timedelta
from typing import Final

from batchcook.documents.wording import clock
from batchcook.plan import Occupancy, Plan, Task

__all__ = ["Aside", "asides"]

_AT_ONCE: Final = timedelta(minutes=2)
"""Work that starts this soon after needs no call: its cook comes anyway."""

_HEATERS: Final = ("burner", "slow-cooker")


@dataclass(frozen=True)
class Aside:
    """A task without hands.

    Attributes:
        begun_by: The task that set it going, or None.
        cook: Id of the cook who goes on with it, and so is told.
        call: What the cook is told when it is done, or empty where work on it starts at once.
        to_switch_on: Somebody must switch it on at its start.
    """

    task: Task
    begun_by: str | None
    cook: str
    call: str
    to_switch_on: bool

    def onward(self) -> str:
        """What the cook who set it going reads."""
        words = f". {self.task.words}" if self.task.words else ""
        return f"By itself until {clock(self.task.end)}: {self.task.title}{words}"


def asides(plan: Plan) -> tuple[Aside, ...]:
    """Every task of the plan that needs no hands."""
    tasks = {task.id: task for task in plan.tasks}
    before: dict[str, list[Task]] = defaultdict(list)
    after: dict[str, list[Task]] = defaultdict(list)
    for lag in plan.lags:
        if lag.before in tasks and lag.after in tasks:
            before[lag.after].append(tasks[lag.before])
            after[lag.before].append(tasks[lag.after])
    return tuple(
        _aside(plan, task, before[task.id], after[task.id])
        for task in plan.tasks
        if task.cook is None and plan.cooks
    )


def _aside(plan: Plan, task: Task, before: Sequence[Task], after: Sequence[Task]) -> Aside:
    begun_by = _begun_by(plan, task, before)
    following = _following(plan, task, after)
    cook = following.cook if following else begun_by.cook if begun_by else None
    return Aside(
        task=task,
        begun_by=begun_by.id if begun_by else None,
        cook=cook or plan.cooks[0].id,
        call=_call(plan, task, following),
        to_switch_on=task.technique == "preheat",
    )


def _begun_by(plan: Plan, task: Task, before: Sequence[Task]) -> Task | None:
    """The hands-on task that ends where this starts: its predecessor, or one of the same dish."""
    if not task.dishes:
        return None
    near = [each for each in before if each.cook and each.end == task.start]
    same = [
        each
        for each in plan.tasks
        if each.cook and each.end == task.start and each.dishes.keys() & task.dishes.keys()
    ]
    return next(iter([*near, *same]), None)


def _following(plan: Plan, task: Task, after: Sequence[Task]) -> Task | None:
    """The first hands-on task that waits for this one, or else that uses what it used."""
    waiting = [each for each in after if each.cook and each.end >= task.end]
    if not waiting:
        waiting = [
            each
            for each in plan.tasks
            if each.cook and each.end >= task.end and _related(each, task)
        ]
    return min(waiting, key=lambda each: each.start, default=None)


def _related(one: Task, other: Task) -> bool:
    if other.dishes:
        return bool(one.dishes.keys() & other.dishes.keys())
    return one.station == other.station


def _call(plan: Plan, task: Task, following: Task | None) -> str:
    if task.technique == "preheat":
        return ""
    if following is None:
        return f"Done: {task.title}"
    if following.start <= task.end + _AT_ONCE:
        return ""
    held = any(_holds(plan, each, task, following) for each in plan.occupancies)
    keep = "keep it hot on the heat" if held else "leave it"
    return f"Done: {task.title}; {keep} until {clock(following.start)}"


def _holds(plan: Plan, each: Occupancy, task: Task, following: Task) -> bool:
    """Whether something that heats stays with this dish from its end to what follows."""
    if not each.resource.startswith(_HEATERS):
        return False
    tasks: Mapping[str, Task] = {task.id: task for task in plan.tasks}
    first, last = tasks[each.from_task], tasks[each.to_task]
    same = first.dishes.keys() & task.dishes.keys()
    return bool(same) and first.start <= task.start and last.end >= following.start > task.end
