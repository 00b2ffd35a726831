"""Sheet pans and baking dishes: what stands in for what, and the oven shelves they take."""

from __future__ import annotations

import pytest

from batchcook.kitchens.kitchen import default_kitchen
from batchcook.kitchens.pans import (
    HALF_SHEET,
    Pans,
    area_of,
    half_shelves,
    most_units,
    pan_options,
    read_size,
)

_NINE_BY_THIRTEEN = 9 * 13
_HALF_UNIT = area_of(*HALF_SHEET) / 2


def _pans(size: str, count: int) -> Pans:
    sides = read_size(size)
    assert sides is not None
    return Pans(*sides, count)


def test_a_size_is_read_with_its_shorter_side_first() -> None:
    assert _pans("13x9 inch", 1).size == "9x13 inch"
    assert _pans("33 x 23 cm", 1).size == "23x33 cm"
    assert _pans("23x33 cm", 1).area == pytest.approx(117.6, abs=0.1)


@pytest.mark.parametrize("text", ["9 by 13", "9x13", "9x13 feet", "0x9 inch", "", "x inch"])
def test_what_is_no_size_is_none(text: str) -> None:
    assert read_size(text) is None


def test_a_half_sheet_has_a_shelf_and_two_small_dishes_share_half_of_one() -> None:
    half, large, small = area_of(*HALF_SHEET), float(_NINE_BY_THIRTEEN), 64.0
    assert half_shelves([half]) == 2
    assert half_shelves([large] * 3) == 3
    assert half_shelves([small] * 3) == 2
    assert half_shelves([half, large, small]) == 4
    assert half_shelves([]) == 0


def test_as_few_pans_are_taken_as_can_be() -> None:
    pans = (_pans("13x18 inch", 2), _pans("9x13 inch", 2))
    one = pan_options("sheet-pan", pans, 2, _HALF_UNIT)
    assert one == [{"sheet-pan:13x18 inch": 1}]
    three = pan_options("sheet-pan", pans, 6, _HALF_UNIT)
    assert three == [{"sheet-pan:13x18 inch": 2, "sheet-pan:9x13 inch": 2}]
    assert pan_options("sheet-pan", pans, 7, _HALF_UNIT) == []
    assert most_units("sheet-pan", pans, 7, _HALF_UNIT) == 6


def test_two_small_dishes_and_one_large_stand_in_for_each_other() -> None:
    large, small = (_pans("9x13 inch", 1),), (_pans("8x8 inch", 2),)
    assert pan_options("baking-dish", small, 2, _NINE_BY_THIRTEEN / 2) == [
        {"baking-dish:8x8 inch": 2}
    ]
    assert pan_options("baking-dish", large, 4, 32.0) == [{"baking-dish:9x13 inch": 1}]


def test_a_dish_much_too_large_does_not_stand_in() -> None:
    assert pan_options("baking-dish", (_pans("9x13 inch", 2),), 2, 32.0) == []


def test_the_default_kitchen_has_half_sheets_and_dishes_of_two_sizes() -> None:
    kitchen = default_kitchen()
    assert [(each.size, each.count) for each in kitchen.sheet_pans] == [("13x18 inch", 4)]
    assert [each.size for each in kitchen.baking_dishes] == ["9x13 inch", "8x8 inch"]
