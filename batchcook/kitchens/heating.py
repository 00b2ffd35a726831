"""How long a pot takes to come up to heat: an energy balance."""

from __future__ import annotations

import math

from batchcook.kitchens.kitchen import Burners
from batchcook.quantities import Quantity, ureg

__all__ = ["EFFICIENCY", "heat_up_minutes"]

EFFICIENCY = {"gas": 0.40, "electric": 0.74, "induction": 0.84}
"""Share of a burner's energy that reaches the food.

US Department of Energy, Technical Support Document for Residential Cooking Products (2014 test
procedure): gas about 40 %, electric coil and smooth top 74 %, induction 84 %. From memory.
"""

_HEAT_CAPACITY = ureg.Quantity(3.9, "kilojoule / kilogram / kelvin")
"""Soups and stews, four fifths water: Choi and Okos's composition rule gives 3.7 to 4.0."""

_DENSITY = ureg.Quantity(1.03, "kilogram / litre")
"""A thin soup to a stew; an assumption of ours."""

_SIMMER = ureg.Quantity(200, "degF")
"""A simmer begins a little below boiling: common practice, no source."""


def heat_up_minutes(volume: Quantity, start: Quantity, burners: Burners) -> int:
    """Whole minutes until ``volume`` on one burner simmers.

    ``t = rho V c (T_simmer - T_start) / (efficiency x power)``; the pot itself and losses from
    its surface are inside the efficiency.

    Args:
        volume: What stands on the burner, a volume.
        start: Its mean temperature when the burner is turned up.
        burners: The hob.
    """
    rise = (_SIMMER.to("kelvin") - start.to("kelvin")).to("kelvin")
    energy = volume * _DENSITY * _HEAT_CAPACITY * rise
    power = burners.power * EFFICIENCY[burners.kind]
    return math.ceil(float((energy / power).to("minute").magnitude) - 1e-9)
