"""Oregon State University Extension, Foods That Do Not Freeze Well, SP 50-766, and PNW 296.

With the National Center for Home Food Preservation's list. Foods, uses and what becomes of them
copied, one food a row, into `data/foods_not_freezing_well.csv`; compared with reprints on
2026-11-25.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from batchcook.foodsafety.freezerquality import FoodUse, freezing_warnings

COPY = Path(__file__).parent / "data" / "foods_not_freezing_well.csv"
LIST = list(csv.DictReader(COPY.read_text(encoding="utf-8").splitlines()))


@pytest.mark.parametrize("row", LIST, ids=lambda row: row["food"])
def test_each_listed_food_is_warned_about_as_published(row: dict[str, str]) -> None:
    found = freezing_warnings([FoodUse(row["food"], row["use"])])
    assert any(row["condition"] in warning.what for warning in found)
    for warning in found:
        keys = {source.key for source in warning.sources}
        assert keys <= {"home-food-preservation", "foods-not-freezing-well"}
