"""Which vessels hold a dish."""

from dataclasses import replace

import pytest

from batchcook.foodsafety.limits import SLOW_COOKER_FILL
from batchcook.kitchens.kitchen import Vessels, default_kitchen
from batchcook.kitchens.vessels import (
    cooker_options,
    fullest_cookers,
    pot_options,
    share_out,
    skillet_goes,
    skillet_load,
)
from batchcook.quantities import ureg

KITCHEN = default_kitchen()


def test_a_pot_is_never_filled_above_four_fifths() -> None:
    # 8 quarts hold 6.4: one drop more asks for the 12 quart pot.
    at_most = pot_options(KITCHEN, ureg.Quantity(6.4, "quart"))
    more = pot_options(KITCHEN, ureg.Quantity(6.5, "quart"))
    assert {"pot:8 quart": 1} in at_most
    assert more == [{"pot:12 quart": 1}]


def test_what_no_single_pot_holds_is_divided_over_two() -> None:
    options = pot_options(KITCHEN, ureg.Quantity(12, "quart"))
    assert options
    assert all(sum(option.values()) == 2 for option in options)
    assert {"pot:12 quart": 1, "pot:8 quart": 1} in options


def test_what_all_pots_together_do_not_hold_has_no_option() -> None:
    assert pot_options(KITCHEN, ureg.Quantity(40, "quart")) == []


@pytest.mark.parametrize(("quarts", "fits"), [(2.9, False), (3.0, True), (4.0, True), (4.1, False)])
def test_a_slow_cooker_is_between_half_and_two_thirds_full(quarts: float, fits: bool) -> None:
    # USDA FSIS, Slow Cookers and Food Safety: between one half and two thirds full.
    options = cooker_options(KITCHEN, ureg.Quantity(quarts, "quart"), *SLOW_COOKER_FILL)
    assert bool(options) is fits


def test_a_double_load_is_divided_over_two_slow_cookers() -> None:
    two = replace(KITCHEN, slow_cookers=(Vessels(ureg.Quantity(6, "quart"), 2),))
    options = cooker_options(two, ureg.Quantity(7, "quart"), *SLOW_COOKER_FILL)
    assert options == [{"slow-cooker:6 quart": 2}]
    assert float(fullest_cookers(two, SLOW_COOKER_FILL[1]).to("quart").magnitude) == pytest.approx(
        8
    )


def test_a_skillet_load_grows_with_its_area() -> None:
    large = skillet_load(KITCHEN)
    small = skillet_load(replace(KITCHEN, skillets=(Vessels(ureg.Quantity(6, "inch"), 1),)))
    assert large is not None
    assert small is not None
    assert float((large[1] / small[1]).to("dimensionless").magnitude) == pytest.approx(4)
    assert skillet_load(replace(KITCHEN, skillets=())) is None


@pytest.mark.parametrize(
    ("quarts", "inches", "goes"), [(2, 12, 1), (2.9, 12, 2), (4.1, 12, 3), (2, 8, 3)]
)
def test_wet_vegetables_soften_in_goes_that_cover_the_skillet(
    quarts: float, inches: float, goes: int
) -> None:
    # About 2 quarts raw in a 12 inch skillet: common practice, no source.
    kitchen = replace(KITCHEN, skillets=(Vessels(ureg.Quantity(inches, "inch"), 1),))
    assert skillet_goes(kitchen, ureg.Quantity(quarts, "quart")) == goes


def test_a_twelve_inch_skillet_browns_a_pound_and_a_quarter_at_once() -> None:
    # Common practice, no source, as kitchens/vessels.py says: more meat steams.
    twelve = replace(KITCHEN, skillets=(Vessels(ureg.Quantity(12, "inch"), 1),))
    held = skillet_load(twelve)
    assert held is not None
    assert held[0] == "skillet:12 inch"
    assert float(held[1].to("pound").magnitude) == pytest.approx(1.25)


def test_loads_are_full_but_for_one_remainder() -> None:
    assert list(share_out(250.0, 100.0)) == pytest.approx([1.0, 1.0, 0.5])
    assert share_out(200.0, 100.0) == [1.0, 1.0]
    assert list(share_out(40.0, 100.0)) == pytest.approx([0.4])
