"""The shopping list: everything once, grown by what is peeled away, in the order of the store."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from planned_days import starter
from shopping_days import plan_with

from batchcook.buying.purchases import shopping_list
from batchcook.buying.shopping import SECTIONS, shopping_lines
from batchcook.dishwork.draft import Dish
from batchcook.foods import load_foods
from batchcook.plan import ShoppingLine


def _dish(name: str, batches: int = 1) -> Dish:
    return Dish(starter()[name], batches, "bowl")


def _lines(*dishes: Dish, system: str = "us") -> Sequence[ShoppingLine]:
    return shopping_lines(dishes, system)


def _line(lines: Sequence[ShoppingLine], food: str) -> ShoppingLine:
    (found,) = [line for line in lines if line.food == food and not line.later]
    return found


STEW, PIE = _dish("beef-barley-stew", 2), _dish("cottage-pie", 1)


def test_a_food_of_two_dishes_is_one_line_with_both() -> None:
    onion = _line(_lines(STEW, PIE), "onion")
    alone = [_line(_lines(dish), "onion").grams for dish in (STEW, PIE)]
    assert set(onion.dishes) == {"beef-barley-stew", "cottage-pie"}
    assert onion.grams == pytest.approx(sum(alone), abs=2)


def test_a_food_that_a_recipe_names_twice_is_one_line() -> None:
    salt = _line(_lines(STEW), "salt")
    assert salt.dishes == ("beef-barley-stew",)
    assert len([line for line in _lines(STEW) if line.food == "salt"]) == 1


def test_three_batches_ask_for_three_times_as_much() -> None:
    one, three = (_line(_lines(_dish("cottage-pie", n)), "potato").grams for n in (1, 3))
    assert three == pytest.approx(3 * one, abs=3)


def test_the_least_pinch_is_bought_and_not_called_at_home() -> None:
    lines = _lines(_dish("beef-barley-stew"))
    assert all(each.grams >= 1 for each in lines)
    bought = {each.food: each.purchase for each in shopping_list(plan_with(lines)).lines}
    assert bought["bay leaf"] == "1 jar"


def test_what_is_peeled_away_is_bought_too() -> None:
    # USDA SR26 gives the refuse of raw potatoes as 25 % where they are peeled.
    potato = load_foods()["potato"]
    needed = sum(
        float(potato.to_grams(each.amount, each.cut).to("gram").magnitude)
        for each in starter()["cottage-pie"].ingredients
        if each.food == "potato"
    )
    assert _line(_lines(PIE), "potato").grams > needed


def test_sections_come_in_the_order_of_the_store_and_the_nights_additions_last() -> None:
    lines = _lines(STEW, PIE, _dish("spinach-ricotta-shells"))
    places = [(line.later, SECTIONS.index(line.section)) for line in lines]
    assert places == sorted(places)
    assert any(line.later for line in lines)


def test_what_is_added_on_the_night_is_kept_apart_from_the_same_food_of_the_day() -> None:
    for name in starter():
        later = {line.food for line in _lines(_dish(name)) if line.later}
        assert later == {each.food for each in starter()[name].night.add}


def test_water_is_not_bought() -> None:
    everything = _lines(*(_dish(name) for name in starter()))
    assert "water" not in {line.food for line in everything}


def test_everything_else_that_any_recipe_takes_is() -> None:
    everything = _lines(*(_dish(name) for name in starter()))
    taken = {each.food for recipe in starter().values() for each in recipe.ingredients}
    assert {line.food for line in everything if not line.later} == taken - {"water"}


def test_in_metric_nothing_is_bought_by_the_pound() -> None:
    for line in _lines(STEW, PIE, system="metric"):
        assert not {"lb", "oz", "quarts", "cups"} & set(line.amount.split()), line.amount
