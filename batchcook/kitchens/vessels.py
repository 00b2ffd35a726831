"""Which vessels hold a dish: pots, skillet loads, slow cookers."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from itertools import combinations_with_replacement

from batchcook.kitchens.kitchen import Kitchen, Vessels
from batchcook.quantities import Quantity, ureg

__all__ = [
    "POT_FILL",
    "cooker_options",
    "fullest_cookers",
    "pot_options",
    "share_out",
    "skillet_goes",
    "skillet_load",
    "vessel_id",
]

POT_FILL = 0.8
"""A pot is never filled above four fifths: common practice, no source."""

_LOAD_AT_12_INCH = ureg.Quantity(1.25, "pound")
"""Meat that browns in a 12 inch skillet at once without steaming: common practice, no source."""

_SOFTENED_AT_12_INCH = ureg.Quantity(2, "quart")
"""Raw cut vegetables that lose their water in a 12 inch skillet: common practice, no source."""

_MOST_POTS = 3

_CRUMB = 0.02
"""A remainder under this share of a load goes in with the last full one."""


def vessel_id(kind: str, vessels: Vessels) -> str:
    """The id of the resource made of equal vessels, such as ``pot:8 quart``."""
    return f"{kind}:{vessels.size.magnitude:g} {vessels.size.units}"


def pot_options(kitchen: Kitchen, volume: Quantity) -> list[Mapping[str, int]]:
    """The ways to hold ``volume`` in as few pots as can be; empty where none can."""
    held = {
        vessel_id("pot", pots): float(pots.size.to("quart").magnitude) * POT_FILL
        for pots in kitchen.pots
    }
    counts = {vessel_id("pot", pots): pots.count for pots in kitchen.pots}
    needed = float(volume.to("quart").magnitude)
    for number in range(1, _MOST_POTS + 1):
        options = [
            dict(Counter(pick))
            for pick in combinations_with_replacement(held, number)
            if sum(held[each] for each in pick) >= needed - 1e-6
            and all(pick.count(each) <= counts[each] for each in pick)
        ]
        if options:
            return list(options)
    return []


def cooker_options(
    kitchen: Kitchen, volume: Quantity, lowest: float, highest: float
) -> list[Mapping[str, int]]:
    """The ways to divide ``volume`` over slow cookers of one size, each filled between the shares.

    Args:
        kitchen: Where the cookers are.
        volume: All that has to be slow-cooked at once.
        lowest: The least share of its size that each cooker is filled to.
        highest: The greatest.
    """
    needed = float(volume.to("quart").magnitude)
    options: list[Mapping[str, int]] = []
    for cookers in kitchen.slow_cookers:
        size = float(cookers.size.to("quart").magnitude)
        for number in range(1, cookers.count + 1):
            if lowest - 1e-6 <= needed / number / size <= highest + 1e-6:
                options.append({vessel_id("slow-cooker", cookers): number})
                break
    return options


def fullest_cookers(kitchen: Kitchen, highest: float) -> Quantity:
    """The most that all slow cookers together take, as a volume."""
    quarts = sum(
        float(each.size.to("quart").magnitude) * each.count for each in kitchen.slow_cookers
    )
    return ureg.Quantity(quarts * highest, "quart")


def skillet_load(kitchen: Kitchen) -> tuple[str, Quantity] | None:
    """The skillets that loads are sized for (the largest), and what one holds; None without any.

    A load grows with the area of the pan.
    """
    if not kitchen.skillets:
        return None
    largest = kitchen.skillets[0]
    area = (float(largest.size.to("inch").magnitude) / 12) ** 2
    return vessel_id("skillet", largest), _LOAD_AT_12_INCH * area


def skillet_goes(kitchen: Kitchen, raw: Quantity) -> int:
    """In how many goes the largest skillet softens so much, as cut and raw; 1 without any."""
    if not kitchen.skillets:
        return 1
    area = (float(kitchen.skillets[0].size.to("inch").magnitude) / 12) ** 2
    full = float((raw / (_SOFTENED_AT_12_INCH * area)).to("").magnitude)
    return max(1, math.ceil(full - _CRUMB))


def share_out(total: float, most: float) -> Sequence[float]:
    """``total`` in full loads of ``most`` and at most one remainder, as shares of a load."""
    full = int(total / most + 1e-6)
    rest = total / most - full
    return [1.0] * full + ([rest] if rest > _CRUMB else [])
