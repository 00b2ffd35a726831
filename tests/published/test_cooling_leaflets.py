"""USDA FSIS and state extension leaflets on cooling soups and stews.

Figures copied into `data/cooling_leaflets.csv`; compared with reprints on 2026-11-25.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from batchcook.foodsafety.limits import limit, limits
from batchcook.quantities import ureg

COPY = Path(__file__).parent / "data" / "cooling_leaflets.csv"
FIGURES = list(csv.DictReader(COPY.read_text(encoding="utf-8").splitlines()))


@pytest.mark.parametrize("row", FIGURES, ids=lambda row: row["limit"])
def test_our_limit_is_the_published_one(row: dict[str, str]) -> None:
    ours = limit(row["limit"])
    high = ureg.Quantity(float(row["high"]), row["unit"])
    low = ureg.Quantity(float(row["low"] or row["high"]), row["unit"])
    assert ours.quantity.to(row["unit"]).magnitude == pytest.approx(high.magnitude, rel=1e-6)
    assert ours.lower.to(row["unit"]).magnitude == pytest.approx(low.magnitude, rel=1e-6)
    assert ours.source.key == "cooling-leaflets"


def test_no_number_of_ours_from_this_source_is_missing_from_the_copy() -> None:
    ours = {
        each.name
        for each in limits().values()
        if each.source.key == "cooling-leaflets" and each.high is not None
    }
    assert ours == {row["limit"] for row in FIGURES}
