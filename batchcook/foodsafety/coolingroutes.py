"""How long food cools in a bath, in a container and in stages: the arithmetic of cooling.

All plain numbers in SI units (meters, cubic meters, seconds), temperatures in degC.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from batchcook.foodsafety.conduction import NODES, Face, Slab, brick_ratio, seconds_until
from batchcook.foodsafety.limits import limit
from batchcook.foodsafety.thermal import si_value

__all__ = [
    "FROM",
    "MIDDLE",
    "TO",
    "Leg",
    "Route",
    "bath_legs",
    "bath_seconds",
    "ice_needed",
    "in_stages",
    "melted",
    "pot_size",
    "through_bath",
    "water_around",
    "water_heat",
]

FROM, MIDDLE, TO = (
    float(limit(name).quantity.to("degC").magnitude)
    for name in ("two-stage-start", "two-stage-middle", "two-stage-end")
)
"""135, 70 and 41 degF: where two-stage cooling begins, turns and ends."""


@dataclass(frozen=True)
class Leg:
    """One stretch of cooling.

    Attributes:
        place: ``"cold-water"``, ``"ice-bath"``, ``"fill"``, ``"counter"``, ``"refrigerator"``,
            ``"ice-under-pan"`` (in the refrigerator) or ``"freezer"``.
        seconds: How long; infinite when it never gets there.
        ends_at: The warmest point at its end, degC.
    """

    place: str
    seconds: float
    ends_at: float


@dataclass(frozen=True)
class Route:
    """A way of cooling, and how long it takes.

    Attributes:
        legs: Its stretches in order.
        to_middle: Seconds from 135 degF (on average) until no point is above 70 degF.
        to_end: The same until no point is above 41 degF.
        before_refrigerator: Seconds from the start until it stands in the refrigerator.
    """

    legs: tuple[Leg, ...]
    to_middle: float
    to_end: float
    before_refrigerator: float


def bath_seconds(volume: float, coefficient: float, bath: float, start: float, end: float) -> float:
    """Seconds in which a stirred pot falls to ``end`` in a bath: well mixed, lumped.

    Args:
        volume: Food in the pot, m3.
        coefficient: From the food through the pot to the bath, W/m2K, on the wetted wall and base.
        bath: The bath's temperature.
        start: The food's temperature at first.
        end: The food's temperature wanted; at or below the bath's it takes for ever.
    """
    if end >= start:
        return 0.0
    if end <= bath:
        return math.inf
    diameter, height = pot_size(volume)
    area = math.pi * diameter * (height + diameter / 4)
    time_constant: float = _volumetric_heat() * volume / (coefficient * area)
    return time_constant * math.log((start - bath) / (end - bath))


def pot_size(volume: float) -> tuple[float, float]:
    """Diameter of a pot and height of so many m3 of food in it, in meters."""
    ratio = si_value("pot-shape")
    diameter = (4 * volume / (math.pi * ratio)) ** (1 / 3)
    return diameter, ratio * diameter


def water_around(volume: float) -> float:
    """Cubic meters of water that stand around a pot with so much food, up to the food's height."""
    diameter, height = pot_size(volume)
    outer = diameter + 2 * si_value("tub-gap")
    return math.pi / 4 * (outer * outer - diameter * diameter) * height


def ice_needed(
    volume: float, start: float, end: float, seconds: float, *, room: float | None = None
) -> float:
    """Kilograms of ice for a pot in a tub, tap water poured between it, some left over.

    The heat that melts it: the food's from ``start`` to ``end``, the tap water's to the bath's
    temperature, the pot's, and what the tub takes from the room meanwhile. That the ice itself is
    colder than melting is left out. The ice goes in before the water, which so has only the room
    that the ice leaves; of ice that is too much for one filling, the rest takes the place of what
    has melted.

    Args:
        volume: Food in the pot, m3.
        start: The food's temperature as it goes into the ice.
        end: Where it leaves it.
        seconds: How long it stands there.
        room: The kitchen's temperature; 72 degF if not given.
    """
    if end >= start:
        return 0.0
    air = si_value("kitchen-air") if room is None else room
    diameter, height = pot_size(volume)
    outer = diameter + 2 * si_value("tub-gap")
    bath = si_value("ice-water")
    food = _volumetric_heat() * volume * (start - end)
    pot = si_value("pot-heat") * math.pi * diameter * (height + diameter / 4) * (start - bath)
    faces = math.pi * outer * (height + outer / 2)
    warmed = si_value("air-in-kitchen") * faces * (air - bath) * seconds
    space, share = water_around(volume), si_value("ice-between-water")
    fits = share * space * si_value("density-of-ice")
    more = melted(food + pot + warmed + water_heat((1 - share) * space))
    if more >= fits:
        return more
    # Less ice leaves more room for water: both at once, for the one that makes the other.
    displaced = melted(water_heat(1.0)) / si_value("density-of-ice")
    return melted(food + pot + warmed + water_heat(space)) / (1 + displaced)


def water_heat(volume: float) -> float:
    """Joules that bring so many m3 of tap water to the temperature of ice water."""
    drop = si_value("tap-water") - si_value("ice-water")
    return si_value("heat-of-water") * si_value("density-of-water") * volume * drop


def melted(heat: float) -> float:
    """Kilograms of ice for so many joules, of which some is left."""
    return heat / si_value("fusion-of-ice") * (1 + si_value("ice-left"))


