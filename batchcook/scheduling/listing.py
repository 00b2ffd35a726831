"""Schedules by list: the most urgent task that can be placed goes where it first fits.

The serial schedule generation scheme (Kolisch, European Journal of Operational Research 90
(1996) 320-333), by most work remaining. Where a maximal lag is missed, the task it counts from
is moved later and all is placed again.
"""

from __future__ import annotations

import random
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from batchcook.scheduling.check import check
from batchcook.scheduling.conditions import hold, minute_of
from batchcook.scheduling.network import network
from batchcook.scheduling.placing import Place, Table
from batchcook.scheduling.problem import Budget, Lag, Problem, Span, Task
from batchcook.scheduling.schedule import Done, Schedule
from batchcook.scheduling.units import assign_units

__all__ = ["list_schedule", "makespan"]

_RETRIES = 60
_SPREAD = 0.3
_FIXED = 10  # minutes by which a task may move that is as good as fixed


def list_schedule(
    problem: Problem, *, samples: int = 1, by_group: bool = False, seed: int = 1
) -> Schedule | None:
    """Place the tasks one by one, most work remaining first.

    Args:
        problem: What to schedule.
        samples: How many lists to try; the first is by most work remaining, further ones vary it
            and take all tasks of a group before those of the next.
        by_group: Take one group after another in the first list too.
        seed: For the variation.

    Returns:
        The shortest schedule found, sound by :func:`~batchcook.scheduling.check.check`, or None:
        a list may fail where a schedule exists.
    """
    rng = random.Random(seed)  # noqa: S311 - variety, not secrecy
    bounds = network(problem)
    least = {span: bounds.apart(span) or 0 for budget in problem.budgets for span in budget.spans}
    best: Schedule | None = None
    for sample in range(samples):
        choices = {
            name: options[0] if sample <= 1 else rng.choice(options)
            for name, options in _early_choices(problem).items()
        }
        urgency = {
            task.id: (bounds.tails[task.id] + min(mode.duration for mode in task.modes))
            * (1 if sample == 0 else rng.uniform(1 - _SPREAD, 1 + _SPREAD))
            for task in problem.tasks.values()
        }
        table = _List(
            problem, choices, urgency, by_group=by_group or sample > 0, least=least
        ).placed()
        found = None if table is None else _sound(problem, table)
        if found is not None and (
            best is None or makespan(problem, found) < makespan(problem, best)
        ):
            best = found
    return best


def _sound(problem: Problem, table: Table) -> Schedule | None:
    """The schedule of a table, if it keeps every rule."""
    schedule, _ = assign_units(problem, table.schedule(), table.shares())
    return None if check(problem, schedule) else schedule


def _early_choices(problem: Problem) -> dict[str, tuple[str, ...]]:
    """The choices that decide more than which resource an occupancy keeps."""
    conditions = [
        *(item for task in problem.tasks.values() for item in task.when),
        *(item for task in problem.tasks.values() for mode in task.modes for item in mode.when),
        *(item for lag in problem.lags for item in lag.when),
    ]
    names = {item.choice for item in conditions}
    kept = {item.choice for occupancy in problem.occupancies for item in occupancy.when}
    return {
        choice.id: choice.options
        for choice in problem.choices.values()
        if choice.id in names or choice.id not in kept
    }


def makespan(problem: Problem, schedule: Schedule) -> int:
    """The length of a schedule's day, in minutes."""
    first = schedule.first if problem.free_origin else 0
    return max((item.release for item in schedule.tasks.values()), default=0) - first


