"""For tests: a plan at other times than planned, its tasks, bowls and the events of its foods."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime, timedelta

from batchcook.foodsafety.clock import Breach, replay
from batchcook.foodsafety.events import FoodEvent
from batchcook.plan import Event, Plan, SharedRun, Task
from batchcook.quantities import Quantity
from batchcook.scheduling.retiming import Times

__all__ = ["food_breaches", "retimed_plan"]


def food_breaches(plan: Plan, times: Times, room: Quantity) -> list[Breach]:
    """Every food-safety limit that the day breaks if it goes on at these times.

    Told from what happens to each food alone, so that added-up spells count as well.

    Args:
        plan: The plan.
        times: Start and end of every task, in minutes from the plan's start.
        room: How warm the kitchen is.
    """
    events = retimed_plan(plan, times).events
    return list(
        replay([FoodEvent(e.dish, e.food, e.kind, e.event, e.at, e.task) for e in events], room)
    )


def retimed_plan(plan: Plan, times: Times) -> Plan:
    """The plan with its tasks at these times, and with them runs, bowls and events.

    Deadlines, freezer times and labels stay as they were planned. An event before the end of its
    task moves with its start, another with its end.

    Args:
        plan: The plan.
        times: Start and end of every task, in minutes from the plan's start.
    """
    tasks = tuple(
        task.model_copy(
            update={"start": _at(plan, times[task.id][0]), "end": _at(plan, times[task.id][1])}
        )
        for task in plan.tasks
    )
    return plan.model_copy(
        update={
            "tasks": tasks,
            "finish": max((task.end for task in tasks), default=plan.finish),
            "events": _events(plan, times),
            "shared": tuple(_run(plan, times, run) for run in plan.shared),
        }
    )


def _at(plan: Plan, minute: int) -> datetime:
    return plan.start + timedelta(minutes=minute)


def _events(plan: Plan, times: Times) -> tuple[Event, ...]:
    """The events of each food in their order, at their tasks' new times."""
    chains: dict[tuple[str, str], list[int]] = defaultdict(list)
    for place, event in enumerate(plan.events):
        chains[event.dish, event.food].append(place)
    planned = {task.id: task for task in plan.tasks}
    moved: dict[int, Event] = {}
    for places in chains.values():
        chain = _chain_moved(plan, times, planned, [plan.events[place] for place in places])
        moved |= dict(zip(places, chain, strict=True))
    return tuple(sorted((moved[place] for place in sorted(moved)), key=lambda event: event.at))


def _chain_moved(
    plan: Plan, times: Times, planned: Mapping[str, Task], chain: Sequence[Event]
) -> Iterator[Event]:
    """One food's events: none before the one before it, as nothing happens to food elsewhere."""
    last: datetime | None = None
    before: datetime | None = None
    for event in chain:
        at = event.at
        task = planned.get(event.task)
        if task is not None:
            start, end = (_at(plan, minute) for minute in times[task.id])
            waited = event.at == before and event.at > task.end
            at = start if event.at < task.end else end
            if not waited:
                at += event.at - (task.start if event.at < task.end else task.end)
        before = event.at
        last = at if last is None else max(last, at)
        yield event.model_copy(update={"at": last})


def _run(plan: Plan, times: Times, run: SharedRun) -> SharedRun:
    """A run from the start of its first part to the end of the last, clean-down included."""
    parts = [task.id for task in plan.tasks if task.run == run.id]
    if not parts:
        return run
    return run.model_copy(
        update={
            "start": _at(plan, min(times[part][0] for part in parts)),
            "end": _at(plan, max(times[part][1] for part in parts)),
            "bowls": tuple(
                bowl.model_copy(update={"ready": _at(plan, times[bowl.task][1])})
                for bowl in run.bowls
            ),
        }
    )
