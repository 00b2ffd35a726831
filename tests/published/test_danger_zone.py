"""USDA FSIS, "Danger Zone", Leftovers and Food Safety, Basics for Handling Food Safely.

Figures copied into `data/danger_zone.csv`; compared with reprints on 2026-11-25.
"""

from __future__ import annotations

import pytest
from copied_figures import agrees, copied, names_with_numbers

FIGURES = copied("danger_zone")


@pytest.mark.parametrize("row", FIGURES, ids=lambda row: row["limit"])
def test_our_limit_is_the_published_one(row: dict[str, str]) -> None:
    agrees(row, "danger-zone")


def test_no_number_of_ours_from_this_source_is_missing_from_the_copy() -> None:
    assert names_with_numbers("danger-zone") == {row["limit"] for row in FIGURES}
