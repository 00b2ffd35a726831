"""Freezing times of containers."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from batchcook.complaints import InputFault
from batchcook.foodsafety.freezing import freezing_time
from batchcook.foodsafety.thermal import si_value
from batchcook.quantities import Quantity, ureg


def inches(*numbers: float) -> list[Quantity]:
    return [ureg.Quantity(number, "inch") for number in numbers]


def hours(shape_hours: Quantity) -> float:
    return float(shape_hours.to("hour").magnitude)


def test_thin_packs_freeze_before_thick_ones() -> None:
    times = [hours(freezing_time("slab", inches(depth))) for depth in (0.75, 1, 1.5, 2, 4)]
    assert times == sorted(times)
    assert len(set(times)) == len(times)


def test_a_block_freezes_before_a_slab_of_its_thickness() -> None:
    block = freezing_time("brick", inches(4, 4, 4))
    assert hours(block) < hours(freezing_time("slab", inches(4)))


def test_a_colder_freezer_is_faster() -> None:
    cold = freezing_time("slab", inches(2), freezer=ureg.Quantity(-10, "degF"))
    assert hours(cold) < hours(freezing_time("slab", inches(2)))


def test_a_quart_tub_takes_overnight_and_a_flat_bag_an_afternoon() -> None:
    assert 8 < hours(freezing_time("brick", inches(4.75, 4.75, 4.25))) < 24
    assert 4 < hours(freezing_time("brick", inches(10.5, 11, 1.25))) < 10


def test_a_slab_freezes_in_about_the_time_of_a_numerical_solution() -> None:
    """Enthalpy method in one dimension, half the slab, the latent heat spread over half a degree.

    Plank's equation, with the whole heat in it, is known to be off by a tenth or so.
    """
    cells, half, air = 60, 0.0254, -17.8
    width = half / cells
    density, latent = si_value("density"), si_value("water-share") * si_value("fusion-of-ice")
    above, below = si_value("heat-capacity-unfrozen"), si_value("heat-capacity-frozen")
    point, spread = si_value("freezing-point"), 0.5

    def temperature(
        enthalpy: np.ndarray[tuple[int], np.dtype[np.float64]],
    ) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
        melted = latent + spread * below
        return np.where(
            enthalpy >= melted,
            point + (enthalpy - melted) / above,
            np.where(
                enthalpy <= 0,
                point - spread + enthalpy / below,
                point - spread + spread * enthalpy / melted,
            ),
        )

    def rate(
        _: float, enthalpy: np.ndarray[tuple[int], np.dtype[np.float64]]
    ) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
        now = temperature(enthalpy)
        # Without a jump, which an implicit method may not get past.
        conductivity = np.interp(
            now, [point - spread, point], [si_value("frozen-conductivity"), 0.55]
        )
        between = 2 / (1 / conductivity[:-1] + 1 / conductivity[1:])
        flow = between * np.diff(now) / width
        into = np.zeros(cells)
        into[:-1] += flow
        into[1:] -= flow
        resistance = 1 / si_value("air-in-freezer") + width / 2 / conductivity[-1]
        into[-1] += (air - now[-1]) / resistance
        return np.asarray(into / (density * width))

    def frozen(_: float, enthalpy: np.ndarray[tuple[int], np.dtype[np.float64]]) -> float:
        return float(temperature(enthalpy)[0] + 10)

    frozen.terminal = True  # type: ignore[attr-defined] # how solve_ivp is told to stop
    start = np.full(cells, latent + spread * below + above * (5 - point))
    found = solve_ivp(rate, (0, 2e5), start, method="BDF", events=frozen, rtol=1e-6)
    assert found.t_events is not None
    numerical = float(found.t_events[0][0]) / 3600
    plank = hours(freezing_time("slab", inches(2), freezer=ureg.Quantity(air, "degC")))
    assert plank == pytest.approx(numerical, rel=0.1)


def test_a_freezer_too_warm_to_freeze_is_refused() -> None:
    with pytest.raises(InputFault, match="too warm to freeze"):
        freezing_time("slab", inches(2), freezer=ureg.Quantity(20, "degF"))


def test_edges_that_do_not_fit_the_shape_are_refused_all_at_once() -> None:
    with pytest.raises(InputFault) as fault:
        freezing_time("brick", inches(2, 0))
    assert len(fault.value.complaints) == 2
