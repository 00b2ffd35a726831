"""Checks of resources: capacities, occupancies and named units."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from batchcook.scheduling.breach import Breach, demand, holds
from batchcook.scheduling.problem import Occupancy, Problem, Resource
from batchcook.scheduling.schedule import Schedule

__all__ = ["capacities_suffice", "occupancies_end", "units_are_named", "units_serve_once"]


def occupancies_end(problem: Problem, schedule: Schedule) -> Iterator[Breach]:
    """The task that ends an occupancy is done where the occupancy begins."""
    for occupancy in problem.occupancies:
        if _begins(schedule, occupancy) is not None and occupancy.until not in schedule.tasks:
            yield Breach(
                "occupancies",
                (occupancy.id, occupancy.until),
                f"{occupancy.id} never ends, as {occupancy.until} is not done",
            )


def _begins(schedule: Schedule, occupancy: Occupancy) -> int | None:
    """The first start of a filler, or None where there is no occupancy."""
    starts = [schedule.tasks[name].start for name in occupancy.fillers if name in schedule.tasks]
    return min(starts) if starts and holds(schedule, occupancy.when) else None


def capacities_suffice(problem: Problem, schedule: Schedule) -> Iterator[Breach]:
    """At no minute is more of a resource in use or missing than there is."""
    for resource in problem.resources.values():
        uses = _uses(problem, schedule, resource)
        for minute in sorted({start for start, _, _ in uses}):
            used = sum(amount for start, end, amount in uses if start <= minute < end)
            absent = sum(
                item.amount for item in resource.absences if item.start <= minute < item.end
            )
            left = max(resource.capacity - absent, 0)
            if used > left:
                yield Breach(
                    "capacities",
                    (resource.id,),
                    f"at minute {minute} {used} of {resource.id} are in use, of {left}",
                )


def _uses(problem: Problem, schedule: Schedule, resource: Resource) -> list[tuple[int, int, int]]:
    """Start, end and amount of whatever uses the resource, with the ends of absences as marks."""
    uses = [
        (done.start, done.release, demand(problem, schedule, name, resource.id))
        for name, done in schedule.tasks.items()
    ]
    for occupancy in problem.occupancies:
        begins = _begins(schedule, occupancy)
        until = schedule.tasks.get(occupancy.until)
        if occupancy.resource == resource.id and begins is not None and until is not None:
            uses.append((begins, until.end, occupancy.amount))
    uses += [
        (item.start, item.end, problem.resources[item.resource].warm_up_takes(resource.id))
        for item in schedule.warm_ups
    ]
    uses += [(item.start, item.end, 0) for item in resource.absences]
    return [use for use in uses if use[0] < use[1]]


def units_are_named(problem: Problem, schedule: Schedule) -> Iterator[Breach]:
    """A task names as many different units of a resource with named units as it demands."""
    for name, done in schedule.tasks.items():
        for resource in problem.resources.values():
            due = demand(problem, schedule, name, resource.id) if resource.units else 0
            units = done.units.get(resource.id, ())
            if len(units) != due or len(set(units) & set(resource.units)) != due:
                yield Breach(
                    "units",
                    (name, resource.id),
                    f"{name} should name {due} units of {resource.id}, but names {units}",
                )


def units_serve_once(problem: Problem, schedule: Schedule) -> Iterator[Breach]:
    """A unit serves one task at a time, and none while it is missing."""
    for resource in problem.resources.values():
        for unit in resource.units:
            served = [
                (done.start, done.release, name)
                for name, done in schedule.tasks.items()
                if unit in done.units.get(resource.id, ())
            ]
            away = [
                (absence.start, absence.end, "an absence")
                for absence, names in zip(resource.absences, resource.absence_units, strict=True)
                if unit in names
            ]
            for one, other in combinations(served + away, 2):
                if one in away or max(one[0], other[0]) >= min(one[1], other[1]):
                    continue
                yield Breach(
                    "units",
                    (resource.id, unit, one[2], other[2]),
                    f"{unit} of {resource.id} is in two places: {one[2]} and {other[2]}",
                )
