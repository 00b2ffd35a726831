"""The day's work in a kitchen as a scheduling problem."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import pairwise

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.day.prepday import Busy, PrepDay
from batchcook.dishwork.chilling import ICE_BATH
from batchcook.dishwork.streams import allowed, spells_of
from batchcook.dishwork.work import Bake, Job, Keep, Stream, Work
from batchcook.foodsafety.limits import time_out_limit
from batchcook.kitchens.kitchen import Kitchen, KitchenCook
from batchcook.kitchens.pans import pan_id
from batchcook.kitchens.vessels import vessel_id
from batchcook.scheduling.problem import (
    Absence,
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

__all__ = ["SOMEBODY", "Clock", "Formulation", "formulate", "wanted"]

_SETTING_STEP = 25
SOMEBODY = "somebody"
"""The resource that stands for somebody in the kitchen who handles hot pans."""
_WATCHED = {"burner", ICE_BATH}
"""Nobody may be out of the kitchen while one of these is in use."""


@dataclass(frozen=True)
class Clock:
    """Minutes of the scheduling problem against the wall clock.

    Attributes:
        origin: The instant of minute 0.
        horizon: The last minute at which anything may end.
    """

    origin: dt.datetime
    horizon: int

    def minute(self, time: dt.time) -> int:
        """The minute of a time of day."""
        at = dt.datetime.combine(self.origin.date(), time)
        return int((at - self.origin).total_seconds() // 60)

    def instant(self, minute: int) -> dt.datetime:
        """The instant of a minute."""
        return self.origin + dt.timedelta(minutes=minute)


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
    classes = _cook_classes(day.kitchen)
    resources = _resources(day, clock, classes)
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


# ---- resources ---------------------------------------------------------------------------------


def _cook_classes(kitchen: Kitchen) -> dict[str, tuple[KitchenCook, ...]]:
    """Cooks who can do the same at the same times are interchangeable."""
    classes: dict[object, list[KitchenCook]] = defaultdict(list)
    for cook in kitchen.cooks:
        classes[(cook.skills, cook.away)].append(cook)
    return {f"cooks:{number}": tuple(cooks) for number, cooks in enumerate(classes.values(), 1)}


def _resources(
    day: PrepDay, clock: Clock, classes: Mapping[str, tuple[KitchenCook, ...]]
) -> dict[str, Resource]:
    """Everything of which there is only so much."""
    kitchen = day.kitchen
    nobody = _nobody(kitchen, clock)
    found = [
        Resource("burner", kitchen.burners.count),
        Resource("sink", 1),
        Resource(ICE_BATH, kitchen.ice_baths),
        *(Resource(f"board:{name}", count) for name, count in kitchen.boards.items()),
        *(Resource(vessel_id("pot", each), each.count) for each in kitchen.pots),
        *(Resource(vessel_id("skillet", each), each.count) for each in kitchen.skillets),
        *(Resource(vessel_id("slow-cooker", each), each.count) for each in kitchen.slow_cookers),
        *(Resource(pan_id("sheet-pan", each), each.count) for each in kitchen.sheet_pans),
        *(Resource(pan_id("baking-dish", each), each.count) for each in kitchen.baking_dishes),
        *(
            Resource(
                oven.id,
                2 * oven.shelves,
                warm_up=oven.warm_up,
                keeps=oven.warm_up,
                warming={SOMEBODY: 1} if nobody else {},
            )
            for oven in kitchen.ovens
        ),
    ]
    for name, cooks in classes.items():
        units = tuple(f"cook:{cook.id}" for cook in cooks)
        spans = [_within(clock, each.start, each.end) for each in cooks[0].away]
        spans = [span for span in spans if span[0] < span[1]]
        found.append(
            Resource(
                name,
                len(cooks),
                tuple(Absence(start, end, len(cooks)) for start, end in spans),
                units,
                tuple(units for _ in spans),
            )
        )
    if nobody:
        found.append(
            Resource(SOMEBODY, 99, tuple(Absence(start, end, 99) for start, end in nobody))
        )
    resources = {each.id: each for each in found if each.capacity > 0}
    return _with_busy(resources, day, clock)


def _within(clock: Clock, start: dt.time, end: dt.time) -> tuple[int, int]:
    return max(0, clock.minute(start)), min(clock.horizon, clock.minute(end))


def _nobody(kitchen: Kitchen, clock: Clock) -> list[tuple[int, int]]:
    """The times when all who can handle hot pans are away."""
    able = [cook for cook in kitchen.cooks if "hot pans" in cook.skills] or list(kitchen.cooks)
    marks = sorted(
        {
            clock.minute(mark)
            for cook in able
            for away in cook.away
            for mark in (away.start, away.end)
        }
    )
    empty = []
    for start, end in pairwise(marks):
        gone = [
            any(clock.minute(a.start) <= start and end <= clock.minute(a.end) for a in cook.away)
            for cook in able
        ]
        if all(gone) and max(0, start) < min(end, clock.horizon):
            empty.append((max(0, start), min(end, clock.horizon)))
    return empty


def _with_busy(resources: dict[str, Resource], day: PrepDay, clock: Clock) -> dict[str, Resource]:
    """Less of a resource while it is wanted elsewhere; people are away by the kitchen file."""
    things = [name for name, each in resources.items() if not each.units and name != SOMEBODY]
    complaints = []
    for busy in day.busy:
        if busy.what not in things:
            complaints.append(
                Complaint(
                    "busy",
                    f"there is no {busy.what!r} in this kitchen",
                    "one of " + ", ".join(sorted(things)),
                    nearest(busy.what, things),
                )
            )
            continue
        resource = resources[busy.what]
        if busy.amount > resource.capacity:
            complaints.append(
                Complaint("busy", f"{busy.amount} of {busy.what!r}", f"at most {resource.capacity}")
            )
            continue
        start, end = _within(clock, busy.start, busy.end)
        if start < end:
            absence = Absence(start, end, wanted(resource, busy))
            resources[busy.what] = replace(resource, absences=(*resource.absences, absence))
    if complaints:
        raise InputFault(complaints)
    return resources


def wanted(resource: Resource, busy: Busy) -> int:
    """How much is wanted elsewhere; of an oven all, as another's temperature is not ours."""
    return busy.amount if resource.warm_up is None else resource.capacity


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
