"""FALCPA (Public Law 108-282, Title II) and FASTER Act (Public Law 117-11): the nine allergens.

Eight of the Food Allergen Labeling and Consumer Protection Act of 2004, section 203; sesame was
added by the Food Allergy Safety, Treatment, Education, and Research Act of 2021. From memory.
"""

from __future__ import annotations

from typing import get_args

from batchcook.foodsafety.allergens import allergens
from batchcook.foodstuffs.table import Allergen

FALCPA = {
    "milk",
    "egg",
    "fish",
    "crustacean shellfish",
    "tree nut",
    "wheat",
    "peanut",
    "soybean",
}


def test_eight_are_named_by_falcpa() -> None:
    assert {each.name for each in allergens().values() if each.act.key == "falcpa"} == FALCPA


def test_sesame_is_named_by_the_faster_act() -> None:
    added = {each.name for each in allergens().values() if each.act.key == "faster-act"}
    assert added == {"sesame"}


def test_there_are_nine_and_the_foods_table_knows_the_same() -> None:
    assert len(allergens()) == 9
    assert set(get_args(Allergen)) == set(allergens())
