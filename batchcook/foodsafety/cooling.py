"""Choosing how a dish is cooled, so that it is cold in time, and saying what the model found.

The plan keeps to the stricter of two pieces of guidance. Home guidance asks for shallow containers
in the refrigerator within 2 hours and names no times after that; the FDA Food Code, written for
food establishments, asks for 135 to 70 degF within 2 hours and 41 degF within 6. The computed times
use at most nine tenths of those limits. They are estimates: a thermometer decides.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from batchcook.complaints import Complaint, InputFault
from batchcook.foodsafety.coolingoptions import (
    Bath,
    Case,
    Consistency,
    CoolingContainer,
    Option,
    fahrenheit,
    holds_with_margin,
    ice_pan_of,
    in_order,
    is_shallow,
    route_of,
)
from batchcook.foodsafety.coolingroutes import TO, Leg, Route, ice_needed, in_stages
from batchcook.foodsafety.coolingwords import instruction, reason
from batchcook.foodsafety.limits import time_out_limit
from batchcook.quantities import Quantity, ureg

__all__ = [
    "Bath",
    "Consistency",
    "CoolingContainer",
    "CoolingPlan",
    "CoolingStage",
    "choose_cooling",
    "cooling_times",
]


@dataclass(frozen=True)
class CoolingStage:
    """One stretch of cooling.

    Attributes:
        place: ``"cold-water"``, ``"ice-bath"``, ``"fill"``, ``"refrigerator"`` or
            ``"ice-under-pan"`` (in the refrigerator).
        minutes: How long.
        ends_at: The warmest point at its end, in degF.
        words: What to do.
    """

    place: str
    minutes: int
    ends_at: Quantity
    words: str


@dataclass(frozen=True)
class CoolingPlan:
    """How a dish is cooled.

    Attributes:
        stages: Its stretches in order.
        container: Name of the container chosen.
        depth: How deep it is filled, in inches.
        containers: How many.
        minutes_to_70: Computed minutes from 135 degF until no point is above 70 degF.
        minutes_to_41: The same until no point is above 41 degF.
        ice: Ice to have ready, in pounds.
        ice_fills: How often the ice under a pan is filled; 0 where none stands on ice.
        reason: Why this way, and where home guidance and the Food Code differ for it.
    """

    stages: tuple[CoolingStage, ...]
    container: str
    depth: Quantity
    containers: int
    minutes_to_70: int
    minutes_to_41: int
    ice: Quantity
    ice_fills: int
    reason: str


def choose_cooling(
    volume: Quantity,
    consistency: Consistency,
    containers: Sequence[CoolingContainer],
    *,
    start: Quantity | None = None,
    refrigerator: Quantity | None = None,
    room: Quantity | None = None,
    pots: int = 1,
    ice: bool = True,
    bath: Bath = "may",
    where: str = "cooling",
) -> CoolingPlan:
    """The way to cool a dish that keeps every limit with margin at the least work.

    Args:
        volume: All of the dish.
        consistency: Whether it can be stirred.
        containers: What it may be cooled in.
        start: Its temperature when cooling begins; 195 degF if not given.
        refrigerator: The refrigerator's temperature; 37 degF if not given.
        room: The kitchen's temperature; 72 degF if not given.
        pots: Pots among which the dish is shared for a bath.
        ice: Whether ice can be had.
        bath: Whether it stands in a bath first.
        where: The dish, for messages.

    Raises:
        InputFault: No way keeps the limits; proposes what would.
    """
    case = Case(
        volume=float(volume.to("meter ** 3").magnitude),
        consistency=consistency,
        start=_celsius(start, 195),
        refrigerator=_celsius(refrigerator, 37),
        room=_celsius(room, 72),
        pots=pots,
        ice=ice,
        out_seconds=60.0 * time_out_limit(ureg.Quantity(72, "degF") if room is None else room),
        bath=bath,
    )
    if case.refrigerator >= TO - 0.5:
        raise InputFault(_too_warm(case, where))
    for option in in_order(case, containers):
        if option.container.count is not None and option.count > option.container.count:
            continue
        route = route_of(case, option)
        if holds_with_margin(case, route):
            return _plan(case, option, route)
    raise InputFault(_refusal(case, containers, where))


def cooling_times(
    depth: Quantity,
    stages: Sequence[tuple[str, int | None]],
    *,
    start: Quantity | None = None,
    refrigerator: Quantity | None = None,
    room: Quantity | None = None,
    freezer: Quantity | None = None,
) -> tuple[int, int] | None:
    """Computed minutes from 135 to 70 degF and to 41 degF for a wide slab of food.

    Args:
        depth: Depth of the food; its sides count as insulated.
        stages: Places and minutes there: ``"counter"``, ``"refrigerator"``, ``"ice-under-pan"``
            (in the refrigerator) or ``"freezer"``; the last place has None and goes on until cold.
        start: Temperature at first, 135 degF if not given.
        refrigerator: 37 degF if not given.
        room: 72 degF if not given.
        freezer: 0 degF if not given.

    Returns:
        The two times, rounded up, or None when it never becomes cold.
    """
    route = in_stages(
        float(depth.to("meter").magnitude),
        [(place, None if stay is None else stay * 60.0) for place, stay in stages],
        start=_celsius(start, 135),
        refrigerator=_celsius(refrigerator, 37),
        room=_celsius(room, 72),
        freezer=_celsius(freezer, 0),
    )
    if math.isinf(route.to_middle) or math.isinf(route.to_end):
        return None
    return _minutes(route.to_middle), _minutes(route.to_end)


def _plan(case: Case, option: Option, route: Route) -> CoolingPlan:
    legs = [leg for leg in route.legs if leg.seconds > 0]
    alone = Option(option.container, option.depth_inches, option.count)
    straight = route_of(case, alone)
    on_ice = ice_pan_of(case, option)
    return CoolingPlan(
        stages=tuple(_stage(leg) for leg in legs),
        container=option.container.name,
        depth=ureg.Quantity(option.depth_inches, "inch"),
        containers=option.count,
        minutes_to_70=_minutes(route.to_middle),
        minutes_to_41=_minutes(route.to_end),
        ice=_ice(case, option, route),
        ice_fills=0 if on_ice is None else on_ice.fills,
        reason=reason(
            option.container.name,
            option.depth_inches,
            alone=straight,
            alone_does=is_shallow(option.depth_inches) and holds_with_margin(case, straight),
            chosen=route if (option.bath_end is not None or option.ice_minutes) else None,
        ),
    )


def _stage(leg: Leg) -> CoolingStage:
    ends_at = ureg.Quantity(leg.ends_at, "degC").to("degF")
    words = instruction(leg.place, float(ends_at.magnitude))
    return CoolingStage(leg.place, _minutes(leg.seconds), ends_at, words)


def _ice(case: Case, option: Option, route: Route) -> Quantity:
    """Pounds of ice, to the next whole one."""
    kilograms = 0.0
    if option.bath_end is not None:
        seconds = sum(leg.seconds for leg in route.legs if leg.place == "ice-bath")
        one = ice_needed(
            case.volume / case.pots, case.ice_from, option.bath_end, seconds, room=case.room
        )
        kilograms = case.pots * one
    if (on_ice := ice_pan_of(case, option)) is not None:
        kilograms = option.count * on_ice.kilograms
    pounds = float(ureg.Quantity(kilograms, "kilogram").to("pound").magnitude)
    return ureg.Quantity(math.ceil(pounds), "pound")


def _too_warm(case: Case, where: str) -> Complaint:
    degrees = ureg.Quantity(case.refrigerator, "degC").to("degF").magnitude
    return Complaint(
        where,
        f"a refrigerator at {degrees:.0f} degF does not bring food to 41 degF in 6 hours",
        "a refrigerator at 37 degF",
    )


def _refusal(case: Case, containers: Sequence[CoolingContainer], where: str) -> Complaint:
    """What would cool in time: more of a container, else something shallower, else less food."""
    for option in in_order(case, containers):
        if holds_with_margin(case, route_of(case, option)):
            return Complaint(
                where,
                f"there are too few {option.container.name} containers to cool it in time",
                f"{option.count} of them, {option.depth_inches:g} inches deep; "
                f"there are {option.container.count}",
            )
    names = ", ".join(container.name for container in containers) or "nothing"
    ice = "" if case.ice or case.consistency == "pieces" else ", or ice for a bath"
    return Complaint(
        where,
        f"in {names} it does not cool from 135 to 70 degF in 2 hours and to 41 degF in 6",
        f"containers at most 1 inch deep{ice}, or fewer batches, or the pot shared between two",
    )


def _celsius(given: Quantity | None, degrees: float) -> float:
    return fahrenheit(degrees) if given is None else float(given.to("degC").magnitude)


def _minutes(seconds: float) -> int:
    return math.ceil(seconds / 60 - 1e-9)
