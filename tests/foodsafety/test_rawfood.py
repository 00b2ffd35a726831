"""Raw food frozen as bought: the temperatures are those of the safe minimum temperature chart."""

from __future__ import annotations

import pytest

from batchcook.complaints import InputFault
from batchcook.foodsafety.rawfood import cook_raw_to, is_raw, rows_if_raw
from batchcook.foodsafety.storage import refrigerator_life, rows_for, storage_row, storage_rows
from batchcook.foodsafety.temperatures import safe_temperatures


@pytest.mark.parametrize(
    ("row", "words", "degrees", "rest"),
    [
        ("raw-ground-meat-fsis", "Ground beef", 160, 0),
        ("raw-ground-meat-fsis", "Ground meat", 165, 0),
        ("raw-ground-meat-or-poultry", "Beef and turkey meatballs", 165, 0),
        ("raw-sausage", "Pork sausage", 160, 0),
        ("raw-sausage", "Sausage", 165, 0),
        ("raw-poultry-whole", "Whole turkey", 165, 0),
        ("raw-roasts", "Chuck roast", 145, 3),
        ("raw-steaks", "Turkey steaks", 165, 0),
        ("bacon", "Bacon", 145, 3),
        ("bacon", "Turkey bacon", 165, 0),
        ("ham-fresh-uncooked", "Fresh ham", 145, 3),
        ("lean-fish-raw", "Cod", 145, 0),
    ],
)
def test_raw_food_is_cooked_to_the_hottest_that_its_name_leaves_open(
    row: str, words: str, degrees: int, rest: int
) -> None:
    found = cook_raw_to([storage_row(row, "here")], words)
    assert found is not None
    assert (found.fahrenheit, found.rest_minutes) == (degrees, rest)


def test_cooked_food_has_no_temperature_to_be_cooked_to() -> None:
    rows = [storage_row("cooked-poultry-fsis", "here")]
    assert not is_raw(rows)
    assert cook_raw_to(rows, "Roast chicken") is None


def test_every_row_of_raw_food_says_so_and_names_temperatures_that_there_are() -> None:
    named = {name for name in storage_rows() if {"raw", "uncooked"} & set(name.split("-"))}
    assert named
    assert all(storage_rows()[name].raw for name in named)
    for row in storage_rows().values():
        assert set(row.cook_to) <= safe_temperatures().keys()


def test_raw_food_under_rows_of_cooked_food_keeps_no_longer_than_any_raw_food_does() -> None:
    strict = rows_if_raw(["soup-or-stew"], "here")
    days = refrigerator_life(rows_for(strict))
    for row in storage_rows().values():
        if row.raw and row.freezer_months:
            own = refrigerator_life(rows_for([row.name]))
            assert days[0] <= own[0]
            assert days[1] <= own[1]
    assert rows_if_raw(["raw-steaks", "soup-or-stew"], "here") == ("raw-steaks", "soup-or-stew")
    with pytest.raises(InputFault, match="raw-staeks"):
        rows_if_raw(["raw-staeks"], "here")
