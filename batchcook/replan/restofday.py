"""The rest of a day as a scheduling problem: what has begun is fixed, the rest open."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace

from batchcook.day.formulation import Formulation, formulate
from batchcook.day.prepday import PrepDay
from batchcook.dishwork.work import Work
from batchcook.plan import Plan
from batchcook.replan.begunjobs import begun_jobs, minute_of
from batchcook.replan.daysofar import SoFar
from batchcook.replan.dropping import without_dishes
from batchcook.scheduling.begun import Begun
from batchcook.scheduling.problem import Problem
from batchcook.scheduling.remaining import margin, remaining
from batchcook.scheduling.schedule import Done, Schedule

__all__ = ["RestOfDay", "rest_of_day", "whole_schedule"]

_PREHEAT = "preheat"


@dataclass(frozen=True)
class RestOfDay:
    """The day from now on.

    Attributes:
        whole: The whole day, past tasks included, in minutes of the same clock.
        told: The same on a clock that begins at midnight, so that the past has minutes too.
        problem: What is left of it.
        begun: The jobs that are over or under way.
        choices: The options that the plan so far took.
        now: The minute from which on things are open.
    """

    whole: Formulation
    told: Formulation
    problem: Problem
    begun: Mapping[str, Begun]
    choices: Mapping[str, str]
    now: int


def rest_of_day(
    plan: Plan,
    work: Work,
    day: PrepDay,
    far: SoFar,
    at: dt.datetime,
    *,
    dropped: Mapping[str, str],
    gone: Collection[str] = (),
) -> RestOfDay:
    """What is left to schedule.

    Args:
        plan: The plan so far.
        work: All the work it was made from.
        day: The day, with what is missing from now on as away or busy.
        far: How far it has come.
        at: Now.
        dropped: Dishes given up, each with its title.
        gone: Cooks who leave now; another takes over what they are at.

    Raises:
        InputFault: The kitchen has nobody, or nothing, for some of the work.
    """
    left = without_dishes(work, dropped, far.stands)
    formulation = _from(left, day, at)
    now = minute_of(formulation, at)
    choices = {} if plan.order is None else dict(plan.order.choices)
    begun = begun_jobs(plan, formulation, far, at, frozenset(gone))
    problem = remaining(
        formulation.problem, begun, choices, now, warming=_warming(plan, far, formulation, now)
    )
    midnight = dt.datetime.combine(at.date(), dt.time(0))
    told = replace(formulation, clock=replace(formulation.clock, origin=midnight))
    return RestOfDay(formulation, told, problem, begun, choices, now)


def _from(work: Work, day: PrepDay, at: dt.datetime) -> Formulation:
    """The work on a clock that begins early enough for set-ups and warm-ups under way."""
    probe = formulate(work, replace(day, start=at.time(), finish_by=None))
    midnight = dt.datetime.combine(at.date(), dt.time(0))
    origin = max(midnight, at - dt.timedelta(minutes=margin(probe.problem)))
    return formulate(work, replace(day, start=origin.time(), finish_by=None))


def _warming(plan: Plan, far: SoFar, formulation: Formulation, now: int) -> dict[str, int]:
    """Ovens turned on for a task that has not begun, with the minutes that takes yet."""
    found: dict[str, int] = {}
    for task in plan.tasks:
        stand = far.stands.get(task.id)
        if task.technique != _PREHEAT or stand is None:
            continue
        users = [each for each in plan.settings if each.resource in task.uses]
        if any(
            each.task in far.stands and far.stands[each.task].start >= stand.start for each in users
        ):
            continue
        for oven in task.uses:
            found[oven] = max(minute_of(formulation, stand.end) - now, 0)
    return found


def whole_schedule(rest: RestOfDay, found: Schedule) -> tuple[Schedule, dict[str, Done]]:
    """The day as it was so far and as it goes on, on the clock that begins at midnight.

    The names of interchangeable cooks are swapped back where the schedule gave a running task to
    another than has it in hand.

    Returns:
        The whole schedule, and apart from it what is left to do of tasks that have begun.
    """
    names = _names(rest, found)
    tasks: dict[str, Done] = {}
    for name, done in found.tasks.items():
        if name in rest.whole.problem.tasks:
            units = {
                key: tuple(names.get(unit, unit) for unit in units)
                for key, units in done.units.items()
            }
            tasks[name] = replace(done, units=units)
    left = {}
    for name, state in rest.begun.items():
        new = tasks.get(name)
        if new is not None and state.cleaned_by is None:
            left[name] = new
        if state.over:
            tasks[name] = Done(
                start=state.start,
                work=state.start,
                end=state.end,
                release=state.end,
                mode=state.mode,
                follows=state.follows,
                setting=state.setting,
                units=state.units,
            )
        elif new is not None:
            tasks[name] = replace(new, start=state.start, work=state.start, follows=state.follows)
    since = minute_of(rest.told, rest.whole.clock.origin)
    warm_ups = tuple(
        replace(each, start=each.start + since, end=each.end + since) for each in found.warm_ups
    )
    return (
        Schedule(_later(tasks, since), found.choices, warm_ups),
        _later(left, since),
    )


def _later(tasks: Mapping[str, Done], minutes: int) -> dict[str, Done]:
    """The tasks on a clock that began so much earlier."""
    return {
        name: replace(
            done,
            start=done.start + minutes,
            work=done.work + minutes,
            end=done.end + minutes,
            release=done.release + minutes,
        )
        for name, done in tasks.items()
    }


def _names(rest: RestOfDay, found: Schedule) -> dict[str, str]:
    """Who is who: a swap of names within each kind of cook, by what they have in hand now."""
    names: dict[str, str] = {}
    continued = {done.follows for done in found.tasks.values()}
    for name, state in rest.begun.items():
        done = found.tasks.get(name)
        if done is None or not state.stays:
            continue
        if state.over and done.release <= rest.now and name not in continued:
            # Nothing is left of it, so whoever the schedule gives it to has nothing in hand.
            continue
        for resource, hands in state.units.items():
            names |= dict(zip(done.units.get(resource, ()), hands, strict=False))
    for kind in rest.whole.problem.resources.values():
        unnamed = [unit for unit in kind.units if unit not in names]
        free = [unit for unit in kind.units if unit not in names.values()]
        same = [unit for unit in unnamed if unit in free]
        names |= dict(zip(same, same, strict=True))
        names |= dict(
            zip(
                [unit for unit in unnamed if unit not in same],
                [unit for unit in free if unit not in same],
                strict=True,
            )
        )
    return names
