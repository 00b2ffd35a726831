"""Which storage rows a dish carries, and claims that allow too long."""

from __future__ import annotations

import datetime as dt

import pytest

from batchcook.complaints import InputFault
from batchcook.foodsafety.dishrows import (
    check_claim,
    derive_rows,
    dish_forms,
    rows_carried,
)
from batchcook.foodsafety.kinds import FOOD_KINDS
from batchcook.foodsafety.storage import add_months, dates

PACKED = dt.date(2027, 1, 16)


def names(state: str, contains: set[str], form: str) -> set[str]:
    return {row.name for row in derive_rows(state, contains, form)}


def months(state: str, contains: set[str], form: str) -> tuple[int, int]:
    found = dates(derive_rows(state, contains, form), dt.date(2027, 1, 1))
    return (found.best_by.month - 1, found.use_by.month - 1)


def test_a_beef_stew_carries_the_stew_row_and_both_cooked_meat_rows() -> None:
    assert names("cooked", {"raw-beef", "produce"}, "soup-or-stew") == {
        "soup-or-stew",
        "cooked-meat-or-poultry",
        "cooked-meat-fsis",
    }


def test_pulled_pork_is_two_and_three_months_and_pulled_chicken_two_and_four() -> None:
    assert months("cooked", {"raw-pork"}, "cooked-meat") == (2, 3)
    assert months("cooked", {"raw-poultry"}, "cooked-meat") == (2, 4)


def test_sausage_in_a_soup_brings_its_shorter_months() -> None:
    assert months("cooked", {"raw-sausage", "produce"}, "soup-or-stew") == (1, 2)


def test_a_casserole_with_eggs_carries_its_own_row() -> None:
    assert "egg-casserole-baked" in names("cooked", {"egg", "dairy"}, "casserole")
    assert "egg-casserole-baked" in names("cooked", {"egg"}, "egg-casserole")
    assert "egg-casserole-baked" not in names("cooked", {"dairy"}, "casserole")


def test_chicken_patties_carry_the_patty_row_and_beef_patties_do_not() -> None:
    row = "chicken-nuggets-or-patties"
    assert row in names("cooked", {"raw-ground-poultry"}, "meatballs-or-patties")
    assert row not in names("cooked", {"raw-ground-beef"}, "meatballs-or-patties")


def test_cooked_fish_brings_its_own_row_into_a_casserole() -> None:
    assert names("cooked", {"raw-fish-lean"}, "casserole") == {"casserole", "cooked-fish"}


def test_raw_egg_to_be_baked_off_keeps_two_days() -> None:
    found = dates(derive_rows("part-baked", {"egg", "cheese"}, "casserole"), PACKED)
    assert found.refrigerator_days_after_thaw == 2


@pytest.mark.parametrize(
    ("kinds", "form", "expected", "days"),
    [
        ({"raw-poultry"}, "raw-kit", (9, 9), 1),
        ({"raw-ground-beef", "egg"}, "raw-kit", (3, 4), 1),
        ({"raw-beef"}, "raw-kit", (3, 4), 1),
        ({"raw-beef"}, "steaks-or-chops", (4, 12), 3),
        ({"raw-poultry", "bacon"}, "raw-kit", (1, 1), 1),
        ({"raw-fish-lean"}, "raw-kit", (4, 8), 1),
        ({"raw-fish-fatty"}, "raw-kit", (2, 3), 1),
        ({"raw-pork", "raw-sausage"}, "roast", (1, 2), 1),
    ],
)
def test_a_raw_kit_takes_its_shortest_raw_ingredient(
    kinds: set[str], form: str, expected: tuple[int, int], days: int
) -> None:
    found = dates(derive_rows("raw-kit", kinds, form), PACKED)
    assert found.best_by == add_months(PACKED, expected[0])
    assert found.use_by == add_months(PACKED, expected[1])
    assert found.refrigerator_days_after_thaw == days


def test_what_no_row_fits_is_kept_as_a_frozen_main_dish() -> None:
    assert names("cooked", {"produce", "dry-goods"}, "pieces") == {"frozen-dinner-or-entree"}
    assert names("raw-kit", {"produce"}, "raw-kit") == {"frozen-dinner-or-entree"}


