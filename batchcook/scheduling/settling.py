"""Settings brought as near as can be to what each task would have by itself."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from batchcook.scheduling.problem import Problem
from batchcook.scheduling.schedule import Schedule, WarmUp

__all__ = ["settled"]


def settled(problem: Problem, schedule: Schedule, wanted: Mapping[str, int]) -> Schedule:
    """The same schedule, each stretch between two warm-ups at the setting that suits it best.

    A solver only sees that a setting is allowed; which of those allowed is best, it does not ask.

    Args:
        problem: The problem.
        schedule: A schedule that keeps all its rules.
        wanted: For tasks with settings, the one each would have by itself.
    """
    tasks = dict(schedule.tasks)
    warm_ups = []
    for warm_up in schedule.warm_ups:
        members = _at_heat_of(warm_up, schedule)
        choice = set.intersection(*(set(problem.tasks[name].settings) for name in members))
        best = min(
            choice, key=lambda value: (sum(abs(value - wanted[name]) for name in members), value)
        )
        warm_ups.append(replace(warm_up, setting=best))
        tasks |= {name: replace(tasks[name], setting=best) for name in members}
    return replace(schedule, tasks=tasks, warm_ups=tuple(warm_ups))


def _at_heat_of(warm_up: WarmUp, schedule: Schedule) -> list[str]:
    """The tasks on its resource from one warm-up to the next."""
    later = [
        each.start
        for each in schedule.warm_ups
        if each.resource == warm_up.resource and each.start > warm_up.start
    ]
    until = min(later, default=None)
    return [
        name
        for name, done in schedule.tasks.items()
        if done.setting is not None
        and done.mode == warm_up.resource
        and warm_up.end <= done.start
        and (until is None or done.start <= until)
    ]
