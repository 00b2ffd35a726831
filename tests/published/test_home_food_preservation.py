"""National Center for Home Food Preservation, general freezing information.

From So Easy to Preserve, Bulletin 989, University of Georgia. Figures copied into
`data/home_food_preservation.csv`; compared with reprints on 2026-11-25.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from batchcook.foodsafety.headspace import headspace
from batchcook.foodsafety.limits import limit, limits
from batchcook.kitchens.containers import load_containers
from batchcook.quantities import ureg

COPY = Path(__file__).parent / "data" / "home_food_preservation.csv"
FIGURES = list(csv.DictReader(COPY.read_text(encoding="utf-8").splitlines()))


@pytest.mark.parametrize("row", FIGURES, ids=lambda row: row["limit"])
def test_our_limit_is_the_published_one(row: dict[str, str]) -> None:
    ours = limit(row["limit"])
    high = ureg.Quantity(float(row["high"]), row["unit"])
    low = ureg.Quantity(float(row["low"] or row["high"]), row["unit"])
    assert ours.quantity.to(row["unit"]).magnitude == pytest.approx(high.magnitude, rel=1e-6)
    assert ours.lower.to(row["unit"]).magnitude == pytest.approx(low.magnitude, rel=1e-6)
    assert ours.source.key == "home-food-preservation"


def test_no_number_of_ours_from_this_source_is_missing_from_the_copy() -> None:
    ours = {
        each.name
        for each in limits().values()
        if each.source.key == "home-food-preservation" and each.high is not None
    }
    assert ours == {row["limit"] for row in FIGURES}


def test_our_tubs_leave_the_published_headspace() -> None:
    tubs = [each for each in load_containers().values() if each.shape == "tub"]
    assert tubs
    for tub in tubs:
        assert tub.headspace >= headspace(tub.capacity)
