"""Coming up to heat."""

import pytest

from batchcook.kitchens.heating import EFFICIENCY, heat_up_minutes
from batchcook.kitchens.kitchen import Burners
from batchcook.quantities import ureg

GAS = Burners(4, ureg.Quantity(9000, "BTU/hour"), "gas")


def test_eight_quarts_on_a_gas_burner_take_about_half_an_hour() -> None:
    # Common practice, no source: a full stockpot of cold soup takes half an hour and more.
    minutes = heat_up_minutes(ureg.Quantity(8, "quart"), ureg.Quantity(65, "degF"), GAS)
    assert 30 <= minutes <= 40


def test_the_time_is_the_energy_divided_by_the_power_that_arrives() -> None:
    # By hand: 2 L x 1.03 kg/L x 3.9 kJ/kg K x 75 K = 602.6 kJ; 1 kW x 0.84 = 0.84 kW; 717 s.
    induction = Burners(1, ureg.Quantity(1, "kilowatt"), "induction")
    assert heat_up_minutes(ureg.Quantity(2, "litre"), ureg.Quantity(65, "degF"), induction) == 12


def test_twice_the_volume_takes_twice_as_long() -> None:
    start = ureg.Quantity(65, "degF")
    once = heat_up_minutes(ureg.Quantity(4, "quart"), start, GAS)
    twice = heat_up_minutes(ureg.Quantity(8, "quart"), start, GAS)
    assert twice == pytest.approx(2 * once, abs=1)


def test_what_starts_hot_takes_less() -> None:
    volume = ureg.Quantity(4, "quart")
    cold = heat_up_minutes(volume, ureg.Quantity(40, "degF"), GAS)
    warm = heat_up_minutes(volume, ureg.Quantity(120, "degF"), GAS)
    assert warm < cold


def test_efficiencies_are_shares() -> None:
    assert all(0 < share < 1 for share in EFFICIENCY.values())
