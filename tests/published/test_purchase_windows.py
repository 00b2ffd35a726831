"""FoodSafety.gov, Cold Food Storage Chart, and USDA FSIS, Freezing and Food Safety.

How long fresh meat, poultry and fish may be in the refrigerator before they are cooked; US
Department of Health and Human Services with USDA FSIS. Figures copied into
`data/cold_food_storage_chart.csv` and `data/freezing_and_food_safety.csv`; compared with reprints
on 2026-11-25. For stew meat the days are those of USDA FSIS, Leftovers and Food Safety.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from batchcook.foodsafety.kinds import RAW_MEAT
from batchcook.foodsafety.purchasewindows import purchase_window

DATA = Path(__file__).parent / "data"
DAYS = {
    row["row"]: (int(row["days_low"]), int(row["days_high"]))
    for name in ("cold_food_storage_chart.csv", "freezing_and_food_safety.csv")
    for row in csv.DictReader((DATA / name).read_text(encoding="utf-8").splitlines())
    if row["days_low"]
}


@pytest.mark.parametrize(
    ("kind", "row"),
    [
        ("raw-ground-beef", "raw-ground-meat-or-poultry"),
        ("raw-ground-pork", "raw-ground-meat-or-poultry"),
        ("raw-ground-poultry", "raw-ground-meat-or-poultry"),
        ("raw-poultry", "raw-poultry-whole"),
        ("raw-poultry", "raw-poultry-pieces"),
        ("raw-sausage", "raw-sausage"),
        ("raw-beef", "raw-roasts"),
        ("raw-beef", "raw-steaks"),
        ("raw-pork", "raw-chops"),
        ("bacon", "bacon"),
        ("cooked-sausage", "cooked-sausage"),
    ],
)
def test_the_window_is_the_chart_s(kind: str, row: str) -> None:
    window = purchase_window(kind)
    assert window is not None
    assert window.days == DAYS[row]


@pytest.mark.parametrize(
    ("kind", "row"),
    [
        ("raw-fish-fatty", "fatty-fish-raw"),
        ("raw-fish-lean", "lean-fish-raw"),
        ("raw-fish-lean", "lean-fish-raw-2"),
    ],
)
def test_fish_is_bought_no_earlier_than_the_chart_allows_and_never_before_two_days(
    kind: str, row: str
) -> None:
    window = purchase_window(kind)
    assert window is not None
    assert window.days == (DAYS[row][0], min(2, DAYS[row][1]))


@pytest.mark.parametrize("kind", ["raw-beef", "raw-pork"])
def test_meat_cut_up_for_stewing_has_the_days_of_stew_meat(kind: str) -> None:
    window = purchase_window(kind)
    assert window is not None
    assert window.cut_up == DAYS["raw-stew-meat"]


@pytest.mark.parametrize("kind", sorted(RAW_MEAT))
def test_no_raw_meat_poultry_or_fish_is_without_a_window(kind: str) -> None:
    assert purchase_window(kind) is not None


@pytest.mark.parametrize("kind", ["produce", "canned", "dry-goods", "frozen", "spice"])
def test_what_no_chart_limits_has_none(kind: str) -> None:
    assert purchase_window(kind) is None
