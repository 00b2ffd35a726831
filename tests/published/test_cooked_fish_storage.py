"""Oregon State University Extension on freezing cooked fish (the FDA gives 4 to 6 months).

Figures copied into `data/cooked_fish.csv`; compared with reprints on 2026-11-25.
"""

from __future__ import annotations

import pytest
from copied_charts import agrees_with_chart, rows_from
from copied_figures import copied

CHART = copied("cooked_fish")


@pytest.mark.parametrize("row", CHART, ids=lambda row: row["row"])
def test_our_row_is_the_published_row(row: dict[str, str]) -> None:
    agrees_with_chart(row, "cooked-fish-extension")


def test_we_have_no_row_that_is_not_in_the_chart() -> None:
    assert rows_from("cooked-fish-extension") == {row["row"] for row in CHART}
