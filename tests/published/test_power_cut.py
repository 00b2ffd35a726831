"""FoodSafety.gov, Food Safety During Power Outage.

Figures in `data/power_cut.csv`; compared on 2026-11-26 with reprints of the page by newspapers and
health departments, which name it.
"""

from __future__ import annotations

import pytest
from copied_figures import agrees, copied, names_with_numbers

from batchcook.foodsafety.limits import limit
from batchcook.foodsafety.powercut import (
    look_words,
    refrigerator_holds,
    refrigerator_words,
    stays_words,
)

FIGURES = copied("power_cut")


@pytest.mark.parametrize("row", FIGURES, ids=lambda row: row["limit"])
def test_our_limit_is_the_published_one(row: dict[str, str]) -> None:
    agrees(row, "power-cut")
    assert not limit(row["limit"]).source.from_memory


def test_no_number_of_ours_from_this_source_is_missing_from_the_copy() -> None:
    assert names_with_numbers("power-cut") == {row["limit"] for row in FIGURES}


def test_the_words_tell_these_figures() -> None:
    assert "about 48 hours" in stays_words("full")[0]
    look = " ".join(look_words(30, "half", opened=False))
    assert "30 hours are longer than the 24 hours that a half-full freezer stays cold" in look
    assert "Ice crystals in it still, or 40 degF or below" in look
    assert "Above 40 degF for more than 2 hours: throw out" in look
    assert "door was opened" in look_words(1, "full", opened=True)[0]
    assert (
        "a thermometer in the freezer at 40 degF or below, or ice crystals"
        in (stays_words("half")[1])
    )


def test_past_its_hours_what_is_in_the_refrigerator_is_thrown_out_unless_measured_cold() -> None:
    told = " ".join(refrigerator_words(30, opened=False))
    assert "stays cold for about 4 hours. 30 h is past those 4 hours" in told
    assert "Throw out all perishable food in it" in told
    assert "unless a thermometer shows that it stayed at 40 degF or below" in told


@pytest.mark.parametrize(
    ("hours", "opened", "holds"),
    [(4, False, True), (4.5, False, False), (2, True, True), (3, True, False)],
)
def test_a_refrigerator_holds_for_its_hours_only_if_kept_shut(
    hours: float, opened: bool, holds: bool
) -> None:
    assert refrigerator_holds(hours, opened=opened) is holds
    told = " ".join(refrigerator_words(hours, opened=opened))
    assert ("can stay" in told) is holds
    assert ("Throw out" in told) is not holds
    assert ("opened" in told) is opened
