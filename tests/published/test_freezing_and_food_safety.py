"""USDA FSIS, Freezing and Food Safety: freezer storage chart at 0 degF.

Figures copied into `data/freezing_and_food_safety.csv`; compared with reprints on 2026-11-25. Its
refrigerator days, where given, are those of USDA FSIS, Leftovers and Food Safety.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from batchcook.foodsafety.storage import storage_row, storage_rows

COPY = Path(__file__).parent / "data" / "freezing_and_food_safety.csv"
CHART = list(csv.DictReader(COPY.read_text(encoding="utf-8").splitlines()))


def span(row: dict[str, str], what: str) -> tuple[int, int] | None:
    low, high = row[f"{what}_low"], row[f"{what}_high"]
    return (int(low), int(high)) if low else None


@pytest.mark.parametrize("row", CHART, ids=lambda row: row["row"])
def test_our_row_is_the_published_row(row: dict[str, str]) -> None:
    ours = storage_row(row["row"], "published chart")
    assert ours.refrigerator_days == span(row, "days")
    assert ours.freezer_months == span(row, "months")
    assert ours.source.key == "freezing-and-food-safety"


def test_we_have_no_row_that_is_not_in_the_chart() -> None:
    ours = {
        row.name for row in storage_rows().values() if row.source.key == "freezing-and-food-safety"
    }
    assert ours == {row["row"] for row in CHART}
