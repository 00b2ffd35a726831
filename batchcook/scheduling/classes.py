"""Classes of interchangeable units: those of one resource with the same absences."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from batchcook.scheduling.problem import Absence, Resource

__all__ = ["UnitClass", "classes_of", "missing"]


@dataclass(frozen=True)
class UnitClass:
    """Units of a resource that nothing tells apart.

    Attributes:
        capacity: How many there are.
        units: Their names, or empty where the resource names none.
        absences: When some of them are missing.
    """

    capacity: int
    units: tuple[str, ...]
    absences: tuple[Absence, ...]


def classes_of(resource: Resource) -> list[UnitClass]:
    """Split a resource into classes within which units can be given out after the times are set.

    A set of intervals that never overlap more than the number of equal units can be given to the
    units one by one in order of start (interval graphs are perfect). A single absence is one more
    such interval, whose units then get its names; several absences of different units are not, so
    the units are split by when they are missing.
    """
    if not resource.units or len(resource.absences) <= 1:
        return [UnitClass(resource.capacity, resource.units, resource.absences)]
    groups: dict[tuple[int, ...], list[str]] = {}
    for unit in resource.units:
        key = tuple(place for place, names in enumerate(resource.absence_units) if unit in names)
        groups.setdefault(key, []).append(unit)
    return [
        UnitClass(
            len(units),
            tuple(units),
            tuple(
                Absence(resource.absences[place].start, resource.absences[place].end, len(units))
                for place in key
            ),
        )
        for key, units in groups.items()
    ]


def missing(absences: tuple[Absence, ...], capacity: int) -> list[Absence]:
    """The absences as disjoint intervals in order, overlaps added up to at most the capacity."""
    times = sorted({time for absence in absences for time in (absence.start, absence.end)})
    pieces = []
    for start, end in pairwise(times):
        amount = sum(item.amount for item in absences if item.start <= start < item.end)
        if amount > 0:
            pieces.append(Absence(start, end, min(amount, capacity)))
    return pieces
