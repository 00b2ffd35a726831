"""Incropera and DeWitt, Fundamentals of Heat and Mass Transfer: plane wall with convection.

First roots (radians) and coefficients of the one-term solution by Biot number, from memory of the
book's table of coefficients used in the one-term approximation.
"""

from __future__ import annotations

import math

import pytest

from batchcook.foodsafety.conduction import brick_ratio

TABLE = [
    (0.01, 0.0998, 1.0017),
    (0.1, 0.3111, 1.0161),
    (0.5, 0.6533, 1.0701),
    (1.0, 0.8603, 1.1191),
    (5.0, 1.3138, 1.2402),
    (10.0, 1.4289, 1.2620),
    (100.0, 1.5552, 1.2731),
]


HALF, CONDUCTIVITY, DIFFUSIVITY = 0.02, 0.5, 1.4e-7
"""A wall of food, 4 cm thick; any other has the same terms."""


def _left(biot: float, fourier: float) -> tuple[float, float]:
    """What the program finds is left at the center and on average."""
    return brick_ratio(
        [2 * HALF],
        biot * CONDUCTIVITY / HALF,
        CONDUCTIVITY,
        DIFFUSIVITY,
        fourier * HALF**2 / DIFFUSIVITY,
    )


@pytest.mark.parametrize(("biot", "root", "coefficient"), TABLE)
def test_first_root_and_coefficient_are_the_tabulated_ones(
    biot: float, root: float, coefficient: float
) -> None:
    """Late enough only the first term is left: its decay gives its root, its size the other."""
    early, late = (_left(biot, fourier)[0] for fourier in (2.0, 3.0))
    found = math.sqrt(math.log(early / late))
    assert found == pytest.approx(root, abs=1.0e-4)
    assert early * math.exp(2.0 * found**2) == pytest.approx(coefficient, abs=1.5e-4)
    assert found * math.tan(found) == pytest.approx(biot, rel=1e-6)


@pytest.mark.parametrize(("biot", "root", "coefficient"), TABLE)
def test_beyond_a_fourier_number_of_a_fifth_one_term_is_within_two_percent(
    biot: float, root: float, coefficient: float
) -> None:
    center, mean = _left(biot, 0.2)
    one_term = coefficient * math.exp(-root * root * 0.2)
    assert center == pytest.approx(one_term, rel=0.02)
    assert mean < center
