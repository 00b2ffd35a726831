"""A plan's order comes back from its JSON as it was."""

from __future__ import annotations

import datetime as dt
import json
from fractions import Fraction

import pytest
from planned_days import day_of, planned, starter

from batchcook.cookbooks.recipe import Recipe
from batchcook.day.order import order_of, ordered
from batchcook.day.workday import day_work, ordered_dishes
from batchcook.plans.plainform import as_plain, from_plain
from batchcook.quantities import Quantity, ureg

NAMES = sorted(starter())


@pytest.mark.parametrize("name", NAMES)
def test_a_recipe_comes_back_from_json_unchanged(name: str) -> None:
    recipe = starter()[name]
    written = json.loads(json.dumps(as_plain(recipe)))
    assert from_plain(Recipe, written) == recipe


def test_a_fraction_of_a_cup_stays_a_fraction() -> None:
    third = ureg.Quantity(Fraction(1, 3), "cup")
    back: Quantity = from_plain(Quantity, json.loads(json.dumps(as_plain(third))))
    assert back == third
    assert isinstance(back.magnitude, Fraction)


def test_the_work_of_a_day_is_the_same_from_its_order() -> None:
    day = day_of(cottage_pie=2, beef_barley_stew=1)
    dishes = ordered_dishes(day, starter())
    order = order_of(day, dishes, {})
    again, dishes_again = ordered(type(order).model_validate_json(order.model_dump_json()))
    assert again == day
    assert day_work(dishes_again, again) == day_work(dishes, day)


def test_a_plan_carries_its_order_and_the_choices_it_took() -> None:
    order = planned(salmon_potato_cakes=1).order
    assert order is not None
    assert order.day["start"] == dt.time(8).isoformat()
    assert [each["id"] for each in order.recipes] == ["salmon-potato-cakes"]
