"""Incropera and DeWitt, Fundamentals of Heat and Mass Transfer: plane wall with convection.

First roots (radians) and coefficients of the one-term solution by Biot number, from memory of the
book's table of coefficients used in the one-term approximation.
"""

from __future__ import annotations

import math

import pytest

from batchcook.foodsafety.conduction import brick_ratio, plane_wall_first_term

TABLE = [
    (0.01, 0.0998, 1.0017),
    (0.1, 0.3111, 1.0161),
    (0.5, 0.6533, 1.0701),
    (1.0, 0.8603, 1.1191),
    (5.0, 1.3138, 1.2402),
    (10.0, 1.4289, 1.2620),
    (100.0, 1.5552, 1.2731),
]


@pytest.mark.parametrize(("biot", "root", "coefficient"), TABLE)
def test_first_root_and_coefficient_are_the_tabulated_ones(
    biot: float, root: float, coefficient: float
) -> None:
    found = plane_wall_first_term(biot)
    assert found[0] == pytest.approx(root, abs=1.0e-4)
    assert found[1] == pytest.approx(coefficient, abs=1.5e-4)


@pytest.mark.parametrize("biot", [biot for biot, _, _ in TABLE])
def test_roots_satisfy_the_books_equation(biot: float) -> None:
    root, _ = plane_wall_first_term(biot)
    assert root * math.tan(root) == pytest.approx(biot, rel=1e-9)


@pytest.mark.parametrize(("biot", "root", "coefficient"), TABLE)
def test_beyond_a_fourier_number_of_a_fifth_one_term_is_within_two_percent(
    biot: float, root: float, coefficient: float
) -> None:
    half, conductivity, diffusivity, fourier = 0.02, 0.5, 1.4e-7, 0.2
    center, mean = brick_ratio(
        [2 * half],
        biot * conductivity / half,
        conductivity,
        diffusivity,
        fourier * half**2 / diffusivity,
    )
    one_term = coefficient * math.exp(-root * root * fourier)
    assert center == pytest.approx(one_term, rel=0.02)
    assert mean < center
