"""FoodSafety.gov, Cold Food Storage Chart.

US Department of Health and Human Services with USDA FSIS. Figures copied into
`data/cold_food_storage_chart.csv`, weeks as days; compared with reprints on 2026-11-25.
"""

from __future__ import annotations

import pytest
from copied_charts import agrees_with_chart, rows_from
from copied_figures import copied

CHART = copied("cold_food_storage_chart")


@pytest.mark.parametrize("row", CHART, ids=lambda row: row["row"])
def test_our_row_is_the_published_row(row: dict[str, str]) -> None:
    agrees_with_chart(row, "cold-food-storage-chart")


def test_we_have_no_row_that_is_not_in_the_chart() -> None:
    assert rows_from("cold-food-storage-chart") == {row["row"] for row in CHART}