def through_bath(
    volume: float,
    edges: Sequence[float],
    *,
    start: float,
    bath_end: float | None,
    coefficient: float,
    refrigerator: float,
    ice_from: float,
) -> Route:
    """A stirred pot in cold water and then ice water, then containers in the refrigerator.

    Args:
        volume: Food in the pot, m3.
        edges: Length, width and depth of the food in a container, m; the warmest point is its
            center.
        start: The food's temperature at first.
        bath_end: Where it leaves the bath; None leaves the bath out.
        coefficient: As for :func:`bath_seconds`.
        refrigerator: The refrigerator's temperature.
        ice_from: Where cold water gives way to ice water; at the start's or above there is none.
    """
    warm, legs = start, []
    if bath_end is not None:
        legs = bath_legs(volume, coefficient, start, bath_end, ice_from)
        warm = bath_end
    legs.append(Leg("fill", si_value("ladling"), warm))
    before = sum(leg.seconds for leg in legs)
    clock = (
        _bath_clock(volume, coefficient, start, warm, ice_from) + si_value("ladling")
        if warm < FROM
        else 0.0
    )

    def reaches(target: float, which: int) -> float:
        if warm <= target:
            return 0.0
        return seconds_until(
            lambda seconds: (
                refrigerator + (warm - refrigerator) * _brick(edges, seconds)[which] <= target
            )
        )

    begun = reaches(FROM, 1)
    to_cold = reaches(TO, 0)
    middle = clock + reaches(MIDDLE, 0) - begun
    if warm <= MIDDLE:
        middle = _bath_clock(volume, coefficient, start, MIDDLE, ice_from)
    legs.append(Leg("refrigerator", to_cold, TO))
    return Route(tuple(legs), middle, clock + to_cold - begun, before)


def in_stages(
    depth: float,
    stages: Sequence[tuple[str, float | None]],
    *,
    start: float,
    refrigerator: float,
    room: float,
    freezer: float,
) -> Route:
    """A slab through places one after another; its sides are taken as insulated.

    Args:
        depth: Depth of the food, m.
        stages: Place and seconds there; the last has None and goes on until all is cold.
        start: The food's temperature at first, the same throughout.
        refrigerator: The refrigerator's temperature.
        room: The kitchen's temperature.
        freezer: The freezer's temperature.
    """
    media = {
        "refrigerator": _both(si_value("air-in-refrigerator"), refrigerator),
        "counter": _both(si_value("air-in-kitchen"), room),
        "freezer": _both(si_value("air-in-freezer"), freezer),
        "ice-under-pan": (
            Face(si_value("ice-water-under-pan"), si_value("ice-water")),
            Face(si_value("air-in-refrigerator"), refrigerator),
        ),
    }
    profile = [start] * NODES
    passed, before = 0.0, 0.0
    reached: dict[float, float] = {}
    legs = []
    for place, stay in stages:
        slab = Slab(depth, si_value("conductivity"), si_value("diffusivity"), *media[place])
        _note(reached, FROM, slab, profile, passed, mean=True)
        _note(reached, MIDDLE, slab, profile, passed)
        _note(reached, TO, slab, profile, passed)
        seconds = slab.seconds_until_below(profile, TO) if stay is None else stay
        if math.isinf(seconds):
            legs.append(Leg(place, seconds, max(profile)))
            break
        # A stage's crossings hold only while the food is still there.
        reached = {at: when for at, when in reached.items() if when <= passed + seconds + 1}
        profile = slab.evolve(profile, seconds)
        passed += seconds
        legs.append(Leg(place, seconds, max(profile)))
        if place == "counter":
            before = passed
    begun = reached.get(FROM, 0.0)
    return Route(
        tuple(legs),
        reached.get(MIDDLE, math.inf) - begun,
        reached.get(TO, math.inf) - begun,
        before,
    )


def _note(
    reached: dict[float, float],
    target: float,
    slab: Slab,
    profile: Sequence[float],
    passed: float,
    *,
    mean: bool = False,
) -> None:
    """When the slab falls to ``target``, unless it already has."""
    if target in reached:
        return
    if mean:
        seconds = seconds_until(
            lambda seconds: _mean(slab.evolve(profile, seconds)) <= target, limit=1e5
        )
    else:
        seconds = slab.seconds_until_below(profile, target, limit=1e6)
    if not math.isinf(seconds):
        reached[target] = passed + seconds


def bath_legs(
    volume: float, coefficient: float, start: float, end: float, ice_from: float
) -> list[Leg]:
    """A pot in cold water down to ``ice_from``, then in ice water; arguments as above."""
    legs = []
    turn = max(ice_from, end)
    water = bath_seconds(volume, coefficient, si_value("cold-water"), start, turn)
    if water > 0:
        legs.append(Leg("cold-water", water, min(start, turn)))
    if end < turn:
        cold = bath_seconds(volume, coefficient, si_value("ice-water"), min(start, turn), end)
        legs.append(Leg("ice-bath", cold, end))
    return legs


def _bath_clock(
    volume: float, coefficient: float, start: float, end: float, ice_from: float
) -> float:
    """Seconds in the bath from 135 degF, or from the start when that is lower, to ``end``."""
    begin = min(start, FROM)
    legs = bath_legs(volume, coefficient, begin, min(begin, end), ice_from)
    return sum(leg.seconds for leg in legs)


def _both(coefficient: float, temperature: float) -> tuple[Face, Face]:
    return Face(coefficient, temperature), Face(coefficient, temperature)


def _brick(edges: Sequence[float], seconds: float) -> tuple[float, float]:
    return brick_ratio(
        edges,
        si_value("air-in-refrigerator"),
        si_value("conductivity"),
        si_value("diffusivity"),
        seconds,
    )


def _mean(profile: Sequence[float]) -> float:
    return (sum(profile) - (profile[0] + profile[-1]) / 2) / (len(profile) - 1)


def _volumetric_heat() -> float:
    """J/m3K."""
    return si_value("conductivity") / si_value("diffusivity")
