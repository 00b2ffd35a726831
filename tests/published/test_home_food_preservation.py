"""National Center for Home Food Preservation, general freezing information.

From So Easy to Preserve, Bulletin 989, University of Georgia. Figures copied into
`data/home_food_preservation.csv`; compared with reprints on 2026-11-25.
"""

from __future__ import annotations

import pytest
from copied_figures import agrees, copied, names_with_numbers

from batchcook.foodsafety.headspace import headspace
from batchcook.kitchens.containers import load_containers

FIGURES = copied("home_food_preservation")


@pytest.mark.parametrize("row", FIGURES, ids=lambda row: row["limit"])
def test_our_limit_is_the_published_one(row: dict[str, str]) -> None:
    agrees(row, "home-food-preservation")


def test_no_number_of_ours_from_this_source_is_missing_from_the_copy() -> None:
    assert names_with_numbers("home-food-preservation") == {row["limit"] for row in FIGURES}


def test_our_tubs_leave_the_published_headspace() -> None:
    tubs = [each for each in load_containers().values() if each.shape == "tub"]
    assert tubs
    for tub in tubs:
        assert tub.headspace >= headspace(tub.capacity)
