"""The ways in which a dish could be cooled, the work each makes and how long each takes."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from batchcook.foodsafety.coolingroutes import Route, bath_legs, in_stages, through_bath
from batchcook.foodsafety.icepans import IcePan, pan_on_ice
from batchcook.foodsafety.limits import COOLING_DEPTH, limit
from batchcook.foodsafety.thermal import si_value
from batchcook.quantities import Quantity, ureg

__all__ = [
    "Bath",
    "Case",
    "Consistency",
    "CoolingContainer",
    "Option",
    "fahrenheit",
    "hands_on",
    "holds_with_margin",
    "ice_pan_of",
    "in_order",
    "is_shallow",
    "route_of",
]

Consistency = Literal["liquid", "thick", "solid", "pieces"]
"""Stirs easily; stirs slowly; cannot be stirred (baked in its pan); separate pieces on a rack."""

Bath = Literal["may", "must", "never"]
"""Whether a dish stands in a bath before it is put away."""

BATH_ENDS_FAHRENHEIT = (100, 70, 60, 50, 45)
"""Where a dish may leave its bath; where cold water gives way to ice water as well."""
ICE_UNDER_MINUTES = (30, 45, 60, 75, 90, 120, 150, 180)
REPACK_MINUTES = 4.0
ICE_PAN_MINUTES = 2.0
CONTAINER_MINUTES = 0.5
SHALLOWEST_INCHES = 0.75
STEP_INCHES = 0.25


@dataclass(frozen=True)
class CoolingContainer:
    """What a dish may be cooled in.

    Attributes:
        name: As it is printed.
        length: Inside.
        width: Inside.
        depth: Deepest that it is filled; for pieces, their thickness.
        holds: Food in it at that depth; None for length times width times depth.
        count: How many there are; None for as many as needed.
        final: Whether the dish is frozen in it; otherwise it is packed again once cold.
    """

    name: str
    length: Quantity
    width: Quantity
    depth: Quantity
    holds: Quantity | None = None
    count: int | None = None
    final: bool = True


@dataclass(frozen=True)
class Case:
    """The dish and the kitchen in SI units and degC."""

    volume: float
    consistency: Consistency
    start: float
    refrigerator: float
    room: float
    pots: int
    ice: bool
    out_seconds: float
    bath: Bath = "may"

    @property
    def ice_from(self) -> float:
        """Where cold water around a pot gives way to ice water."""
        return min(self.start, si_value("lukewarm"))

    @property
    def coefficient(self) -> float:
        """From the food through the pot to a bath, W/m2K."""
        return si_value("stirred-liquid" if self.consistency == "liquid" else "stirred-thick")


@dataclass(frozen=True)
class Option:
    """A container at a depth, and a bath or ice before or under it."""

    container: CoolingContainer
    depth_inches: float
    count: int
    bath_end: float | None = None
    ice_minutes: int = 0

    @property
    def depth(self) -> float:
        """Depth of the food, in meters."""
        return float(ureg.Quantity(self.depth_inches, "inch").to("meter").magnitude)


def _options(case: Case, containers: Sequence[CoolingContainer]) -> Iterator[Option]:
    for container in containers:
        for depth in _depths(container, case.consistency):
            count = _count(case, container, depth)
            shallow = is_shallow(depth)
            if shallow and case.bath != "must":
                yield Option(container, depth, count)
            if case.bath != "never" and case.consistency in {"liquid", "thick"}:
                yield from (
                    Option(container, depth, count, bath_end=end)
                    for end in _bath_ends()
                    if end < case.start
                    and (case.ice or end >= si_value("lukewarm"))
                    and (shallow or end <= fahrenheit(70))
                )
            if case.consistency == "solid" and case.ice and shallow:
                on_ice = (
                    Option(container, depth, count, ice_minutes=minutes)
                    for minutes in ICE_UNDER_MINUTES
                )
                yield from (each for each in on_ice if ice_pan_of(case, each) is not None)


def _bath_ends() -> tuple[float, ...]:
    # Lukewarm as the table has it: converted twice it would be another number.
    return (si_value("lukewarm"), *(fahrenheit(degrees) for degrees in BATH_ENDS_FAHRENHEIT))


def _depths(container: CoolingContainer, consistency: Consistency) -> list[float]:
    """The deepest fill, and for pans shallower ones by quarter inches."""
    full = float(container.depth.to("inch").magnitude)
    if consistency == "pieces" or (container.final and consistency != "solid"):
        return [full]
    steps = int(max(0.0, full - SHALLOWEST_INCHES) / STEP_INCHES + 1e-9)
    return [full - STEP_INCHES * step for step in range(steps + 1)]


def _count(case: Case, container: CoolingContainer, depth_inches: float) -> int:
    holds = container.holds
    if holds is None:
        holds = container.length * container.width * container.depth
    share = depth_inches / float(container.depth.to("inch").magnitude)
    if case.consistency == "pieces":
        share *= si_value("pieces-cover")
    return max(1, math.ceil(case.volume / (float(holds.to("meter ** 3").magnitude) * share) - 0.02))


def in_order(case: Case, containers: Sequence[CoolingContainer]) -> list[Option]:
    """Options by the work they make; a dish's own containers are filled whole if that can be."""

    def order(option: Option) -> tuple[bool, float, float]:
        full = float(option.container.depth.to("inch").magnitude)
        return (option.container.final and option.depth_inches < full, *hands_on(case, option))

    return sorted(_options(case, containers), key=order)


