"""An oracle for small problems: what is a sound schedule, and which is best, by trying them all.

It shares nothing with the package but the types, and looks at a schedule minute by minute.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations, product

from batchcook.scheduling.problem import Condition, Mode, Problem, Resource, Task
from batchcook.scheduling.schedule import Done, Schedule, WarmUp

__all__ = ["best_values", "is_sound", "values_of"]

Values = tuple[int, int, int]


def _true(choices: dict[str, str], conditions: tuple[Condition, ...]) -> bool:
    return all(choices.get(item.choice) in item.options for item in conditions)


def is_sound(problem: Problem, schedule: Schedule) -> bool:
    """Whether a schedule keeps every rule, its named units included."""
    return _is_timely(problem, schedule) and _units_fit(problem, schedule)


def _is_timely(problem: Problem, schedule: Schedule) -> bool:
    """Whether a schedule keeps every rule but those of named units."""
    choices = dict(schedule.choices)
    if set(choices) != set(problem.choices):
        return False
    if any(choices[name] not in item.options for name, item in problem.choices.items()):
        return False
    due = {name for name, task in problem.tasks.items() if _true(choices, task.when)}
    if due != set(schedule.tasks):
        return False
    return (
        all(_shape(problem, schedule, name) for name in due)
        and _limits(problem, schedule)
        and _minutes(problem, schedule)
        and _warmth(problem, schedule)
    )


def _mode(problem: Problem, schedule: Schedule, name: str) -> Mode | None:
    chosen = schedule.tasks[name].mode
    return next((mode for mode in problem.tasks[name].modes if mode.id == chosen), None)


def _uses(problem: Problem, schedule: Schedule, name: str, resource: str) -> int:
    mode = _mode(problem, schedule, name)
    return 0 if mode is None else mode.demands.get(resource, 0)


def _shape(problem: Problem, schedule: Schedule, name: str) -> bool:
    """One task by itself: its mode, its lengths, what it follows, its window."""
    task, done = problem.tasks[name], schedule.tasks[name]
    mode = _mode(problem, schedule, name)
    if mode is None or not _true(dict(schedule.choices), mode.when):
        return False
    before = after = 0
    if task.family is not None:
        family = problem.families[task.family]
        before = family.set_up if done.follows is None else 0
        followers = [other for other in schedule.tasks.values() if other.follows == name]
        after = 0 if followers else family.clean_down
        if len(followers) > 1:
            return False
    if done.follows is not None and not _continues(problem, schedule, name):
        return False
    if (done.work, done.end) != (done.start + before, done.start + before + mode.duration):
        return False
    early = done.start >= 0 and (task.earliest is None or task.earliest <= done.start)
    late = done.release <= problem.horizon and (task.latest is None or done.end <= task.latest)
    allowed = done.setting in task.settings if task.settings else done.setting is None
    return done.release == done.end + after and early and late and allowed


def _continues(problem: Problem, schedule: Schedule, name: str) -> bool:
    done = schedule.tasks[name]
    before = schedule.tasks.get(done.follows or "")
    if before is None or done.follows == name:
        return False
    family = problem.tasks[name].family
    alike = all(
        _uses(problem, schedule, name, resource.id)
        == _uses(problem, schedule, done.follows or "", resource.id)
        for resource in problem.resources.values()
        if resource.units
    )
    return (
        family is not None
        and problem.tasks[done.follows or ""].family == family
        and before.end == done.start
        and before.mode == done.mode
        and alike
    )


def _minute(done: Done, anchor: str) -> int:
    return {"start": done.start, "end": done.end}[anchor]


def _limits(problem: Problem, schedule: Schedule) -> bool:
    """Lags and budgets."""
    tasks = schedule.tasks
    for lag in problem.lags:
        if lag.before in tasks and lag.after in tasks and _true(dict(schedule.choices), lag.when):
            gap = _minute(tasks[lag.after], lag.to) - _minute(tasks[lag.before], lag.origin)
            if lag.low is not None and gap < lag.low:
                return False
            if lag.high is not None and gap > lag.high:
                return False
    for budget in problem.budgets:
        total = 0
        for span in budget.spans:
            if span.before in tasks and span.after in tasks:
                total += _minute(tasks[span.after], span.to)
                total -= _minute(tasks[span.before], span.origin)
        if total > budget.limit:
            return False
    return True


def _kept(problem: Problem, schedule: Schedule) -> list[tuple[str, int, int, int]] | None:
    """Resource, start, end and amount of each occupancy; None where one never ends."""
    kept = []
    for item in problem.occupancies:
        starts = [schedule.tasks[name].start for name in item.fillers if name in schedule.tasks]
        if starts and _true(dict(schedule.choices), item.when):
            if item.until not in schedule.tasks:
                return None
            kept.append((item.resource, min(starts), schedule.tasks[item.until].end, item.amount))
    return kept


def _minutes(problem: Problem, schedule: Schedule) -> bool:
    """Every resource at every minute."""
    kept = _kept(problem, schedule)
    return kept is not None and all(
        _used(problem, schedule, resource, kept, minute) <= _there(resource, minute)
        for resource in problem.resources.values()
        for minute in range(problem.horizon)
    )


def _there(resource: Resource, minute: int) -> int:
    away = sum(item.amount for item in resource.absences if item.start <= minute < item.end)
    return max(resource.capacity - away, 0)


def _used(
    problem: Problem,
    schedule: Schedule,
    resource: Resource,
    kept: list[tuple[str, int, int, int]],
    minute: int,
) -> int:
    used = 0
    for name, done in schedule.tasks.items():
        if done.start <= minute < done.release:
            used += _uses(problem, schedule, name, resource.id)
    for owner, start, end, amount in kept:
        used += amount if owner == resource.id and start <= minute < end else 0
    for item in schedule.warm_ups:
        if item.resource == resource.id and item.start <= minute < item.end:
            used += resource.capacity
    return used


def _warmth(problem: Problem, schedule: Schedule) -> bool:
    """Settings and warm-ups."""
    return all(_fits(problem, schedule, item) for item in schedule.warm_ups) and all(
        _one_setting(problem, schedule, resource)
        and all(
            _is_warm(problem, schedule, resource, name)
            for name in schedule.tasks
            if _uses(problem, schedule, name, resource.id)
        )
        for resource in problem.resources.values()
        if resource.warm_up is not None
    )


def _fits(problem: Problem, schedule: Schedule, item: WarmUp) -> bool:
    done = schedule.tasks.get(item.task)
    length = problem.resources[item.resource].warm_up
    if done is None or length is None or not _uses(problem, schedule, item.task, item.resource):
        return False
    times = (item.start, item.end, item.setting)
    return times == (done.start - length, done.start, done.setting) and item.start >= 0


def _one_setting(problem: Problem, schedule: Schedule, resource: Resource) -> bool:
    for minute in range(problem.horizon):
        at_work = {
            done.setting
            for name, done in schedule.tasks.items()
            if done.start <= minute < done.release and _uses(problem, schedule, name, resource.id)
        }
        if len(at_work) > 1:
            return False
    return True


def _is_warm(problem: Problem, schedule: Schedule, resource: Resource, name: str) -> bool:
    """Whether a task has a warm-up or an earlier task on the resource keeps its setting."""
    if any((item.task, item.resource) == (name, resource.id) for item in schedule.warm_ups):
        return True
    done = schedule.tasks[name]
    order = list(problem.tasks)
    for other, first in schedule.tasks.items():
        ahead = first.start < done.start or (
            first.start == done.start and order.index(other) < order.index(name)
        )
        warm = done.start - first.end <= resource.keeps and first.setting == done.setting
        if ahead and warm and _uses(problem, schedule, other, resource.id):
            return True
    return False


def _units_fit(problem: Problem, schedule: Schedule) -> bool:
    """Named units: as many as demanded, in one place at a time, kept along a run."""
    for name, done in schedule.tasks.items():
        if set(done.units) - {item.id for item in problem.resources.values() if item.units}:
            return False
        for resource in problem.resources.values():
            if not resource.units:
                continue
            units = done.units.get(resource.id, ())
            needed = _uses(problem, schedule, name, resource.id)
            if len(set(units)) != needed or len(units) != needed:
                return False
            if not set(units) <= set(resource.units):
                return False
            if done.follows is not None:
                before = schedule.tasks[done.follows].units.get(resource.id, ())
                if set(before) != set(units):
                    return False
    return all(
        _in_one_place(problem, schedule, resource.id, unit)
        for resource in problem.resources.values()
        for unit in resource.units
    )


def _in_one_place(problem: Problem, schedule: Schedule, name: str, unit: str) -> bool:
    resource = problem.resources[name]
    for minute in range(problem.horizon):
        places = sum(
            done.start <= minute < done.release and unit in done.units.get(name, ())
            for done in schedule.tasks.values()
        )
        for absence, units in zip(resource.absences, resource.absence_units, strict=True):
            places += absence.start <= minute < absence.end and unit in units
        if places > 1 and any(
            done.start <= minute < done.release and unit in done.units.get(name, ())
            for done in schedule.tasks.values()
        ):
            return False
    return True


def values_of(problem: Problem, schedule: Schedule) -> Values:
    """Makespan, hands and waiting of a schedule."""
    tasks = schedule.tasks
    last = max((done.release for done in tasks.values()), default=0)
    begun = [*(done.start for done in tasks.values()), *(each.start for each in schedule.warm_ups)]
    first = min(begun, default=0)
    hands = sum(
        _uses(problem, schedule, name, hand) * (done.release - done.start)
        for name, done in tasks.items()
        for hand in problem.hands
    )
    waiting = 0
    for lag in problem.lags:
        if lag.before in tasks and lag.after in tasks and _true(dict(schedule.choices), lag.when):
            gap = _minute(tasks[lag.after], lag.to) - _minute(tasks[lag.before], lag.origin)
            waiting += lag.weight * max(gap - (lag.low or 0), 0)
    return last - first if problem.free_origin else last, hands, waiting


def best_values(problem: Problem) -> Values | None:
    """The lexicographically least values over all schedules, or None where there is none."""
    best: Values | None = None
    for schedule in _all_timings(problem):
        values = values_of(problem, schedule)
        if (
            (best is None or values < best)
            and _is_timely(problem, schedule)
            and _can_be_manned(problem, schedule)
        ):
            best = values
    return best


def _all_timings(problem: Problem) -> Iterator[Schedule]:
    options = [[(item.id, option) for option in item.options] for item in problem.choices.values()]
    for taken in product(*options):
        choices = dict(taken)
        due = [task for task in problem.tasks.values() if _true(choices, task.when)]
        for follows in product(*([None, *_family_of(task, due)] for task in due)):
            named = [name for name in follows if name is not None]
            if len(named) == len(set(named)):
                yield from _timings(problem, choices, due, follows)


def _family_of(task: Task, due: list[Task]) -> list[str]:
    return [
        other.id
        for other in due
        if task.family is not None and other.family == task.family and other != task
    ]


def _timings(
    problem: Problem, choices: dict[str, str], due: list[Task], follows: tuple[str | None, ...]
) -> Iterator[Schedule]:
    ways = []
    for task, before in zip(due, follows, strict=True):
        family = problem.families.get(task.family or "")
        set_up = family.set_up if family is not None and before is None else 0
        clean = family.clean_down if family is not None and task.id not in follows else 0
        ways.append(
            [
                Done(start, start + set_up, end, end + clean, mode.id, before, setting)
                for mode in task.modes
                for start in range(problem.horizon + 1)
                for end in [start + set_up + mode.duration]
                if end + clean <= problem.horizon
                for setting in (task.settings or (None,))
            ]
        )
    for dones in product(*ways):
        tasks = {task.id: done for task, done in zip(due, dones, strict=True)}
        if any(
            done.follows is not None and tasks[done.follows].end != done.start
            for done in tasks.values()
        ):
            continue
        yield from _warmed(problem, Schedule(tasks, choices))


def _warmed(problem: Problem, schedule: Schedule) -> Iterator[Schedule]:
    """The schedule with every set of warm-ups that could be."""
    possible = [
        WarmUp(item.id, done.start - item.warm_up, done.start, done.setting or 0, name)
        for item in problem.resources.values()
        if item.warm_up is not None
        for name, done in schedule.tasks.items()
        if _uses(problem, schedule, name, item.id)
    ]
    for count in range(len(possible) + 1):
        for chosen in combinations(possible, count):
            yield replace(schedule, warm_ups=chosen)


def _can_be_manned(problem: Problem, schedule: Schedule) -> bool:
    """Whether some naming of units is sound."""
    places = [
        (name, resource)
        for name in schedule.tasks
        for resource in problem.resources.values()
        if resource.units and _uses(problem, schedule, name, resource.id)
    ]
    if not places:
        return True
    for picks in product(
        *(
            combinations(resource.units, _uses(problem, schedule, name, resource.id))
            for name, resource in places
        )
    ):
        units: dict[str, dict[str, tuple[str, ...]]] = {name: {} for name in schedule.tasks}
        for (name, resource), pick in zip(places, picks, strict=True):
            units[name][resource.id] = pick
        tasks = {name: replace(done, units=units[name]) for name, done in schedule.tasks.items()}
        if _units_fit(problem, replace(schedule, tasks=tasks)):
            return True
    return False
