"""FALCPA (Public Law 108-282, Title II) and FASTER Act (Public Law 117-11): the nine allergens.

Eight of the Food Allergen Labeling and Consumer Protection Act of 2004, section 203; sesame was
added by the Food Allergy Safety, Treatment, Education, and Research Act of 2021. From memory.
"""

from __future__ import annotations

from batchcook.foodsafety.allergens import allergens, unknown_allergens

FALCPA = {
    "milk",
    "eggs",
    "fish",
    "crustacean shellfish",
    "tree nuts",
    "wheat",
    "peanuts",
    "soybeans",
}


def test_eight_are_named_by_falcpa() -> None:
    assert {each.name for each in allergens().values() if each.act.key == "falcpa"} == FALCPA


def test_sesame_is_named_by_the_faster_act() -> None:
    added = {each.name for each in allergens().values() if each.act.key == "faster-act"}
    assert added == {"sesame"}


def test_there_are_nine() -> None:
    assert len(allergens()) == 9


def test_any_other_name_is_a_fault_with_the_nearest() -> None:
    (found,) = unknown_allergens(["milk", "soybean"], "tofu")
    assert found.suggestion == "soybeans"
    assert found.where == "tofu"
