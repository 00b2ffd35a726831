"""What a day has only so much of: cooks, heat, vessels, boards, and when some is missing."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import pairwise

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.day.prepday import Busy, PrepDay
from batchcook.dishwork.chilling import ICE_BATH
from batchcook.kitchens.kitchen import Kitchen, KitchenCook
from batchcook.kitchens.pans import pan_id
from batchcook.kitchens.vessels import vessel_id
from batchcook.scheduling.problem import Absence, Resource

__all__ = ["SOMEBODY", "Clock", "cook_classes", "resources_of", "wanted"]

SOMEBODY = "somebody"
"""The resource that stands for somebody in the kitchen who handles hot pans."""


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


def cook_classes(kitchen: Kitchen) -> dict[str, tuple[KitchenCook, ...]]:
    """Cooks who can do the same at the same times are interchangeable."""
    classes: dict[object, list[KitchenCook]] = defaultdict(list)
    for cook in kitchen.cooks:
        classes[(cook.skills, cook.away)].append(cook)
    return {f"cooks:{number}": tuple(cooks) for number, cooks in enumerate(classes.values(), 1)}


def resources_of(
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
