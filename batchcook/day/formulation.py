"""The day's work in a kitchen as a scheduling problem."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

from batchcook.complaints import Complaint, InputFault
from batchcook.day.prepday import PrepDay
from batchcook.day.resources import SOMEBODY, Clock, cook_classes, resources_of
from batchcook.dishwork.chilling import ICE_BATH
from batchcook.dishwork.streams import allowed, spells_of
from batchcook.dishwork.work import Bake, Job, Keep, Stream, Work
from batchcook.foodsafety.limits import time_out_limit
from batchcook.kitchens.kitchen import Kitchen, KitchenCook
from batchcook.scheduling.problem import (
    Budget,
    Choice,
    Condition,
    Lag,
    Mode,
    Occupancy,
    Problem,
    Resource,
    Span,
    Task,
)

__all__ = ["Formulation", "formulate"]

_SETTING_STEP = 25
_WATCHED = {"burner", ICE_BATH}
"""Nobody may be out of the kitchen while one of these is in use."""


@dataclass(frozen=True)
class Formulation:
    """A problem, with what is needed to read its schedule as a day in the kitchen."""

    problem: Problem
    work: Work
    clock: Clock


def clock_of(day: PrepDay) -> Clock:
    """Minute 0 is the start of the day, or midnight where only the finish is fixed.

    Raises:
        InputFault: The finish is not after the start.
    """
    midnight = dt.datetime.combine(day.date, dt.time(0))
    origin = midnight if day.start is None else dt.datetime.combine(day.date, day.start)
    end = (
        midnight + dt.timedelta(days=1)
        if day.finish_by is None
        else dt.datetime.combine(day.date, day.finish_by)
    )
    if end <= origin:
        raise InputFault(
            Complaint("finish-by", f"{end:%H:%M} is not after the start at {origin:%H:%M}")
        )
    return Clock(origin, int((end - origin).total_seconds() // 60))


def formulate(work: Work, day: PrepDay) -> Formulation:
    """The day's work as tasks, modes, lags, budgets, occupancies, families and choices.

    Raises:
        InputFault: The kitchen has nobody, or nothing, for some of the work.
    """
    clock = clock_of(day)
    classes = cook_classes(day.kitchen)
    resources = resources_of(day, clock, classes)
    _check_means(work, day.kitchen, resources, classes)
    attended = SOMEBODY in resources
    tasks = {
        job.id: _task(job, day.kitchen, classes, clock, attended=attended) for job in work.jobs
    }
    occupancies, choices = _occupancies(work.keeps, attended)
    limit = time_out_limit(day.kitchen.room)
    budgets, waiting = _clocks(work.streams, limit)
    # Without times of day to keep clear of, the day is the same wherever it begins.
    timed = any(each.absences for each in resources.values()) or any(
        task.earliest is not None or task.latest is not None for task in tasks.values()
    )
    problem = Problem(
        resources=resources,
        tasks=tasks,
        horizon=clock.horizon,
        lags=(
            *(
                Lag(
                    link.before,
                    link.origin,
                    link.after,
                    link.to,
                    link.low,
                    link.high,
                    when=link.when,
                    weight=link.weight,
                    reason=link.reason,
                )
                for link in work.links
            ),
            *waiting,
        ),
        budgets=budgets,
        occupancies=occupancies,
        families=work.families,
        choices={**work.choices, **choices},
        hands=tuple(classes),
        free_origin=day.start is None and timed,
    )
    return Formulation(problem, work, clock)


def _check_means(
    work: Work,
    kitchen: Kitchen,
    resources: Mapping[str, Resource],
    classes: Mapping[str, tuple[KitchenCook, ...]],
) -> None:
    """Some cook can do each job, and the kitchen has what each job needs."""
    complaints: dict[str, Complaint] = {}
    for job in work.jobs:
        dish = next(iter(job.dishes), "the day")
        if job.hands is not None and not any(job.hands <= c[0].skills for c in classes.values()):
            skills = " and ".join(repr(skill) for skill in sorted(job.hands))
            complaints.setdefault(
                f"hands {sorted(job.hands)}",
                Complaint(
                    kitchen.title,
                    f"no cook may do {job.title!r} of {dish}",
                    f"one with the skills {skills}",
                ),
            )
        for name, amount in job.uses.items():
            if name not in resources or resources[name].capacity < amount:
                complaints.setdefault(
                    f"uses {name}",
                    Complaint(
                        kitchen.title, f"has no {name.replace(':', ' for ')}, which {dish} needs"
                    ),
                )
    if complaints:
        raise InputFault(list(complaints.values()))


# ---- tasks -------------------------------------------------------------------------------------


def _task(
    job: Job,
    kitchen: Kitchen,
    classes: Mapping[str, tuple[KitchenCook, ...]],
    clock: Clock,
    *,
    attended: bool,
) -> Task:
    """One job with a mode for each kind of cook, or each oven, that can do it."""
    if job.oven is not None:
        presence = {SOMEBODY: 1} if attended else {}
        modes = tuple(
            Mode(oven.id, job.minutes, {oven.id: job.oven.half_shelves, **presence, **job.uses})
            for oven in kitchen.ovens
            if 2 * oven.shelves >= job.oven.half_shelves
        )
    elif job.hands is None:
        modes = (Mode("by itself", job.minutes, dict(job.uses)),)
    else:
        modes = tuple(
            Mode(name, job.minutes, {name: 1, **job.uses})
            for name, cooks in classes.items()
            if job.hands <= cooks[0].skills
        )
    fixed = None if job.ends_at is None else clock.minute(job.ends_at)
    return Task(
        job.id,
        modes,
        when=job.when,
        earliest=None if fixed is None else fixed - job.minutes,
        latest=fixed,
        reason="" if fixed is None else f"{job.title}",
        family=job.family,
        settings=_settings(job.oven) if job.oven else (),
        group=next(iter(job.dishes), None),
    )


def _settings(bake: Bake) -> tuple[int, ...]:
    """The temperatures that suit a bake, in the steps an oven's dial has."""
    nominal = (bake.lowest + bake.highest) // 2
    first = -(-bake.lowest // _SETTING_STEP) * _SETTING_STEP
    return tuple(sorted({nominal, *range(first, bake.highest + 1, _SETTING_STEP)}))


def _occupancies(
    keeps: tuple[Keep, ...], attended: bool
) -> tuple[tuple[Occupancy, ...], dict[str, Choice]]:
    """What each keep holds, a choice where it could be met in several ways."""
    occupancies, choices = [], {}
    for keep in keeps:
        names = {
            " + ".join(f"{amount} x {name}" for name, amount in option.items()): option
            for option in keep.options
        }
        if len(names) > 1:
            choices[keep.id] = Choice(keep.id, tuple(names))
        for name, option in names.items():
            way = (Condition(keep.id, frozenset({name})),) if len(names) > 1 else ()
            occupancies += [
                Occupancy(
                    f"{keep.id} {name} {each}",
                    each,
                    amount,
                    keep.fillers,
                    keep.until,
                    way + keep.when,
                )
                for each, amount in option.items()
            ]
        if attended and any(_WATCHED & option.keys() for option in keep.options):
            occupancies.append(
                Occupancy(f"{keep.id} watched", SOMEBODY, 1, keep.fillers, keep.until, keep.when)
            )
    return tuple(occupancies), choices


def _clocks(streams: tuple[Stream, ...], limit: int) -> tuple[tuple[Budget, ...], tuple[Lag, ...]]:
    """Each food's time between 40 and 140 degF adds up to at most the limit, and is kept short."""
    budgets: dict[object, Budget] = {}
    waiting: dict[object, Lag] = {}
    for stream in streams:
        spells = spells_of(stream)
        if not spells:
            continue
        spans = tuple(Span(each.before, each.origin, each.after, each.to) for each in spells)
        left = allowed(stream, limit)
        key = (frozenset(spans), left)
        budgets.setdefault(
            key,
            Budget(
                f"{stream.dish}: {stream.food} out of refrigeration, {len(budgets) + 1}",
                spans,
                left,
                f"{stream.food} may be between 40 and 140 degF for {limit} minutes in all",
            ),
        )
        for span in spans:
            if span.before == span.after:
                continue  # as long as the work itself, which nothing shortens
            waiting.setdefault(
                span, Lag(span.before, span.origin, span.after, span.to, None, None, weight=1)
            )
    return tuple(budgets.values()), tuple(waiting.values())
