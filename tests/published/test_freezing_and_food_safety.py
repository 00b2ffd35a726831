"""USDA FSIS, Freezing and Food Safety: freezer storage chart at 0 degF.

Figures copied into `data/freezing_and_food_safety.csv`; compared with reprints on 2026-11-25. Its
refrigerator days, where given, are those of USDA FSIS, Leftovers and Food Safety.
"""

from __future__ import annotations

import pytest
from copied_charts import agrees_with_chart, rows_from
from copied_figures import copied

CHART = copied("freezing_and_food_safety")


@pytest.mark.parametrize("row", CHART, ids=lambda row: row["row"])
def test_our_row_is_the_published_row(row: dict[str, str]) -> None:
    agrees_with_chart(row, "freezing-and-food-safety")


def test_we_have_no_row_that_is_not_in_the_chart() -> None:
    assert rows_from("freezing-and-food-safety") == {row["row"] for row in CHART}
