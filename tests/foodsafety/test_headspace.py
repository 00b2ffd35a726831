"""Headspace by size, pack and top."""

from __future__ import annotations

import pytest

from batchcook.foodsafety.headspace import Pack, headspace
from batchcook.quantities import ureg


@pytest.mark.parametrize(
    ("size", "pack", "wide_top", "inches"),
    [
        ("1 pint", "liquid", True, 0.5),
        ("1 quart", "liquid", True, 1.0),
        ("1 pint", "liquid", False, 0.75),
        ("1 quart", "liquid", False, 1.5),
        ("1 cup", "liquid", True, 0.5),
        ("3 cup", "liquid", True, 1.0),
        ("2 quart", "liquid", True, 1.0),
        ("1 quart", "dry", True, 0.5),
        ("1 pint", "dry", False, 0.5),
    ],
)
def test_headspace_is_the_published_one_of_the_next_size_up(
    size: str, pack: Pack, *, wide_top: bool, inches: float
) -> None:
    found = headspace(ureg.Quantity(size), pack=pack, wide_top=wide_top)
    assert found.to("inch").magnitude == inches