def test_every_state_form_and_kind_carries_some_row_with_refrigerator_days() -> None:
    for state in ("cooked", "part-baked", "raw-kit"):
        for form in dish_forms():
            for kind in FOOD_KINDS:
                rows = derive_rows(state, {kind}, form)
                assert any(row.refrigerator_days for row in rows)


def test_more_in_a_dish_never_makes_it_keep_longer() -> None:
    for state in ("cooked", "part-baked", "raw-kit"):
        for form in ("soup-or-stew", "casserole", "egg-casserole"):
            for first in FOOD_KINDS - {"produce"}:
                for second in FOOD_KINDS - {"produce"}:
                    both = dates(derive_rows(state, {first, second}, form), PACKED)
                    alone = derive_rows(state, {first}, form)
                    if [row.name for row in alone] != ["frozen-dinner-or-entree"]:
                        assert both.use_by <= dates(alone, PACKED).use_by
                        assert both.best_by <= dates(alone, PACKED).best_by


def test_a_dish_of_two_meats_carries_the_rows_of_both_whatever_it_claims() -> None:
    rows = rows_carried(
        ["cooked-meat-or-poultry"], "cooked", {"raw-beef", "raw-poultry"}, "cooked-meat"
    )
    assert {row.name for row in rows} == {
        "cooked-meat-or-poultry",
        "cooked-meat-fsis",
        "cooked-poultry-fsis",
    }


def test_a_claim_stands_where_no_other_row_fits() -> None:
    rows = rows_carried(["cooked-fish"], "cooked", {"canned", "produce"}, "pieces")
    assert [row.name for row in rows] == ["cooked-fish"]


def test_canned_fish_is_kept_as_cooked_fish() -> None:
    rows = derive_rows("cooked", {"canned-fish", "produce"}, "pieces")
    assert [row.name for row in rows] == ["cooked-fish"]


def test_without_a_claim_the_rows_are_the_derived_ones() -> None:
    assert rows_carried([], "cooked", {"produce"}, "pieces") == derive_rows(
        "cooked", {"produce"}, "pieces"
    )


def test_a_claim_that_allows_longer_than_the_ingredients_is_found() -> None:
    derived = derive_rows("cooked", {"raw-sausage"}, "soup-or-stew")
    found = check_claim(["soup-or-stew"], derived, "soup.toml: stored_as")
    assert len(found) == 2
    assert "best by: the named rows allow 2 months, what it is and holds 1" in found[0].what
    assert "cooked-sausage" in found[0].expected


def test_a_raw_kit_claimed_as_a_roast_is_found_in_months_and_days() -> None:
    derived = derive_rows("raw-kit", {"raw-ground-beef"}, "raw-kit")
    whats = [complaint.what for complaint in check_claim(["raw-roasts"], derived)]
    assert any(what.startswith("use by") for what in whats)
    assert any(what.startswith("in the refrigerator") for what in whats)


def test_the_same_or_a_stricter_claim_passes() -> None:
    derived = derive_rows("cooked", {"raw-beef"}, "casserole")
    assert check_claim(["casserole"], derived) == ()
    assert check_claim(["casserole", "bacon"], derived) == ()


def test_no_claim_at_all_is_a_fault() -> None:
    derived = derive_rows("cooked", {"raw-beef"}, "casserole")
    assert "no storage row" in check_claim([], derived)[0].what


def test_an_unknown_row_in_a_claim_is_named() -> None:
    derived = derive_rows("cooked", {"raw-beef"}, "casserole")
    assert check_claim(["caserole"], derived)[0].suggestion == "casserole"


def test_a_dish_that_does_not_freeze_is_a_fault() -> None:
    derived = derive_rows("cooked", {"egg"}, "salad")
    assert any("does not freeze" in found.what for found in check_claim(["casserole"], derived))


def test_every_fault_in_a_description_is_told_at_once() -> None:
    with pytest.raises(InputFault) as fault:
        derive_rows("coked", {"raw-beef", "raw-pig"}, "soup-and-stew")
    assert [c.suggestion for c in fault.value.complaints] == ["raw-pork", "cooked", "soup-or-stew"]
