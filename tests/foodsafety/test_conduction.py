"""Conduction in a slab, against a numerical solution and its own limiting cases."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from batchcook.foodsafety.conduction import NODES, Face, Slab, brick_ratio, seconds_until

Profile = np.ndarray[tuple[int], np.dtype[np.float64]]
CONDUCTIVITY, DIFFUSIVITY = 0.55, 1.4e-7


def numerically(slab: Slab, start: Profile, seconds: float) -> Profile:
    """The same slab by finite volumes in space and an implicit solver in time."""
    cells = len(start)
    width = slab.thickness / cells
    heat = slab.conductivity / slab.diffusivity

    def conductance(coefficient: float) -> float:
        """From the middle of an outer cell to the medium."""
        if coefficient == 0:
            return 0.0
        return 1 / (1 / coefficient + width / 2 / slab.conductivity)

    low, high = conductance(slab.low.coefficient), conductance(slab.high.coefficient)

    def rate(_: float, temperatures: Profile) -> Profile:
        flow = slab.conductivity / width * np.diff(temperatures)
        into = np.zeros(cells)
        into[:-1] += flow
        into[1:] -= flow
        into[0] += low * (slab.low.temperature - temperatures[0])
        into[-1] += high * (slab.high.temperature - temperatures[-1])
        return np.asarray(into / (heat * width))

    found = solve_ivp(rate, (0, seconds), start, method="BDF", rtol=1e-8, atol=1e-8)
    return np.asarray(found.y[:, -1])


def at_middles(profile: list[float], cells: int) -> Profile:
    positions = (np.arange(cells) + 0.5) / cells
    return np.interp(positions, np.linspace(0, 1, NODES), profile)


@pytest.mark.parametrize(
    ("inches", "low", "high"),
    [
        (2.0, Face(10, 2.8), Face(10, 2.8)),
        (1.0, Face(15, 2.8), Face(15, 2.8)),
        (2.0, Face(200, 0.6), Face(10, 2.8)),
        (1.5, Face(500, 0.0), Face(0, 20.0)),
        (1.0, Face(0, 20.0), Face(8, 22.0)),
        (2.0, Face(10, -18.0), Face(10, 4.0)),
    ],
)
@pytest.mark.parametrize("minutes", [2, 20, 120])
def test_the_series_agrees_with_a_numerical_solution(
    inches: float, low: Face, high: Face, minutes: int
) -> None:
    slab = Slab(inches * 0.0254, CONDUCTIVITY, DIFFUSIVITY, low, high)
    cells = 200
    expected = numerically(slab, np.full(cells, 57.2), minutes * 60)
    found = at_middles(slab.evolve([57.2] * NODES, minutes * 60), cells)
    assert np.max(np.abs(found - expected)) < 0.05


def test_stages_follow_one_another_as_they_do_numerically() -> None:
    on_ice = Slab(0.0381, CONDUCTIVITY, DIFFUSIVITY, Face(200, 0.6), Face(10, 2.8))
    on_rack = Slab(0.0381, CONDUCTIVITY, DIFFUSIVITY, Face(10, 2.8), Face(10, 2.8))
    cells = 200
    expected = numerically(on_rack, numerically(on_ice, np.full(cells, 82.0), 3600), 5400)
    profile = on_rack.evolve(on_ice.evolve([82.0] * NODES, 3600), 5400)
    assert np.max(np.abs(at_middles(profile, cells) - expected)) < 0.05


def test_time_to_a_temperature_agrees_with_the_numerical_one() -> None:
    slab = Slab(0.0508, CONDUCTIVITY, DIFFUSIVITY, Face(10, 2.8), Face(10, 2.8))
    seconds = slab.seconds_until_below([57.2] * NODES, 21.1)
    warmest = float(np.max(numerically(slab, np.full(201, 57.2), seconds)))
    assert warmest == pytest.approx(21.1, abs=0.02)


def test_early_on_the_surface_follows_the_endless_solid() -> None:
    slab = Slab(0.2, CONDUCTIVITY, DIFFUSIVITY, Face(50, 0.0), Face(0, 0.0))
    seconds = 1200.0
    share = 50 * math.sqrt(DIFFUSIVITY * seconds) / CONDUCTIVITY
    endless = 100 * math.exp(share * share) * math.erfc(share)
    assert slab.evolve([100.0] * NODES, seconds)[0] == pytest.approx(endless, abs=0.3)


def test_two_inches_in_the_refrigerator_need_the_hours_estimated_by_hand() -> None:
    hours = {}
    for inches in (1.0, 2.0):
        for coefficient in (10.0, 15.0):
            face = Face(coefficient, 2.78)
            slab = Slab(inches * 0.0254, CONDUCTIVITY, DIFFUSIVITY, face, face)
            seconds = slab.seconds_until_below([57.2] * NODES, 21.1)
            hours[inches, coefficient] = seconds / 3600
    assert hours[2.0, 15.0] == pytest.approx(2.7, abs=0.05)
    assert hours[2.0, 10.0] == pytest.approx(3.7, abs=0.05)
    assert hours[1.0, 15.0] == pytest.approx(1.2, abs=0.05)
    assert hours[1.0, 10.0] == pytest.approx(1.7, abs=0.05)


def test_a_wide_brick_is_a_slab() -> None:
    face = Face(10, 0.0)
    slab = Slab(0.03, CONDUCTIVITY, DIFFUSIVITY, face, face)
    center, mean = brick_ratio([0.03], 10, CONDUCTIVITY, DIFFUSIVITY, 3600)
    wide, _ = brick_ratio([0.03, 2.0, 2.0], 10, CONDUCTIVITY, DIFFUSIVITY, 3600)
    profile = slab.evolve([1.0] * NODES, 3600)
    assert center == pytest.approx(profile[NODES // 2], abs=1e-4)
    assert wide == pytest.approx(center, abs=1e-4)
    assert mean == pytest.approx(sum(profile[1:]) / (NODES - 1), abs=1e-3)


def test_a_target_at_the_mediums_temperature_is_never_reached() -> None:
    slab = Slab(0.02, CONDUCTIVITY, DIFFUSIVITY, Face(10, 5.0), Face(10, 5.0))
    assert math.isinf(slab.seconds_until_below([50.0] * NODES, 4.9))


def test_no_time_leaves_a_profile_as_it_is() -> None:
    slab = Slab(0.02, CONDUCTIVITY, DIFFUSIVITY, Face(10, 5.0), Face(10, 5.0))
    profile = [float(node) for node in range(NODES)]
    assert slab.evolve(profile, 0) == profile


def test_the_first_moment_is_found() -> None:
    assert seconds_until(lambda seconds: seconds >= 1234.5) == pytest.approx(1234.5, abs=0.02)
    assert seconds_until(lambda _: True) == 0
    assert math.isinf(seconds_until(lambda _: False, limit=1000))


@settings(max_examples=40, deadline=None)
@given(st.floats(0.01, 0.1), st.floats(2, 60), st.floats(2, 60), st.floats(60, 20000))
def test_food_never_leaves_the_range_between_its_start_and_its_media(
    thickness: float, low: float, high: float, seconds: float
) -> None:
    slab = Slab(thickness, CONDUCTIVITY, DIFFUSIVITY, Face(low, 0.0), Face(high, 4.0))
    profile = slab.evolve([60.0] * NODES, seconds)
    assert min(profile) > -0.5
    assert max(profile) < 60.5


@settings(max_examples=25, deadline=None)
@given(st.floats(0.01, 0.08), st.floats(5, 300))
def test_deeper_food_and_stiller_air_take_longer(thickness: float, coefficient: float) -> None:
    def seconds(deep: float, moved: float) -> float:
        face = Face(moved, 2.8)
        slab = Slab(deep, CONDUCTIVITY, DIFFUSIVITY, face, face)
        return slab.seconds_until_below([57.2] * NODES, 21.1)

    assert seconds(thickness * 1.2, coefficient) > seconds(thickness, coefficient)
    assert seconds(thickness, coefficient * 1.2) < seconds(thickness, coefficient)
