from __future__ import annotations

import pytest

from batchcook.cookbook import load_cookbook
from batchcook.cookbooks.card import recipe_card

COOKBOOK = load_cookbook()


@pytest.mark.parametrize("name", COOKBOOK)
@pytest.mark.parametrize("system", ["us", "metric"])
def test_every_starter_recipe_has_a_card_with_all_that_goes_in(name: str, system: str) -> None:
    recipe = COOKBOOK[name]
    card = recipe_card(recipe, 2, system)
    assert len(card.ingredients) == len(recipe.ingredients)
    assert len(card.steps) == len(recipe.steps)
    assert len(card.add) == len(recipe.night.add)


def test_batches_multiply_servings_and_containers() -> None:
    facts = dict(recipe_card(COOKBOOK["beef-barley-stew"], 3, "us").facts)
    assert facts["Serves"] == "24"
    assert facts["Packed in"] == "12 quart tubs, 2 portions in each"


def test_an_amount_doubles_and_stays_one_that_a_cook_can_measure() -> None:
    card = recipe_card(COOKBOOK["beef-barley-stew"], 2, "us")
    assert card.ingredients[0].amount.startswith("4 lb")
    assert any(line.amount.startswith("3 cup") for line in card.ingredients)


def test_a_metric_card_has_grams_and_degrees_celsius() -> None:
    card = recipe_card(COOKBOOK["cottage-pie"], 1, "metric")
    assert any(" g" in line.amount or " kg" in line.amount for line in card.ingredients)
    assert not any("lb" in line.amount or "cup" in line.amount for line in card.ingredients)
    assert any("205 degC" in heading for heading, _ in card.steps)


def test_the_dates_on_the_card_are_the_strictest_and_said_to_be_for_quality() -> None:
    facts = dict(recipe_card(COOKBOOK["sausage-lentil-soup"], 1, "us").facts)
    assert facts["Best by"] == "1 month at 0 degF, for quality; use by 2 months"


def test_dates_that_are_equal_are_said_once() -> None:
    facts = dict(recipe_card(COOKBOOK["lemon-herb-chicken-kit"], 1, "us").facts)
    assert facts["Best by"] == "9 months at 0 degF, for quality"


def test_an_ingredient_says_how_it_is_cut_and_what_it_is_for() -> None:
    card = recipe_card(COOKBOOK["beef-barley-stew"], 1, "us")
    assert card.ingredients[0].note.startswith("1-inch cubes; patted dry")
    assert card.ingredients[2].note == "oil for the skillet"


def test_seasoning_is_to_taste_and_multiplied_with_care() -> None:
    once = recipe_card(COOKBOOK["beef-barley-stew"], 1, "us")
    thrice = recipe_card(COOKBOOK["beef-barley-stew"], 3, "us")
    assert once.ingredients[-1].note == "to taste"
    assert thrice.ingredients[-1].note == "start with less, then to taste"


def test_a_step_is_headed_by_what_is_done_where_and_for_how_long() -> None:
    card = recipe_card(COOKBOOK["cider-pulled-pork"], 1, "us")
    heading, words = card.steps[0]
    assert heading.startswith("Slow cook in the slow cooker on high for 5 h: pork shoulder")
    assert words.endswith("To 195 degF at the center.")


def test_the_night_says_how_to_thaw_and_how_long_it_takes() -> None:
    assert recipe_card(COOKBOOK["salmon-potato-cakes"], 1, "us").night.startswith("Do not thaw it.")
    kit = recipe_card(COOKBOOK["lemon-herb-chicken-kit"], 1, "us").night
    assert kit.startswith("Thaw it in the refrigerator, on a tray on the lowest shelf.")
    shells = recipe_card(COOKBOOK["spinach-ricotta-shells"], 1, "us").night
    assert shells.endswith("(oven 375 degF, 40 min thawed, 1 h 20 min frozen)")


@pytest.mark.parametrize("name", COOKBOOK)
def test_a_metric_card_has_no_degrees_fahrenheit_and_no_inches(name: str) -> None:
    card = recipe_card(COOKBOOK[name], 1, "metric")
    told = f"{card.facts} {card.ingredients} {card.steps} {card.night} {card.add}"
    assert "degF" not in told
    assert "inch" not in told.replace("8x8 inch", "")
