"""ASHRAE Handbook, Refrigeration, Cooling and Freezing Times of Foods: Plank's equation.

Shape factors of the slab, cylinder, sphere and cube, and the formula for a block, from memory of
that chapter. The worked sphere is from memory of Singh and Heldman, Introduction to Food
Engineering, food freezing.
"""

from __future__ import annotations

import math

import pytest
from scipy.integrate import quad

from batchcook.foodsafety.freezing import brick_factors, plank_seconds, shape_factors


def test_the_worked_sphere_freezes_in_about_0_72_hours() -> None:
    seconds = plank_seconds(
        density=1000,
        latent_heat=250e3,
        freezing_point=-1.25,
        medium=-40,
        coefficient=50,
        conductivity=1.2,
        thickness=0.07,
        factors=shape_factors("sphere", [0.07]),
    )
    assert seconds / 3600 == pytest.approx(0.72, abs=0.005)


def test_shape_factors_of_the_simple_shapes() -> None:
    assert shape_factors("slab", [1]) == (1 / 2, 1 / 8)
    assert shape_factors("cylinder", [1]) == (1 / 4, 1 / 16)
    assert shape_factors("sphere", [1]) == (1 / 6, 1 / 24)


def test_a_cube_has_the_factors_of_a_sphere() -> None:
    assert brick_factors(1, 1) == pytest.approx((1 / 6, 1 / 24))
    assert brick_factors(1.001, 1.0005) == pytest.approx((1 / 6, 1 / 24), rel=2e-3)


def test_a_wide_block_is_a_slab() -> None:
    assert brick_factors(1e4, 1e4) == pytest.approx((1 / 2, 1 / 8), rel=1e-3)


def test_a_long_square_bar_is_a_cylinder() -> None:
    assert brick_factors(1e4, 1) == pytest.approx((1 / 4, 1 / 16), rel=1e-3)


@pytest.mark.parametrize(("one", "two"), [(1.5, 1.2), (2, 1), (2, 2), (3, 1.5), (4, 2), (9, 7)])
def test_a_block_has_the_factors_that_its_receding_front_gives(one: float, two: float) -> None:
    """Plank's own derivation: the front recedes alike from all faces, here by quadrature.

    With edges 1, b and c the front at depth x has area A(x); the heat of each layer passes all
    layers outside it, so R is the integral of A(x) times that of dx/A, and P the volume over A(0).
    """

    def area(depth: float) -> float:
        edges = (one - 2 * depth, two - 2 * depth, 1 - 2 * depth)
        return 2 * (edges[0] * edges[1] + edges[1] * edges[2] + edges[0] * edges[2])

    def outside(depth: float) -> float:
        return float(quad(lambda x: 1 / area(x), 0, depth)[0])

    within = quad(lambda depth: area(depth) * outside(depth), 0, 0.5, epsabs=1e-10)[0]
    found = brick_factors(one, two)
    assert found[0] == pytest.approx(one * two / area(0))
    assert found[1] == pytest.approx(within, rel=1e-4)


def test_air_no_colder_than_the_food_freezes_nothing() -> None:
    seconds = plank_seconds(
        density=1000,
        latent_heat=250e3,
        freezing_point=-1.25,
        medium=-1.25,
        coefficient=50,
        conductivity=1.2,
        thickness=0.07,
        factors=(1 / 2, 1 / 8),
    )
    assert math.isinf(seconds)
