"""How long a container takes to freeze, by Plank's equation.

ASHRAE Handbook, Refrigeration, Cooling and Freezing Times of Foods; worked examples in Singh and
Heldman, Introduction to Food Engineering. The heat taken out is the whole of it, from the
temperature at which the container goes in to that at which its center counts as frozen, where
Plank's own equation has the latent heat alone: slower, and nearer to what is measured.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

from batchcook.complaints import Complaint, InputFault
from batchcook.foodsafety.thermal import si_value
from batchcook.quantities import Quantity, ureg

__all__ = ["FreezingShape", "brick_factors", "freezing_time", "plank_seconds", "shape_factors"]

FreezingShape = Literal["slab", "cylinder", "sphere", "brick"]
"""A flat pack; a round tub, endless by its diameter; a ball; a block with three edges."""

FROZEN = -10.0
"""Where the center counts as frozen, degC."""
EQUAL = 1e-6

_FACTORS = {"slab": (1 / 2, 1 / 8), "cylinder": (1 / 4, 1 / 16), "sphere": (1 / 6, 1 / 24)}


def plank_seconds(
    *,
    density: float,
    latent_heat: float,
    freezing_point: float,
    medium: float,
    coefficient: float,
    conductivity: float,
    thickness: float,
    factors: tuple[float, float],
) -> float:
    """Plank's equation.

    Args:
        density: kg/m3.
        latent_heat: Heat taken out, J/kg.
        freezing_point: DegC.
        medium: Temperature of the air, degC; below the freezing point.
        coefficient: Heat transfer coefficient, W/m2K.
        conductivity: Of the frozen food, W/mK.
        thickness: Thickness or diameter, m.
        factors: Shape factors P and R.

    Returns:
        Seconds; infinite when the medium is no colder than the freezing point.
    """
    if medium >= freezing_point:
        return math.inf
    across, within = factors
    resistance = across * thickness / coefficient + within * thickness**2 / conductivity
    return density * latent_heat / (freezing_point - medium) * resistance


def brick_factors(ratio_one: float, ratio_two: float) -> tuple[float, float]:
    """Shape factors P and R of a block.

    Args:
        ratio_one: Its longest edge over its shortest.
        ratio_two: Its middle edge over its shortest.

    Returns:
        P and R: 1/6 and 1/24 for a cube, 1/2 and 1/8 in the limit of a wide slab (Plank's formula
        as in the ASHRAE Handbook).
    """
    one, two = ratio_one, ratio_two
    across = one * two / (2 * (one * two + one + two))
    spread = (one - two) * (one - 1) + (two - 1) ** 2
    if spread < EQUAL:
        return across, 1 / 24
    root = math.sqrt(spread)
    high, low = (one + two + 1 + root) / 3, (one + two + 1 - root) / 3

    def part(value: float) -> float:
        if abs(value - 1) < EQUAL:
            return 0.0
        factor = (value - 1) * (one - value) * (two - value)
        return factor * math.log(value / (value - 1))

    within = (part(high) - part(low)) / (8 * root) + (2 * one + 2 * two - 1) / 72
    return across, within


def shape_factors(shape: FreezingShape, edges: Sequence[float]) -> tuple[float, float]:
    """Shape factors P and R.

    Args:
        shape: The shape.
        edges: For a brick its three edges in any one unit; otherwise not looked at.
    """
    if shape != "brick":
        return _FACTORS[shape]
    shortest, middle, longest = sorted(edges)
    return brick_factors(longest / shortest, middle / shortest)


def freezing_time(
    shape: FreezingShape,
    edges: Sequence[Quantity],
    *,
    start: Quantity | None = None,
    freezer: Quantity | None = None,
) -> Quantity:
    """How long a container takes from refrigerator-cold until its center is frozen.

    Args:
        shape: The shape of the food in it.
        edges: A brick's three edges; else the thickness or diameter alone.
        start: Temperature at which it goes in, 41 degF if not given.
        freezer: The freezer's temperature, 0 degF if not given.

    Returns:
        Minutes.

    Raises:
        InputFault: The number of edges does not fit the shape, an edge is not positive, or the
            freezer is too warm to freeze the center to 14 degF.
    """
    lengths = [float(edge.to("meter").magnitude) for edge in edges]
    air = -17.8 if freezer is None else float(freezer.to("degC").magnitude)
    faults = _faults(shape, lengths, air)
    if faults:
        raise InputFault(faults)
    begin = 5.0 if start is None else float(start.to("degC").magnitude)
    seconds = plank_seconds(
        density=si_value("density"),
        latent_heat=_heat_to_take(begin),
        freezing_point=si_value("freezing-point"),
        medium=air,
        coefficient=si_value("air-in-freezer"),
        conductivity=si_value("frozen-conductivity"),
        thickness=min(lengths),
        factors=shape_factors(shape, lengths),
    )
    return ureg.Quantity(math.ceil(seconds / 60), "minute")


def _heat_to_take(start: float) -> float:
    """J/kg from ``start`` in degC to frozen."""
    point = si_value("freezing-point")
    above = si_value("heat-capacity-unfrozen") * max(0.0, start - point)
    latent = si_value("water-share") * si_value("fusion-of-ice")
    return above + latent + si_value("heat-capacity-frozen") * (point - FROZEN)


def _faults(shape: FreezingShape, lengths: Sequence[float], air: float) -> list[Complaint]:
    faults = []
    wanted = 3 if shape == "brick" else 1
    if len(lengths) != wanted:
        faults.append(
            Complaint("container", f"a {shape} with {len(lengths)} edges", f"{wanted} edges")
        )
    if any(length <= 0 for length in lengths):
        faults.append(Complaint("container", "an edge is zero or negative", "edges above zero"))
    if air > FROZEN - 2:
        degrees = ureg.Quantity(air, "degC").to("degF").magnitude
        faults.append(
            Complaint(
                "freezer", f"{degrees:.0f} degF is too warm to freeze food", "0 degF or below"
            )
        )
    return faults
