"""What a plan's tasks have come to by now: over, under way, or still to begin."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.plan import Plan, Task
from batchcook.plans.progress import DayState
from batchcook.scheduling.scheduleflow import clean_down_of

__all__ = ["SoFar", "Stand", "as_planned", "but_for", "so_far"]


@dataclass(frozen=True)
class Stand:
    """A task that has begun.

    Attributes:
        start: When it began.
        end: When it ended or, while it runs, when it should.
        over: Whether it is done.
    """

    start: datetime
    end: datetime
    over: bool


@dataclass(frozen=True)
class SoFar:
    """How far the day is.

    Attributes:
        stands: The tasks that have begun.
        implied: Those of them that nobody marked, but that come before something marked.
    """

    stands: Mapping[str, Stand]
    implied: tuple[str, ...] = ()


def as_planned(plan: Plan, at: datetime) -> DayState:
    """The day as though all had gone to the minute so far."""
    return DayState(
        started={task.id: task.start for task in plan.tasks if task.start < at},
        ended={task.id: task.end for task in plan.tasks if task.start < at and task.end <= at},
    )


def but_for(plan: Plan, planned: DayState, marked: DayState) -> DayState:
    """The day as planned but for what was marked: what comes after a late task has not begun.

    Args:
        plan: The plan.
        planned: From :func:`as_planned`.
        marked: What was marked, which goes before.
    """
    held = {name for name in marked.started if name not in marked.ended}
    after: dict[str, list[str]] = defaultdict(list)
    for name, entries in _before(plan).items():
        for each in entries:
            if each.ended and not each.by_end:
                after[each.task].append(name)
    fringe, waiting = list(held), set()
    while fringe:
        for name in after[fringe.pop()]:
            if name not in waiting and name not in marked.started and name not in marked.ended:
                waiting.add(name)
                fringe.append(name)
    off = waiting | held
    return replace(
        marked,
        started={n: at for n, at in planned.started.items() if n not in waiting}
        | dict(marked.started),
        ended={n: at for n, at in planned.ended.items() if n not in off} | dict(marked.ended),
    )


def so_far(plan: Plan, state: DayState, at: datetime) -> SoFar:
    """Every task that has begun by a minute, with what must have come before it.

    A task marked done or running without a time has its planned times, as far as they are not in
    the future. What runs is expected to last as planned, with the minutes that it is late, and at
    least a minute more.

    Raises:
        InputFault: A mark names no task of the plan, or a time that is not before ``at``.
    """
    tasks = {task.id: task for task in plan.tasks}
    state = _to_the_minute(state)
    _check(state, tasks, at)
    stands: dict[str, Stand] = {}
    for name, task in tasks.items():
        if name in state.ended:
            stands[name] = _over(task, state.started.get(name), state.ended[name])
        elif name in state.started:
            stands[name] = _running(task, state.started[name], state.late.get(name, 0), at)
    marked = set(stands)
    _imply(_before(plan), tasks, stands)
    return SoFar(stands, tuple(name for name in tasks if name in stands and name not in marked))


def _to_the_minute(state: DayState) -> DayState:
    """The marks without seconds, as a plan has none."""
    return replace(
        state,
        started={name: when.replace(second=0) for name, when in state.started.items()},
        ended={name: when.replace(second=0) for name, when in state.ended.items()},
    )


def _check(state: DayState, tasks: Mapping[str, Task], at: datetime) -> None:
    complaints = []
    for name, when in [*state.started.items(), *state.ended.items()]:
        if name not in tasks:
            what = f"{name!r} is no task of this plan"
            complaints.append(
                Complaint("progress", what, "a task's id, as in plan.json", nearest(name, tasks))
            )
        elif when > at:
            what = f"{name} is marked at {when:%H:%M}, after {at:%H:%M}"
            complaints.append(Complaint("progress", what, f"a time up to {at:%H:%M}"))
    if complaints:
        raise InputFault(complaints)


def _over(task: Task, start: datetime | None, end: datetime) -> Stand:
    """A task that is done; where its start is not known it lasted as planned."""
    began = start if start is not None else min(task.start, end - (task.end - task.start))
    return Stand(min(began, end), end, over=True)


def _running(task: Task, start: datetime, late: int, at: datetime) -> Stand:
    end = start + (task.end - task.start) + timedelta(minutes=late)
    return Stand(start, max(end, at + timedelta(minutes=1)), over=False)


@dataclass(frozen=True)
class _Before:
    """A task that must have begun, or ended, before another began or ended."""

    task: str
    ended: bool
    by_end: bool


def _before(plan: Plan) -> dict[str, list[_Before]]:
    """For each task what its lags put before it, and each task before its clean-down."""
    found: dict[str, list[_Before]] = defaultdict(list)
    for lag in plan.lags:
        if lag.min_minutes is not None and lag.min_minutes >= 0:
            found[lag.after].append(_Before(lag.before, lag.from_ == "end", lag.to == "end"))
    listed = {task.id for task in plan.tasks}
    for name in listed:
        if clean_down_of(name) in listed:
            found[clean_down_of(name)].append(_Before(name, ended=True, by_end=False))
    return found


def _imply(
    before: Mapping[str, Iterable[_Before]],
    tasks: Mapping[str, Task],
    stands: dict[str, Stand],
) -> None:
    """What has begun shows that what comes before it is over, or at least has begun."""
    fringe = list(stands)
    while fringe:
        name = fringe.pop()
        after = stands[name]
        for each in before.get(name, ()):
            if each.by_end and not after.over:
                continue
            old = stands.get(each.task)
            if each.task not in tasks or (old is not None and (old.over or not each.ended)):
                continue
            latest = after.end if each.by_end else after.start
            stands[each.task] = _implied(tasks[each.task], old, latest, over=each.ended)
            fringe.append(each.task)


def _implied(task: Task, old: Stand | None, latest: datetime, *, over: bool) -> Stand:
    """As planned, but no later than what came after it."""
    if not over:
        start = min(task.start, latest)
        return Stand(start, max(start + (task.end - task.start), latest), over=False)
    end = min(task.end, latest)
    start = min(task.start, end) if old is None else min(old.start, end)
    return Stand(start, end, over=True) if old is None else replace(old, end=end, over=True)