def hands_on(case: Case, option: Option) -> tuple[float, float]:
    """Hands-on minutes of an option, ties to the one with the shortest bath."""
    bath = 0.0
    if option.bath_end is not None:
        bath = _bath_minutes(case, option.bath_end)
    hands_on = si_value("stirring-share") * bath * case.pots
    hands_on += 0.0 if option.container.final else REPACK_MINUTES * option.count
    if (on_ice := ice_pan_of(case, option)) is not None:
        hands_on += ICE_PAN_MINUTES * option.count * on_ice.fills
    hands_on += CONTAINER_MINUTES * option.count
    return hands_on, bath + option.ice_minutes


def ice_pan_of(case: Case, option: Option) -> IcePan | None:
    """The ice under one container of an option; None where it stands on none."""
    if not option.ice_minutes:
        return None
    length, width = (
        float(edge.to("meter").magnitude)
        for edge in (option.container.length, option.container.width)
    )
    return pan_on_ice(
        (length, width, option.depth),
        case.volume / option.count,
        start=case.start,
        refrigerator=case.refrigerator,
        seconds=option.ice_minutes * 60.0,
    )


def _bath_minutes(case: Case, end: float) -> float:
    """Minutes in cold water and then ice water."""
    legs = bath_legs(case.volume / case.pots, case.coefficient, case.start, end, case.ice_from)
    return sum(leg.seconds for leg in legs) / 60


def route_of(case: Case, option: Option) -> Route:
    """How long an option takes."""
    if option.ice_minutes or case.consistency == "pieces":
        stages: list[tuple[str, float | None]] = [("refrigerator", None)]
        if option.ice_minutes:
            stages.insert(0, ("ice-under-pan", option.ice_minutes * 60.0))
        return in_stages(
            option.depth,
            stages,
            start=case.start,
            refrigerator=case.refrigerator,
            room=case.room,
            freezer=0.0,
        )
    length, width = (
        float(edge.to("meter").magnitude)
        for edge in (option.container.length, option.container.width)
    )
    return through_bath(
        case.volume / case.pots,
        (length, width, option.depth),
        start=case.start,
        bath_end=option.bath_end,
        coefficient=case.coefficient,
        refrigerator=case.refrigerator,
        ice_from=case.ice_from,
    )


def holds_with_margin(case: Case, route: Route) -> bool:
    """Whether a route keeps all three limits with margin."""
    margin = si_value("margin")
    return (
        route.to_middle <= margin * 60 * limit("two-stage-first").minutes
        and route.to_end <= margin * 60 * limit("two-stage-total").minutes
        and route.before_refrigerator <= margin * case.out_seconds
    )


def is_shallow(depth_inches: float) -> bool:
    """Whether home guidance puts food of such a depth straight into the refrigerator."""
    return depth_inches <= float(COOLING_DEPTH.to("inch").magnitude)


def fahrenheit(degrees: float) -> float:
    """These degF as degC."""
    return (degrees - 32) / 1.8
