"""FoodSafety.gov, Food Safety During Power Outage.

Figures in `data/power_cut.csv` are from memory.
"""

from __future__ import annotations

import pytest
from copied_figures import agrees, copied, names_with_numbers

from batchcook.foodsafety.limits import limit
from batchcook.foodsafety.powercut import look_words, refrigerator_words, stays_words

FIGURES = copied("power_cut")


@pytest.mark.parametrize("row", FIGURES, ids=lambda row: row["limit"])
def test_our_limit_is_the_published_one(row: dict[str, str]) -> None:
    agrees(row, "power-cut")
    assert limit(row["limit"]).source.from_memory


def test_no_number_of_ours_from_this_source_is_missing_from_the_copy() -> None:
    assert names_with_numbers("power-cut") == {row["limit"] for row in FIGURES}


def test_the_words_tell_these_figures() -> None:
    assert "about 48 hours" in stays_words("full")[0]
    look = " ".join(look_words(30, "half", opened=False))
    assert "30 hours are longer than the 24 hours that a half-full freezer stays cold" in look
    assert "Ice crystals in it still, or 40 degF or below" in look
    assert "Above 40 degF for more than 2 hours: throw out" in look
    assert "door was opened" in look_words(1, "full", opened=True)[0]
    assert "about 4 hours; after that, what was above 40 degF for more than 2 hours is thrown" in (
        refrigerator_words()
    )