@dataclass
class _List:
    """One list and what is needed to place it."""

    problem: Problem
    choices: Mapping[str, str]
    urgency: Mapping[str, float]
    by_group: bool
    least: Mapping[Span, int]

    def __post_init__(self) -> None:
        """Find out which group is most urgent, and which tasks end spans of budgets."""
        self._shortest = {
            task.id: min(mode.duration for mode in task.modes)
            for task in self.problem.tasks.values()
        }
        self._budgets: dict[str, list[Budget]] = {}
        for budget in self.problem.budgets:
            for name in {span.after for span in budget.spans}:
                self._budgets.setdefault(name, []).append(budget)
        self._groups: dict[str | None, float] = {}
        for task in self.problem.tasks.values():
            old = self._groups.get(task.group, 0)
            self._groups[task.group] = max(old, self.urgency[task.id])

    def placed(self) -> Table | None:
        """All tasks that are due, placed; None if it does not come out."""
        due = [task for task in self.problem.tasks.values() if hold(self.choices, task.when)]
        names = {task.id for task in due}
        lags: dict[str, list[Lag]] = {task.id: [] for task in due}
        for lag in self.problem.lags:
            if lag.before in names and lag.after in names and hold(self.choices, lag.when):
                lags[lag.before].append(lag)
                if lag.after != lag.before:
                    lags[lag.after].append(lag)
        floors: dict[str, int] = {}
        for attempt in range(_RETRIES):
            table = Table(self.problem, dict(self.choices))
            missed = self._fill(table, due, lags, floors)
            if missed is None:
                return None
            if not missed:
                return table
            for name, late in missed.items():
                # The longer it does not come out, the further things are moved at a time.
                floors[name] = table.placed[name].done.start + late + attempt // 8
            if not self._spread(floors, missed, lags):
                return None
        return None

    def _spread(
        self, floors: dict[str, int], moved: Iterable[str], lags: Mapping[str, list[Lag]]
    ) -> bool:
        """Move what hangs together with the moved tasks by lags; False past the horizon."""
        fringe = list(moved)
        while fringe:
            name = fringe.pop()
            if floors[name] > self.problem.horizon:
                return False
            for lag in lags[name]:
                other, least = self._pushed(name, floors[name], lag)
                if least > floors.get(other, 0):
                    floors[other] = least
                    fringe.append(other)
        return True

    def _pushed(self, name: str, floor: int, lag: Lag) -> tuple[str, int]:
        """The other task of a lag, and its least start where this one starts at a floor."""
        before, after = (
            self._shortest[lag.before] if lag.origin == "end" else 0,
            self._shortest[lag.after] if lag.to == "end" else 0,
        )
        if name == lag.before:
            return lag.after, 0 if lag.low is None else floor + before + lag.low - after
        return lag.before, 0 if lag.high is None else floor + after - lag.high - before

    def _fill(
        self,
        table: Table,
        due: list[Task],
        lags: Mapping[str, list[Lag]],
        floors: Mapping[str, int],
    ) -> dict[str, int] | None:
        """Place what is due.

        Returns:
            Nothing in it if all is placed, else the tasks that must move later, with the minutes;
            None where a task has no place at all.
        """
        waiting = {task.id: task for task in due}
        before = {
            task.id: {
                lag.before
                for lag in lags[task.id]
                if lag.after == task.id != lag.before and lag.low is not None
            }
            for task in due
        }
        family = None
        while waiting:
            ready = [
                task for task in waiting.values() if waiting.keys().isdisjoint(before[task.id])
            ]
            ready.sort(key=lambda task: self._rank(task, family))
            for task in ready:
                place = self._place(table, task, lags[task.id], floors.get(task.id, 0))
                if place is not None:
                    break
            else:
                return None
            if task.latest is not None and place.done.end > task.latest:
                return None
            missed = _missed(table, task, place.done, lags[task.id])
            if missed:
                return missed
            table.put(task.id, place)
            missed = self._overspent(table, task)
            if missed:
                return missed
            del waiting[task.id]
            family = task.family
        return {}

    def _overspent(self, table: Table, task: Task) -> dict[str, int]:
        """The task to move later, where the spans that a task ends leave a budget too small."""
        missed: dict[str, int] = {}
        for budget in self._budgets.get(task.id, ()):
            spans = [
                span
                for span in budget.spans
                if span.before in table.placed and span.after in table.placed
            ]
            lengths = {
                span: table.anchored(span.after, span.to) - table.anchored(span.before, span.origin)
                for span in spans
            }
            late = sum(lengths.values()) - budget.limit
            if late <= 0 or not spans:
                continue
            # Only a span that is longer than it must be can be made shorter.
            longest = max(spans, key=lambda span: lengths[span] - self.least[span])
            late = max(min(late, lengths[longest] - self.least[longest]), 1)
            missed[longest.before] = max(late, missed.get(longest.before, 0))
        return missed

    def _rank(self, task: Task, family: str | None) -> tuple[float, ...]:
        """Sorts the tasks that are ready: by group, or else the family at hand first.

        Before all others come those that can be nowhere else in time.
        """
        longest = max(mode.duration for mode in task.modes)
        free = (
            task.earliest is None
            or task.latest is None
            or task.latest - task.earliest > longest + _FIXED
        )
        if self.by_group:
            return (free, -self._groups[task.group], -self.urgency[task.id])
        return (free, family is None or task.family != family, -self.urgency[task.id])

    def _place(self, table: Table, task: Task, lags: list[Lag], floor: int) -> Place | None:
        """The place where the task ends first, over its modes, alone or in a run."""
        found = []
        for mode in task.modes:
            if not hold(table.choices, mode.when):
                continue
            family = self.problem.families.get(task.family or "")
            if family is not None:
                earliest = _earliest(table, task, lags, floor, mode.duration)
                place = table.continued(task, mode, earliest)
                if place is not None:
                    found.append(place)
            length = mode.duration + (family.set_up if family else 0)
            place = table.fresh(task, mode, _earliest(table, task, lags, floor, length))
            if place is not None:
                found.append(place)
        return min(found, key=lambda place: place.done.end, default=None)


def _earliest(table: Table, task: Task, lags: list[Lag], floor: int, length: int) -> int:
    """The first start that the lags with placed tasks allow, for a length up to the work's end."""
    starts = [floor, task.earliest or 0]
    for lag in lags:
        if lag.after == task.id and lag.before in table.placed and lag.low is not None:
            offset = length if lag.to == "end" else 0
            starts.append(table.anchored(lag.before, lag.origin) + lag.low - offset)
        if lag.before == task.id and lag.after in table.placed and lag.high is not None:
            offset = length if lag.origin == "end" else 0
            starts.append(table.anchored(lag.after, lag.to) - lag.high - offset)
    return max(starts)


def _missed(table: Table, task: Task, done: Done, lags: list[Lag]) -> dict[str, int]:
    """The placed tasks that must move later, where a place misses lags, with the minutes."""
    missed: dict[str, int] = {}
    for lag in lags:
        if lag.after == task.id and lag.before in table.placed and lag.high is not None:
            late = minute_of(done, lag.to) - table.anchored(lag.before, lag.origin) - lag.high
            missed[lag.before] = max(late, missed.get(lag.before, 0))
        if lag.before == task.id and lag.after in table.placed and lag.low is not None:
            late = lag.low - (table.anchored(lag.after, lag.to) - minute_of(done, lag.origin))
            missed[lag.after] = max(late, missed.get(lag.after, 0))
    return {name: late for name, late in missed.items() if late > 0}
