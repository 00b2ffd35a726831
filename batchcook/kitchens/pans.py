"""Sheet pans and baking dishes: what stands in for what, and the oven shelves they take."""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations_with_replacement

from batchcook.quantities import Quantity, ureg

__all__ = [
    "HALF_SHEET",
    "Pans",
    "area_of",
    "half_shelves",
    "most_units",
    "pan_id",
    "pan_options",
    "read_size",
    "units_of",
]

HALF_SHEET = (ureg.Quantity(13, "inch"), ureg.Quantity(18, "inch"))
"""What a recipe means by a sheet pan: a half sheet; a size any store carries, from memory."""

_CLOSE_ENOUGH = 0.85
"""A pan stands in for one this much larger: 12x17 inch inside for 13x18 outside, one of 9x13 for
two of 8x8. Common practice, no source."""

_TOO_THIN = 1.35
"""In baking dishes this much larger than the recipe's food lies thin and dries out: common
practice, no source."""

_WHOLE_SHELF = 170
"""Square inches above which a pan has an oven shelf to itself: two of 11x15 inch still stand side
by side on a rack of 24x16. An assumption of ours."""

_SMALL_PAN = 70
"""Square inches up to which two pans stand where one 9x13 inch pan does."""

_SIZE = re.compile(r"(\d+(?:\.\d+)?)\s*x\s*(\d+(?:\.\d+)?) (inch|cm)")


@dataclass(frozen=True)
class Pans:
    """``count`` equal pans or dishes; ``width`` is their shorter side."""

    width: Quantity
    length: Quantity
    count: int

    @property
    def area(self) -> float:
        """Square inches of one."""
        return area_of(self.width, self.length)

    @property
    def size(self) -> str:
        """Both sides, as files write them: ``13x18 inch``."""
        unit = "cm" if self.width.units == ureg.centimeter else "inch"
        return f"{self.width.magnitude:g}x{self.length.magnitude:g} {unit}"


def read_size(text: str) -> tuple[Quantity, Quantity] | None:
    """Shorter and longer side of a size such as ``9x13 inch``; None where it is no size."""
    found = _SIZE.fullmatch(text.strip())
    if found is None:
        return None
    short, long = sorted(float(side) for side in found.group(1, 2))
    return (ureg.Quantity(short, found[3]), ureg.Quantity(long, found[3])) if short else None


def area_of(width: Quantity, length: Quantity) -> float:
    """Square inches of a pan."""
    return float((width * length).to("inch ** 2").magnitude)


def pan_id(kind: str, pans: Pans) -> str:
    """The id of the resource made of equal pans, such as ``sheet-pan:13x18 inch``."""
    return f"{kind}:{pans.size}"


def units_of(pans: Pans, unit: float) -> int:
    """How many units of so many square inches one of the pans takes."""
    return math.floor(pans.area / (_CLOSE_ENOUGH * unit) + 1e-9)


def pan_options(
    kind: str, pans: Sequence[Pans], units: int, unit: float
) -> list[Mapping[str, int]]:
    """The ways to lay out what takes so many units in as few pans as can be; empty where none.

    Args:
        kind: sheet-pan or baking-dish; a baking dish must not be much too large either.
        pans: What the kitchen has.
        units: How many units of area are wanted.
        unit: Square inches of one.
    """
    takes = {pan_id(kind, each): units_of(each, unit) for each in pans}
    counts = {pan_id(kind, each): each.count for each in pans}
    usable = [name for name, number in takes.items() if number]
    areas = {pan_id(kind, each): each.area for each in pans}
    widest = units * unit * _TOO_THIN if kind == "baking-dish" else math.inf
    for number in range(1, min(units, sum(counts.values())) + 1):
        options = [
            dict(Counter(pick))
            for pick in combinations_with_replacement(usable, number)
            if units <= sum(takes[each] for each in pick)
            and sum(areas[each] for each in pick) <= widest
            and all(pick.count(each) <= counts[each] for each in pick)
        ]
        if options:
            return list(options)
    return []


def most_units(kind: str, pans: Sequence[Pans], units: int, unit: float) -> int:
    """The most of so many units that the kitchen's pans take at once; 0 where they take none."""
    return next((fewer for fewer in range(units, 0, -1) if pan_options(kind, pans, fewer, unit)), 0)


def half_shelves(areas: Iterable[float]) -> int:
    """Half oven shelves that pans of these areas (square inches) take.

    A sheet pan takes two, a 9x13 inch pan one; two 8x8 inch pans stand where one 9x13 does.
    """
    areas = list(areas)
    whole = sum(area > _WHOLE_SHELF for area in areas)
    small = sum(area <= _SMALL_PAN for area in areas)
    return 2 * whole + (len(areas) - whole - small) + math.ceil(small / 2)
