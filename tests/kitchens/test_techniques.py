"""How long a home cook takes: common practice, no source."""

import pytest

from batchcook.kitchens.techniques import CUTS, load_techniques
from batchcook.quantities import ureg


@pytest.mark.parametrize(
    ("cut", "food", "grams", "least", "most"),
    [
        ("minced", "garlic", 12 * 3, 5, 6),  # 25 to 30 s a clove, peeling included
        ("diced", "onion", 4 * 110, 5, 8),  # a minute and a half each
        ("diced", "carrot", 6 * 61, 5, 7),
        ("cubed", "potato", 907, 7, 10),
        ("grated", "cheddar", 227, 3, 4),
        ("grated", "parmesan", 50, 2, 3),
        ("sliced", "mushroom", 454, 5, 6),
        ("squeezed dry", "spinach, frozen", 454, 4, 5),
        ("drained and picked over", "salmon, canned", 630, 6, 8),  # two cans
        ("squeezed", "lemon juice", 81, 2, 3),  # not two lemons
        ("1-inch cubes", "beef chuck", 907, 7, 9),
    ],
)
def test_a_home_cook_takes_so_long(
    cut: str, food: str, grams: float, least: int, most: int
) -> None:
    assert least <= CUTS[cut].minutes(food, ureg.Quantity(grams, "gram")) <= most


def test_only_what_is_cut_takes_a_knife() -> None:
    assert {name for name, cut in CUTS.items() if not cut.knife} == {
        "squeezed dry",
        "squeezed",
        "casings off",
        "drained and picked over",
    }


def test_mushrooms_soften_until_their_water_is_gone_and_a_second_go_begins_anew() -> None:
    sweat, pound = load_techniques()["sweat"], ureg.Quantity(454, "gram")
    onions = sweat.minutes(weight=pound, of={"onion": 454})
    assert sweat.minutes(weight=pound, of={"mushroom": 454}) >= onions + 4
    assert sweat.minutes(weight=pound, of={"onion": 454}, goes=2) == onions + sweat.fixed
