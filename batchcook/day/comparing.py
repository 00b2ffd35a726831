"""The day against others: each dish alone, and the same day in another kitchen."""

from __future__ import annotations

import time
from dataclasses import replace

from batchcook import plan
from batchcook.complaints import InputFault
from batchcook.day.formulation import Formulation, formulate
from batchcook.day.prepday import PrepDay
from batchcook.day.solving import Effort, NoAnswer, NoPlan, solved
from batchcook.day.tonight import Tonight, with_dinner
from batchcook.day.whatif import NotKnown, kinds_held, variants, what_would_help
from batchcook.day.workday import day_work, framed
from batchcook.dishwork.dishes import dish_work
from batchcook.dishwork.draft import Dish
from batchcook.dishwork.work import Work
from batchcook.pacing.ownpace import at_own_pace
from batchcook.scheduling.check import check
from batchcook.scheduling.schedule import Schedule

__all__ = ["changed_kitchens", "one_after_another"]

_SHORTEST = 2.0  # seconds for one changed kitchen, at the least


def one_after_another(dishes: tuple[Dish, ...], day: PrepDay, effort: Effort) -> int | None:
    """Each dish alone, unshared, at its own shortest, in the same kitchen, added up.

    None where one of them was not found in the time: a plan is none the worse for that.

    The cooks' pace and time to spare are the same. Setting up and closing down are counted once,
    as the shared day does, not once a dish: from each dish's own day the bare frame of such a day
    is taken off. No dish has to be done by the day's finish, which only what is shared may keep.
    """
    each = Effort(max(2.0, effort.seconds / len(dishes)))
    day = _unhurried(day)
    try:
        total = _length(framed(Work(), dishes), day, each)
        for dish in dishes:
            total += _length(framed(dish_work(dish, day.kitchen), (dish,)), day, each)
            total -= _length(framed(Work(), (dish,)), day, each)
    except (NoAnswer, NoPlan):
        return None
    return total


def _unhurried(day: PrepDay) -> PrepDay:
    """The day with nothing bound to a time of day: it is only measured how long work takes."""
    there = tuple(replace(cook, away=()) for cook in day.kitchen.cooks)
    kitchen = replace(day.kitchen, cooks=there)
    return replace(day, start=None, finish_by=None, busy=(), kitchen=kitchen)


def _length(work: Work, day: PrepDay, effort: Effort) -> int:
    """The shortest day that does some work, or the shortest found in the time."""
    formulation = formulate(at_own_pace(work, day.pace, day.pad), day)
    try:
        return solved(formulation, effort, depth=1).levels[0].value
    except NoAnswer:
        return _some_length(formulation)


def _some_length(alone: Formulation) -> int:
    """A length of one dish's day that can be done, where its shortest was not found in time."""
    from batchcook.scheduling.listing import list_schedule  # noqa: PLC0415 - beside the solver

    listed = list_schedule(alone.problem)
    if listed is None:
        raise NoAnswer
    return max(done.release for done in listed.tasks.values())


def changed_kitchens(
    dishes: tuple[Dish, ...],
    day: PrepDay,
    schedule: Schedule,
    summary: plan.Summary,
    effort: Effort,
    *,
    dinner: Tonight | None = None,
) -> tuple[plan.WhatIf, ...]:
    """The day's length with one more, and one less, of each thing in the kitchen.

    Args:
        dishes: What is cooked.
        day: The day.
        schedule: It as it is planned.
        summary: It in figures.
        effort: How long to search in all.
        dinner: What of it is plated within the day.
    """

    def work_of(changed: PrepDay) -> Work:
        work = day_work(dishes, changed)
        return work if dinner is None else with_dinner(work, dinner)

    held = kinds_held(work_of(day))
    left = len(list(variants(day.kitchen, held)))
    ends = time.monotonic() + max(_SHORTEST * left, effort.seconds)

    def measure(changed: PrepDay, as_planned: bool) -> tuple[int, int] | None:
        nonlocal left
        share = (ends - time.monotonic()) / max(left, 1)
        left -= 1
        each = Effort(max(_SHORTEST, share), effort.progress)
        try:
            formulation = formulate(work_of(changed), changed)
            # From the day as it is, that no other is shorter is proved in a fraction of a second.
            start = schedule if as_planned else None
            length = solved(formulation, each, depth=1, hint=start).levels[0]
        except (InputFault, NoPlan):
            return None
        except NoAnswer:
            raise NotKnown from None
        return length.value, length.bound

    def stands(changed: PrepDay) -> bool:
        try:
            formulation = formulate(work_of(changed), changed)
        except InputFault:
            return False
        return not check(formulation.problem, schedule)

    length = (summary.makespan_minutes, summary.best_bound_minutes)
    return what_would_help(day, length, measure, held, stands=stands)
