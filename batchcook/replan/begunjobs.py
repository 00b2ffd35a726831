"""What has begun of a plan, in the words of the scheduling problem that it came from."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, replace

from batchcook.day.formulation import Formulation
from batchcook.plan import Plan, Task
from batchcook.replan.daysofar import SoFar
from batchcook.scheduling.begun import Begun
from batchcook.scheduling.breach import holds
from batchcook.scheduling.problem import Problem
from batchcook.scheduling.schedule import Schedule
from batchcook.scheduling.scheduleflow import clean_down_of

__all__ = ["begun_jobs", "continued_parts", "minute_of"]

_HOT = frozenset({"skillet", "pot", "oven"})
"""Stations at which work is not left standing until another cook is free."""


def begun_jobs(
    plan: Plan,
    formulation: Formulation,
    far: SoFar,
    at: dt.datetime,
    gone: frozenset[str] = frozenset(),
) -> dict[str, Begun]:
    """Every job that has begun.

    Args:
        plan: The plan.
        formulation: Its day, on any clock.
        far: What of it has begun.
        at: Now.
        gone: Cooks who leave now.
    """
    choices = {} if plan.order is None else plan.order.choices
    return _Reader(plan, formulation, far, minute_of(formulation, at), gone, choices).begun()


def minute_of(formulation: Formulation, at: dt.datetime) -> int:
    """The minute of an instant on a formulation's clock."""
    return int((at - formulation.clock.origin).total_seconds() // 60)


def continued_parts(plan: Plan, problem: Problem) -> dict[str, str]:
    """Each part of a plan that continued another of its family, with that other.

    Args:
        plan: The plan.
        problem: The whole problem that it came from.
    """
    tasks = {task.id: task for task in plan.tasks}
    ends: dict[tuple[str, str | None, dt.datetime], str] = {}
    parts = [
        (task, str(problem.tasks[task.id].family))
        for task in plan.tasks
        if task.id in problem.tasks and problem.tasks[task.id].family is not None
    ]
    for task, family in parts:
        if clean_down_of(task.id) not in tasks:
            ends[family, task.cook, task.end] = task.id
    found = {}
    for task, family in parts:
        earlier = ends.get((family, task.cook, task.start))
        if earlier is not None and earlier != task.id:
            found[task.id] = earlier
    return found


@dataclass(frozen=True)
class _Reader:
    """Reads what has begun off the plan, in the words of the scheduling problem."""

    plan: Plan
    formulation: Formulation
    far: SoFar
    now: int
    gone: frozenset[str]
    choices: Mapping[str, str]

    def _minute(self, at: dt.datetime) -> int:
        return minute_of(self.formulation, at)

    def begun(self) -> dict[str, Begun]:
        """Every job that has begun."""
        tasks = {task.id: task for task in self.plan.tasks}
        settings = {each.task: each.degF for each in self.plan.settings}
        before = continued_parts(self.plan, self.formulation.problem)
        found = {}
        for job in self.formulation.work.jobs:
            stand = self.far.stands.get(job.id)
            if stand is None or job.id not in tasks:
                continue
            mode, units = self._mode(tasks[job.id])
            found[job.id] = Begun(
                start=self._minute(stand.start),
                end=self._minute(stand.end),
                over=stand.over,
                mode=mode,
                stays=tasks[job.id].cook not in self.gone,
                waits=tasks[job.id].cook in self.gone and job.station not in _HOT,
                clean=self._clean(job.id, before),
                cleaned_by=self._cleaned_by(job.id),
                setting=settings.get(job.id),
                follows=before.get(job.id),
                units=units,
            )
        return self._with_free_hands(found)

    def _mode(self, task: Task) -> tuple[str, dict[str, tuple[str, ...]]]:
        """The mode of the problem in which the plan has a task, and its hands by name."""
        problem = self.formulation.problem
        modes = problem.tasks[task.id].modes
        for mode in modes:
            for name in mode.demands:
                units = problem.resources[name].units if name in problem.resources else ()
                if task.cook is not None and f"cook:{task.cook}" in units:
                    return mode.id, {name: (f"cook:{task.cook}",)}
                if task.cook is None and mode.id == name and name in task.uses:
                    return mode.id, {}
        return modes[0].id, {}

    def _clean(self, job: str, before: Mapping[str, str]) -> bool:
        """Whether nothing is left to clean up after a part, or it cannot be said yet."""
        family = self.formulation.problem.tasks[job].family
        if family is None or not self.far.stands[job].over:
            return family is None
        continued = any(
            earlier == job and later in self.far.stands for later, earlier in before.items()
        )
        cleaned = self.far.stands.get(clean_down_of(job))
        return continued or (cleaned is not None and cleaned.over)

    def _cleaned_by(self, job: str) -> int | None:
        """When the clean-down that is under way ends."""
        cleaned = self.far.stands.get(clean_down_of(job))
        if cleaned is None or cleaned.over:
            return None
        return self._minute(cleaned.end)

    def _with_free_hands(self, begun: Mapping[str, Begun]) -> dict[str, Begun]:
        """A part left to clean up stays where it is only if its hands and tools are free now."""
        problem = self.formulation.problem
        used = self._used(begun)
        busy = {
            unit
            for each in begun.values()
            if not each.over or each.cleaned_by is not None
            for units in each.units.values()
            for unit in units
        }
        found = {}
        for name, each in begun.items():
            waits = each.over and not each.clean and each.cleaned_by is None
            if waits:
                hands = {unit for units in each.units.values() for unit in units}
                needs = _demands(problem, name, each)
                fits = all(
                    used.get(resource, 0) + amount <= problem.resources[resource].capacity
                    for resource, amount in needs.items()
                )
                each = replace(each, stays=each.stays and fits and not hands & busy)  # noqa: PLW2901 - the same, corrected
                if each.stays:
                    busy |= hands
                    used |= {key: used.get(key, 0) + amount for key, amount in needs.items()}
            found[name] = each
        return found

    def _used(self, begun: Mapping[str, Begun]) -> dict[str, int]:
        """What is in use at this minute."""
        problem = self.formulation.problem
        used: dict[str, int] = {}
        for name, each in begun.items():
            if not each.over or each.cleaned_by is not None:
                for key, amount in _demands(problem, name, each).items():
                    used[key] = used.get(key, 0) + amount
        taken = Schedule({}, self.choices)
        for item in problem.occupancies:
            ended = item.until in begun and begun[item.until].over
            if (
                not ended
                and any(name in begun for name in item.fillers)
                and holds(taken, item.when)
            ):
                used[item.resource] = used.get(item.resource, 0) + item.amount
        for resource in problem.resources.values():
            for away in resource.absences:
                if away.start <= self.now < away.end:
                    used[resource.id] = used.get(resource.id, 0) + away.amount
        return used


def _demands(problem: Problem, task: str, state: Begun) -> Mapping[str, int]:
    return next(mode.demands for mode in problem.tasks[task].modes if mode.id == state.mode)
