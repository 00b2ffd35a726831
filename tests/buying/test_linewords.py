from __future__ import annotations

import pytest

from batchcook.buying.linewords import food_words
from batchcook.foods import load_foods


@pytest.mark.parametrize(
    ("food", "taken", "words"),
    [
        ("sweet potato", "5", "sweet potatoes"),
        ("sweet potato", "1", "sweet potato"),
        ("onion", "2 bags of 3 lb", "onions"),
        ("onion", "1 bag of 3 lb", "onions"),
        ("potato", "1 bag of 5 lb and 1 medium", "potato"),
        ("bell pepper, red", "4 medium", "red bell peppers"),
        ("bell pepper, red", "1 medium", "red bell pepper"),
        ("italian sausage", "3 packages of 1 lb", "Italian sausage"),
        ("worcestershire sauce", "1 bottle of 10 fl oz", "Worcestershire sauce"),
        ("chicken thigh", "6 lb", "boneless, skinless chicken thighs"),
        ("pork shoulder", "5 lb", "boneless pork shoulder"),
        ("kidney beans, canned", "2 cans of 15 oz", "canned kidney beans"),
        ("bay leaf", "1 jar", "bay leaves"),
        ("lime", "2", "limes"),
        ("lime", "1", "lime"),
        ("ice", "10 lb", "ice"),
        ("quart tub", "3", "quart tub"),
    ],
)
def test_a_food_is_called_after_how_much_of_it_is_taken(food: str, taken: str, words: str) -> None:
    assert food_words(food, taken) == words


def test_one_of_a_food_is_called_by_its_name_in_the_order_one_speaks() -> None:
    foods = load_foods()
    assert foods["milk, whole"].singular == "whole milk"
    assert foods["italian sausage"].singular == "Italian sausage"
    assert not [each.singular for each in foods.values() if "," in each.singular]
