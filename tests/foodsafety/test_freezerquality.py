"""Foods that do not freeze well and doses that change."""

from __future__ import annotations

import pytest

from batchcook.foodsafety.freezerquality import FoodUse, dose_warnings, freezing_warnings


def rows(food: str, use: str = "") -> list[str]:
    return [warning.row for warning in freezing_warnings([FoodUse(food, use)])]


@pytest.mark.parametrize(
    ("food", "use", "row"),
    [
        ("celery", "raw", "raw-salad-vegetables"),
        ("potato", "cooked", "potatoes"),
        ("egg noodles", "cooked", "pasta-and-rice"),
        ("white-rice", "cooked", "pasta-and-rice"),
        ("sour cream", "", "sour-cream"),
        ("mayonnaise", "", "mayonnaise"),
        ("milk, whole", "sauce", "milk-sauces"),
        ("cheddar", "topping", "toppings"),
        ("bread crumbs, dry", "topping", "toppings"),
        ("chicken cutlet", "fried", "fried"),
        ("garlic", "", "strong-seasoning"),
        ("curry powder", "", "curry"),
        ("salt", "", "fading-seasoning"),
    ],
)
def test_a_food_that_suffers_is_warned_about(food: str, use: str, row: str) -> None:
    assert row in rows(food, use)


@pytest.mark.parametrize(
    ("food", "use"),
    [
        ("celery", "cooked"),
        ("potato", "mashed"),
        ("sweet potato", "cooked"),
        ("rice vinegar", "cooked"),
        ("butter, unsalted", ""),
        ("cheddar", "cooked"),
        ("cream cheese", "filling"),
        ("coconut milk, canned", "sauce"),
        ("lentils, brown", "cooked"),
    ],
)
def test_a_food_that_does_not_is_left_alone(food: str, use: str) -> None:
    assert rows(food, use) == []


def test_a_warning_says_what_happens_what_to_do_and_who_says_so() -> None:
    text = str(freezing_warnings([FoodUse("sour cream")])[0])
    assert "separates" in text
    assert "on the night" in text
    assert "SP 50-766" in text


def test_the_same_use_is_warned_about_once() -> None:
    assert len(freezing_warnings([FoodUse("sour cream"), FoodUse("sour cream")])) == 1


def test_doses_change_only_when_a_recipe_is_multiplied() -> None:
    uses = [FoodUse("salt"), FoodUse("cayenne"), FoodUse("carrot")]
    assert dose_warnings(uses, 1) == ()
    found = dose_warnings(uses, 3)
    assert [warning.food for warning in found] == ["salt", "cayenne"]
    assert all(each.sources[0].key == "common-practice" for each in found)
