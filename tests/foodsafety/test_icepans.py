"""Ice around a baking dish in a larger pan."""

from __future__ import annotations

import numpy as np
import pytest

from batchcook.foodsafety.cooling import CoolingContainer, choose_cooling
from batchcook.foodsafety.icepans import IcePan, pan_on_ice
from batchcook.quantities import Quantity, ureg

INCH = 0.0254
HOT = 90.6
"""195 degF."""
COLD = 2.8
"""37 degF."""


def on_ice(length: float, width: float, depth: float, cups: float, minutes: int) -> IcePan | None:
    return pan_on_ice(
        (length * INCH, width * INCH, depth * INCH),
        cups * 0.000236588,
        start=HOT,
        refrigerator=COLD,
        seconds=minutes * 60.0,
    )


def test_as_much_fits_as_stands_between_the_two_pans() -> None:
    """12 x 17 less 8 x 8 inches, 1.5 deep: 210 cubic inches, 3.4 litres, half of them cubes."""
    small = on_ice(8, 8, 1.5, 5, 90)
    assert small is not None
    assert small.fits == pytest.approx(3.44 / 2 * 0.917, rel=0.01)
    assert small.kilograms < small.fits
    assert small.fills == 1


def test_around_a_large_dish_less_fits_and_it_is_filled_again() -> None:
    """12 x 17 less 9 x 13 inches, 1.2 deep: 104 cubic inches, 1.7 litres."""
    large = on_ice(9, 13, 1.2, 8, 30)
    assert large is not None
    assert large.fits == pytest.approx(1.71 / 2 * 0.917, rel=0.01)
    assert large.fits < large.kilograms <= 2 * large.fits
    assert large.fills == 2


def test_the_ice_takes_what_a_slab_gives_downwards() -> None:
    """The same slab by finite differences: ice water below, the refrigerator's air above."""
    cells, depth = 60, 1.5 * INCH
    width, conductivity, heat = depth / cells, 0.55, 0.55 / 1.4e-7
    profile = np.full(cells, HOT)
    step = 0.4 * width**2 / 1.4e-7
    down = 0.0
    for _ in range(round(90 * 60 / step)):
        below = (profile[0] - 0.56) / (1 / 200 + width / 2 / conductivity)
        above = (profile[-1] - COLD) / (1 / 10 + width / 2 / conductivity)
        flow = conductivity * np.diff(profile) / width
        flows = np.concatenate(([below], flow, [-above]))
        profile = profile + step / (heat * width) * np.diff(flows)
        down += below * step
    volume = 5 * 0.000236588
    water = 4190 * (60 - 33) / 1.8 * 3.44 / 2
    found = on_ice(8, 8, 1.5, 5, 90)
    assert found is not None
    expected = 1.2 * (down * volume / depth + water) / 334000
    assert found.kilograms == pytest.approx(expected, rel=0.03)


def test_what_does_not_fit_into_the_larger_pan_or_melts_at_once_is_no_way() -> None:
    assert on_ice(12, 18, 1, 8, 60) is None
    assert on_ice(11.9, 16.9, 2, 20, 60) is None


def inches(number: float) -> Quantity:
    return ureg.Quantity(number, "inch")


def test_a_dish_with_no_larger_pan_is_not_cooled_on_ice() -> None:
    sheet = CoolingContainer("roasting dish", inches(12), inches(18), inches(1.5))
    plan = choose_cooling(ureg.Quantity(5, "quart"), "solid", [sheet])
    assert plan.ice_fills == 0
    assert plan.ice.magnitude == 0
    assert plan.depth.magnitude < 1.5
