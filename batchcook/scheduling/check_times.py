"""Checks of times: durations, runs, windows, lags and budgets."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from batchcook.scheduling.breach import Breach, at, demand, holds, mode_of
from batchcook.scheduling.problem import Budget, Problem
from batchcook.scheduling.schedule import Schedule

__all__ = ["budgets_hold", "lags_hold", "runs_are_tight", "times_add_up", "windows_hold"]


def times_add_up(problem: Problem, schedule: Schedule) -> Iterator[Breach]:
    """Work lasts as its mode says; set-up and clean-down, as its family, at the ends of runs."""
    continued = {done.follows for done in schedule.tasks.values()}
    for name, done in schedule.tasks.items():
        family = problem.families.get(problem.tasks[name].family or "")
        set_up = family.set_up if family and done.follows is None else 0
        clean_down = family.clean_down if family and name not in continued else 0
        duration = mode_of(problem, schedule, name).duration
        lengths = {
            "set-up": (done.work - done.start, set_up),
            "work": (done.end - done.work, duration),
            "clean-down": (done.release - done.end, clean_down),
        }
        for part, (actual, due) in lengths.items():
            if actual != due:
                yield Breach(
                    "durations", (name,), f"the {part} of {name} lasts {actual} min, not {due}"
                )


def runs_are_tight(problem: Problem, schedule: Schedule) -> Iterator[Breach]:
    """A part follows one of its family, at its end, in its mode and on its units, one for one."""
    for name, count in Counter(done.follows for done in schedule.tasks.values()).items():
        if name is not None and count > 1:
            yield Breach("runs", (name,), f"{count} tasks follow {name}")
    for name, done in schedule.tasks.items():
        if done.follows is None:
            continue
        pair = (done.follows, name)
        family = problem.tasks[name].family
        before = schedule.tasks[done.follows]
        if family is None or problem.tasks[done.follows].family != family or done.follows == name:
            yield Breach("runs", pair, f"{name} follows {done.follows}, no other of its family")
        if done.start != before.end:
            yield Breach("runs", pair, f"{name} starts at {done.start}, not where {pair[0]} ends")
        if done.mode != before.mode or not _same_units(problem, schedule, pair):
            yield Breach("runs", pair, f"{name} is not done as {done.follows} is")


def _same_units(problem: Problem, schedule: Schedule, pair: tuple[str, str]) -> bool:
    before, after = (schedule.tasks[name] for name in pair)
    return all(
        demand(problem, schedule, pair[0], resource.id)
        == demand(problem, schedule, pair[1], resource.id)
        and set(before.units.get(resource.id, ())) == set(after.units.get(resource.id, ()))
        for resource in problem.resources.values()
        if resource.units
    )


def windows_hold(problem: Problem, schedule: Schedule) -> Iterator[Breach]:
    """A task lies between minute 0 and the horizon, and within its own window."""
    for name, done in schedule.tasks.items():
        task = problem.tasks[name]
        earliest = max(task.earliest or 0, 0)
        if done.start < earliest:
            yield Breach("windows", (name,), f"{name} starts at {done.start}, before {earliest}")
        if task.latest is not None and done.end > task.latest:
            yield Breach("windows", (name,), f"{name} ends at {done.end}, after {task.latest}")
        if done.release > problem.horizon:
            yield Breach(
                "horizon", (name,), f"{name} is released at {done.release}, after the horizon"
            )


def lags_hold(problem: Problem, schedule: Schedule) -> Iterator[Breach]:
    """The time between two anchors of done tasks is within the lag's limits."""
    for lag in problem.lags:
        before, after = schedule.tasks.get(lag.before), schedule.tasks.get(lag.after)
        if before is None or after is None or not holds(schedule, lag.when):
            continue
        gap = at(after, lag.to) - at(before, lag.origin)
        limits = (lag.low is not None and gap < lag.low, lag.high is not None and gap > lag.high)
        if any(limits):
            yield Breach(
                "lags",
                (lag.before, lag.after),
                f"from the {lag.origin} of {lag.before} to the {lag.to} of {lag.after} are "
                f"{gap} min, {'less' if limits[0] else 'more'} than "
                f"{lag.low if limits[0] else lag.high}",
            )


def budgets_hold(problem: Problem, schedule: Schedule) -> Iterator[Breach]:
    """The spans of a budget together keep its limit."""
    for budget in problem.budgets:
        spent = _spent(schedule, budget)
        if spent > budget.limit:
            yield Breach(
                "budgets", (budget.id,), f"{budget.id} takes {spent} min, more than {budget.limit}"
            )


def _spent(schedule: Schedule, budget: Budget) -> int:
    return sum(
        at(schedule.tasks[span.after], span.to) - at(schedule.tasks[span.before], span.origin)
        for span in budget.spans
        if span.before in schedule.tasks and span.after in schedule.tasks
    )
