"""USDA FSIS, The Big Thaw: Safe Defrosting Methods.

Figures copied into `data/big_thaw.csv`; compared with reprints on 2026-11-25. That cooking from
frozen takes about half as long again is from memory.
"""

from __future__ import annotations

import pytest
from copied_figures import agrees, copied, names_with_numbers

FIGURES = copied("big_thaw")


@pytest.mark.parametrize("row", FIGURES, ids=lambda row: row["limit"])
def test_our_limit_is_the_published_one(row: dict[str, str]) -> None:
    agrees(row, "big-thaw")


def test_no_number_of_ours_from_this_source_is_missing_from_the_copy() -> None:
    assert names_with_numbers("big-thaw") == {row["limit"] for row in FIGURES}
