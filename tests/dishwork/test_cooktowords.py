"""The temperature on every cooking task."""

from __future__ import annotations

from dataclasses import replace

import pytest

from batchcook.cookbook import load_cookbook
from batchcook.dishwork.cooktowords import cook_to_words, foods_in
from batchcook.dishwork.dishes import dish_work
from batchcook.dishwork.draft import Dish
from batchcook.kitchens.kitchen import default_kitchen
from batchcook.kitchens.techniques import load_techniques
from batchcook.quantities import ureg

COOKBOOK = load_cookbook()


def words(recipe: str, step: str) -> str:
    return cook_to_words(COOKBOOK[recipe], COOKBOOK[recipe].step(step))


def test_whole_cuts_rest_and_say_where_they_turn_tender() -> None:
    assert words("beef-barley-stew", "simmer the beef") == (
        "To at least 145 degF in the middle, then 3 minutes' rest. Tender at 190 to 205 degF."
    )


def test_shoulder_prints_its_safe_minimum_and_its_tender_range() -> None:
    assert words("cider-pulled-pork", "slow cook") == (
        "To 195 degF in the middle (safe from 145 degF with 3 minutes' rest). "
        "Tender at 195 to 205 degF."
    )


def test_ground_beef_reaches_160_and_poultry_165() -> None:
    assert "160 degF" in words("cottage-pie", "cook the beef")
    assert "165 degF" in words("turkey-meatballs", "bake")


def test_a_casserole_is_baked_to_165_whatever_is_in_it() -> None:
    assert "165 degF" in words("vegetable-egg-bake", "bake")


def test_browning_and_vegetables_name_no_temperature() -> None:
    assert words("beef-barley-stew", "sear") == ""
    assert words("beef-barley-stew", "soften") == ""
    assert words("squash-red-lentil-soup", "simmer") == ""


def test_juices_boiled_down_apart_have_no_middle() -> None:
    assert words("cider-pulled-pork", "reduce the juices") == ""


def test_what_a_recipe_asks_for_below_the_minimum_is_not_printed() -> None:
    recipe = COOKBOOK["turkey-meatballs"]
    step = replace(recipe.step("bake"), cook_to=ureg.Quantity(150, "degF"))
    assert cook_to_words(recipe, step).startswith("To at least 165 degF")


def test_foods_are_followed_through_the_steps_before() -> None:
    recipe = COOKBOOK["beef-barley-stew"]
    assert foods_in(recipe, recipe.step("season"))["beef chuck"] == "raw-beef"


def test_some_timed_steps_of_the_starter_recipes_have_something_raw() -> None:
    assert any(
        load_techniques()[step.technique].timed and cook_to_words(recipe, step)
        for recipe in COOKBOOK.values()
        for step in recipe.steps
    )


@pytest.mark.parametrize("name", sorted(COOKBOOK))
def test_every_timed_step_with_something_raw_prints_it_on_a_task(name: str) -> None:
    recipe = COOKBOOK[name]
    jobs = dish_work(Dish(recipe, 1, "bowl"), default_kitchen()).jobs
    for step in recipe.steps:
        if not load_techniques()[step.technique].timed:
            continue
        said = cook_to_words(recipe, step)
        if said:
            assert any(said in job.words for job in jobs)
