"""Checks of resources that keep a setting."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from batchcook.scheduling.breach import Breach, demand, tie
from batchcook.scheduling.problem import Problem, Resource
from batchcook.scheduling.schedule import Schedule

__all__ = ["settings_agree", "warm_ups_fit", "warmth_is_there"]


def _users(problem: Problem, schedule: Schedule, resource: Resource) -> list[str]:
    return [name for name in schedule.tasks if demand(problem, schedule, name, resource.id) > 0]


def settings_agree(problem: Problem, schedule: Schedule) -> Iterator[Breach]:
    """A task's setting is one of its own, and tasks that overlap on a resource share one."""
    for name, done in schedule.tasks.items():
        allowed = problem.tasks[name].settings
        if (done.setting is not None or allowed) and done.setting not in allowed:
            yield Breach("settings", (name,), f"{name} is set to {done.setting}, not of {allowed}")
    for resource in problem.resources.values():
        if resource.warm_up is None:
            continue
        for pair in combinations(_users(problem, schedule, resource), 2):
            one, other = (schedule.tasks[name] for name in pair)
            if (
                max(one.start, other.start) < min(one.release, other.release)
                and one.setting != other.setting
            ):
                yield Breach(
                    "settings",
                    (resource.id, *pair),
                    f"{pair[0]} and {pair[1]} share {resource.id} at different settings",
                )


def warm_ups_fit(problem: Problem, schedule: Schedule) -> Iterator[Breach]:
    """A warm-up lasts as long as the resource needs and ends where its task starts."""
    for item in schedule.warm_ups:
        done = schedule.tasks[item.task]
        length = problem.resources[item.resource].warm_up
        if (
            item.end - item.start != length
            or item.end != done.start
            or item.start < 0
            or item.setting != done.setting
            or demand(problem, schedule, item.task, item.resource) == 0
        ):
            yield Breach(
                "warm-ups",
                (item.resource, item.task),
                f"the warm-up of {item.resource} from {item.start} to {item.end} does not fit "
                f"{item.task}",
            )


def warmth_is_there(problem: Problem, schedule: Schedule) -> Iterator[Breach]:
    """A task has a warm-up of its own, or one before it keeps its setting until it starts."""
    warmed = {(item.resource, item.task) for item in schedule.warm_ups}
    for resource in problem.resources.values():
        if resource.warm_up is None:
            continue
        users = _users(problem, schedule, resource)
        for name in users:
            done = schedule.tasks[name]
            kept = any(
                schedule.tasks[other].setting == done.setting
                and tie(problem, schedule, other) < tie(problem, schedule, name)
                and schedule.tasks[other].end >= done.start - resource.keeps
                for other in users
            )
            if not kept and (resource.id, name) not in warmed:
                yield Breach(
                    "warm-ups", (resource.id, name), f"{resource.id} is not warm for {name}"
                )
