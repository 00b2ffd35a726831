"""The old plan carried on: nothing changed but the times, over the network behind it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

from batchcook.plan import Plan, Task
from batchcook.plans.network import minute_of as planned_minute
from batchcook.plans.network import network_of_plan
from batchcook.replan.begunjobs import continued_parts, minute_of
from batchcook.replan.daysofar import SoFar
from batchcook.replan.restofday import RestOfDay
from batchcook.scheduling.check import check
from batchcook.scheduling.problem import Mode
from batchcook.scheduling.remaining import NOW
from batchcook.scheduling.retiming import Times, retime
from batchcook.scheduling.schedule import Done, Schedule, WarmUp

__all__ = ["carried_on"]

_PREHEAT = "preheat"


def carried_on(plan: Plan, rest: RestOfDay, far: SoFar, at: dt.datetime) -> Schedule | None:
    """A sound schedule of the rest in the order of the old plan, or None where there is none.

    Args:
        plan: The old plan.
        rest: The rest of its day.
        far: How far it has come.
        at: Now.
    """
    fixed = {
        name: (planned_minute(plan, stand.start), planned_minute(plan, stand.end))
        for name, stand in far.stands.items()
    }
    times = retime(
        network_of_plan(plan), {}, fixed=fixed, now=planned_minute(plan, at), as_scheduled=True
    )
    schedule = _Carried(plan, rest, times).schedule()
    return None if schedule is None or check(rest.problem, schedule) else schedule


class _Carried:
    """Reads the retimed plan as a schedule of what is left."""

    def __init__(self, plan: Plan, rest: RestOfDay, times: Times) -> None:
        since = minute_of(rest.whole, plan.start)
        self._rest = rest
        self._times = {name: (a + since, b + since) for name, (a, b) in times.items()}
        self._tasks = {task.id: task for task in plan.tasks}
        self._settings = {each.task: each.degF for each in plan.settings}
        left = rest.problem.tasks.keys()
        self._before = {
            name: before
            for name, before in continued_parts(plan, rest.whole.problem).items()
            if name in left and before in left
        }

    def schedule(self) -> Schedule | None:
        """All that is left to do; None where the plan does not have it."""
        now, problem = self._rest.now, self._rest.problem
        choices = dict(self._rest.choices)
        tasks = {NOW: Done(now, now, now, now, NOW)}
        for name in problem.tasks:
            if name == NOW:
                continue
            done = self._done(name) if name in self._times else None
            if done is not None:
                tasks[name] = done
        taken = {name: choices.get(name, item.options[0]) for name, item in problem.choices.items()}
        return Schedule(tasks, taken, tuple(self._warm_ups(tasks)))

    def _done(self, name: str) -> Done | None:
        task = self._rest.problem.tasks[name]
        family = self._rest.problem.families.get(task.family or "")
        state = self._rest.begun.get(name)
        chosen = self._mode(name, self._tasks[name])
        if chosen is None:
            return None
        mode, units = chosen
        follows = self._before.get(name) if state is None else None
        set_up = family.set_up if family is not None and follows is None else 0
        start = self._times[name][0]
        if state is not None:
            start = (task.earliest or 0) if task.latest is not None else self._rest.now - set_up - 1
        end = start + set_up + mode.duration
        last = name not in self._before.values()
        return Done(
            start=start,
            work=start + set_up,
            end=end,
            release=end + (family.clean_down if family is not None and last else 0),
            mode=mode.id,
            follows=follows,
            setting=self._settings.get(name) if task.settings else None,
            units=units,
        )

    def _mode(self, name: str, task: Task) -> tuple[Mode, Mapping[str, tuple[str, ...]]] | None:
        resources = self._rest.problem.resources
        modes = self._rest.problem.tasks[name].modes
        if task.cook is None:
            fitting = [mode for mode in modes if mode.id in task.uses] or list(modes)
            return fitting[0], {}
        unit = f"cook:{task.cook}"
        for mode in modes:
            for each in mode.demands:
                if unit in resources[each].units:
                    return mode, {each: (unit,)}
        return None

    def _warm_ups(self, tasks: Mapping[str, Done]) -> list[WarmUp]:
        """Those of the plan that are to come, and those of what is in the oven."""
        found = []
        warmed: set[str] = set()
        for name, done in sorted(tasks.items(), key=lambda each: each[1].start):
            oven = next(
                (each for each in self._ovens(name, done) if done.setting is not None), None
            )
            if oven is None or done.setting is None:
                continue
            length = self._rest.problem.resources[oven].warm_up or 0
            if name in self._rest.begun:
                if oven in warmed:
                    continue
                warmed.add(oven)
            elif not self._planned_warm_up(name, oven):
                continue
            found.append(WarmUp(oven, done.start - length, done.start, done.setting, name))
        return found

    def _ovens(self, name: str, done: Done) -> list[str]:
        resources = self._rest.problem.resources
        modes = self._rest.problem.tasks[name].modes
        demands = next(mode.demands for mode in modes if mode.id == done.mode)
        return [each for each in demands if resources[each].warm_up is not None]

    def _planned_warm_up(self, name: str, oven: str) -> bool:
        """Whether the plan turns the oven on for this very task."""
        start = self._tasks[name].start
        return any(
            task.technique == _PREHEAT and oven in task.uses and task.end == start
            for task in self._tasks.values()
        )
