"""FoodSafety.gov and USDA FSIS, Safe Minimum Internal Temperature Chart.

Figures copied into `data/safe_minimum_temperatures.csv`; compared with reprints on 2026-11-25.
"""

from __future__ import annotations

import csv
from pathlib import Path

from batchcook.foodsafety.temperatures import safe_temperatures

COPY = Path(__file__).parent / "data" / "safe_minimum_temperatures.csv"
CHART = list(csv.DictReader(COPY.read_text(encoding="utf-8").splitlines()))


def test_our_rows_are_the_published_rows_in_their_order() -> None:
    ours = [(row.fahrenheit, row.rest_minutes) for row in safe_temperatures().values()]
    assert ours == [(int(row["degF"]), int(row["rest_minutes"])) for row in CHART]


def test_each_row_covers_the_food_that_the_chart_names() -> None:
    words = ["poultry", "ground beef", "roasts", "ham", "fin fish", "egg", "leftovers", "ham"]
    for word, ours, published in zip(words, safe_temperatures().values(), CHART, strict=True):
        assert word in ours.scope.lower()
        assert word in published["food"].lower()
