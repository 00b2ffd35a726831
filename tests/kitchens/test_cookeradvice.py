"""What would hold a dish that the slow cookers at hand do not hold; tried, not only told."""

from __future__ import annotations

from dataclasses import replace

import pytest

from batchcook.foodsafety.limits import SLOW_COOKER_FILL
from batchcook.kitchens.cookeradvice import cookers_that_would_do
from batchcook.kitchens.kitchen import Vessels, default_kitchen
from batchcook.kitchens.vessels import cooker_options
from batchcook.quantities import ureg

KITCHEN = default_kitchen()
OVEN = "the oven or a pot instead of the slow cooker"


@pytest.mark.parametrize(
    ("size", "quarts", "batches", "told"),
    [
        # Half to two thirds of 6 quarts is 3 to 4 quarts.
        (6, 7.0, 2, f"1 batch, or 1 more slow cooker of 6 quarts, or {OVEN}"),
        # One batch of 3 1/2 quarts: two of 4 quarts would be under half full, one of 6 holds it.
        (4, 3.5, 1, f"a slow cooker of 6 quarts, or {OVEN}"),
        # Under half of 6 quarts, a smaller one is needed.
        (6, 2.0, 1, f"a slow cooker of 3 quarts, or {OVEN}"),
        (6, 100.0, 1, OVEN),
    ],
)
def test_what_would_do_is_told_and_would(
    size: float, quarts: float, batches: int, told: str
) -> None:
    there = Vessels(ureg.Quantity(size, "quart"), 1)
    kitchen = replace(KITCHEN, slow_cookers=(there,))
    volume = ureg.Quantity(quarts, "quart")
    assert cookers_that_would_do(kitchen, volume, batches, SLOW_COOKER_FILL, "us") == told
    if "a slow cooker of" in told:
        bought = Vessels(ureg.Quantity(float(told.split()[4]), "quart"), 1)
        with_it = replace(kitchen, slow_cookers=(bought,))
        assert cooker_options(with_it, volume, *SLOW_COOKER_FILL)


def test_a_kitchen_without_slow_cookers_is_told_the_size_to_buy() -> None:
    kitchen = replace(KITCHEN, slow_cookers=())
    volume = ureg.Quantity(3.5, "quart")
    told = cookers_that_would_do(kitchen, volume, 1, SLOW_COOKER_FILL, "us")
    assert told.startswith("a slow cooker of 6 quarts")
