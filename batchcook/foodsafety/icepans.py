"""A baking dish in a larger pan of ice water: how much ice that takes, and how much fits.

What was baked in its pan cannot be stirred, so ice can only stand under and around it. Plain
numbers in SI units, temperatures in degC.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache

from batchcook.foodsafety.conduction import NODES, Face, Slab
from batchcook.foodsafety.coolingroutes import melted, water_heat
from batchcook.foodsafety.thermal import si_value

__all__ = ["IcePan", "pan_on_ice"]

_SHORTEST = 15 * 60.0
"""Seconds for which one filling of ice has to do, or nobody would: an assumption of ours."""

_STEP = 300.0
"""Seconds between the looks at the top of the food when its heat is added up."""


@dataclass(frozen=True)
class IcePan:
    """The ice of one baking dish.

    Attributes:
        kilograms: All of it, some left over.
        fits: How much goes around the dish at once, kg.
        fills: How often it is filled; what has melted is poured off in between.
    """

    kilograms: float
    fits: float
    fills: int


def pan_on_ice(
    edges: tuple[float, float, float],
    volume: float,
    *,
    start: float,
    refrigerator: float,
    seconds: float,
) -> IcePan | None:
    """The ice for a dish that stands so long in a larger pan of ice water in the refrigerator.

    Args:
        edges: Length, width and depth of the food in the dish, m; the water stands as high.
        volume: Food in it, m3.
        start: The food's temperature at first.
        refrigerator: The refrigerator's temperature.
        seconds: How long it stands on ice.

    Returns:
        None where the dish does not fit into such a pan, or its ice would not last.
    """
    length, width, depth = edges
    longer, shorter = max(length, width), min(length, width)
    if longer >= si_value("ice-pan-length") or shorter >= si_value("ice-pan-width"):
        return None
    around = si_value("ice-pan-length") * si_value("ice-pan-width") - length * width
    space = around * depth
    share = si_value("ice-between-water")
    fits = share * space * si_value("density-of-ice")
    water = water_heat((1 - share) * space)
    food = volume / depth * _heat_down(depth, start, refrigerator, seconds)
    kilograms = melted(water + food)
    fills = math.ceil(kilograms / fits - 1e-9)
    return IcePan(kilograms, fits, fills) if seconds / fills >= _SHORTEST else None


@cache
def _heat_down(depth: float, start: float, refrigerator: float, seconds: float) -> float:
    """J/m2 into the ice below: what the food loses, less what the air above it takes."""
    conductivity, diffusivity = si_value("conductivity"), si_value("diffusivity")
    air = Face(si_value("air-in-refrigerator"), refrigerator)
    ice = Face(si_value("ice-water-under-pan"), si_value("ice-water"))
    slab = Slab(depth, conductivity, diffusivity, ice, air)
    steps = max(1, math.ceil(seconds / _STEP))
    moments = [seconds * (step + 1) / steps for step in range(steps)]
    tops, profile = slab.course([start] * NODES, moments)
    # The top only falls, so its temperature at the end of a step counts too little air.
    up = sum(air.coefficient * (top - air.temperature) for top in tops) * seconds / steps
    mean = (sum(profile) - (profile[0] + profile[-1]) / 2) / (len(profile) - 1)
    return conductivity / diffusivity * depth * (start - mean) - up
