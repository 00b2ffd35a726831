"""What happens without hands, and which cook is told of it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final

from batchcook.foodsafety.limits import KEPT_HOT
from batchcook.plan import Occupancy, Plan, Task
from batchcook.plans.metricplan import in_measures_of
from batchcook.plans.takenout import done_at
from batchcook.wording import clock

__all__ = ["Aside", "asides"]

_AT_ONCE: Final = timedelta(minutes=2)
"""Work that starts this soon after needs no call: its cook comes anyway."""

_JUST_AFTER: Final = timedelta(minutes=5)
"""What starts this soon after a cook's hands left it was set going by that cook."""

_HEATERS: Final = {"pot": "burner", "slow cooker": "slow-cooker"}
"""What keeps food hot at a station; an oven does not, once it is done."""


@dataclass(frozen=True)
class Aside:
    """A task without hands.

    Attributes:
        begun_by: The task that set it going, or None.
        cook: Id of the cook who goes on with it, and so is told.
        until: When it is done; a bake, when it is taken out, though its oven is kept longer.
        call: What the cook is told when it is done, or empty where work on it starts at once.
        to_switch_on: Somebody must switch it on at its start.
    """

    task: Task
    until: datetime
    begun_by: str | None
    cook: str
    call: str
    to_switch_on: bool

    def onward(self) -> str:
        """What the cook who set it going reads."""
        words = f". {self.task.words}" if self.task.words else ""
        return f"By itself until {clock(self.until)}: {self.task.title}{words}"


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
    until = done_at(plan, task)
    return Aside(
        task=task,
        until=until,
        begun_by=begun_by.id if begun_by else None,
        cook=cook or plan.cooks[0].id,
        call=_call(plan, task, until, following),
        to_switch_on=task.technique == "preheat",
    )


def _begun_by(plan: Plan, task: Task, before: Sequence[Task]) -> Task | None:
    """The hands-on task during or just after which this starts, of those before it or its dish."""
    if not task.dishes:
        return None
    same = [each for each in plan.tasks if each.dishes.keys() & task.dishes.keys()]
    for near in (before, same):
        at_it = [
            each
            for each in near
            if each.cook and each.start <= task.start <= each.end + _JUST_AFTER
        ]
        if at_it:
            return max(at_it, key=lambda each: (each.start, each.id))
    return None


def _following(plan: Plan, task: Task, after: Sequence[Task]) -> Task | None:
    """The first hands-on task that waits for this one, or else that uses what it used."""
    until = done_at(plan, task)
    waiting = [each for each in after if each.cook and each.end >= until]
    if not waiting:
        waiting = [
            each for each in plan.tasks if each.cook and each.end >= until and _related(each, task)
        ]
    return min(waiting, key=lambda each: each.start, default=None)


def _related(one: Task, other: Task) -> bool:
    if other.dishes:
        return bool(one.dishes.keys() & other.dishes.keys())
    return one.station == other.station


def _call(plan: Plan, task: Task, until: datetime, following: Task | None) -> str:
    if task.technique == "preheat":
        return ""
    if following is None:
        return f"Done: {task.title}"
    if following.start <= until + _AT_ONCE:
        return ""
    at = clock(following.start)
    heated = [each for each in plan.occupancies if _heats(plan, each, task)]
    if not heated:
        return f"Done: {task.title}; leave it until {at}"
    if any(_end(plan, each) >= following.start for each in heated):
        where = "on low heat" if task.station == "pot" else "lid on"
        hot = in_measures_of(plan, KEPT_HOT)
        return f"Done: {task.title}; keep it hot {where}, {hot}, until {at}"
    return f"Done: {task.title}; turn off the heat, go on with it at {at}"


def _heats(plan: Plan, each: Occupancy, task: Task) -> bool:
    """Whether it is a burner or slow cooker that this dish has throughout the task."""
    first = next((task for task in plan.tasks if task.id == each.from_task), None)
    return (
        first is not None
        and each.resource.startswith(_HEATERS.get(task.station, "none"))
        and bool(first.dishes.keys() & task.dishes.keys())
        and first.start <= task.start
        and task.end <= _end(plan, each)
    )


def _end(plan: Plan, each: Occupancy) -> datetime:
    return next((task.end for task in plan.tasks if task.id == each.to_task), plan.start)
