"""What every container's label says of dates, temperatures, thawing and the night."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from batchcook.cookbook import load_cookbook
from batchcook.cookbooks.recipe import Recipe
from batchcook.day.labelling import codes, containers, may_stay_frozen
from batchcook.dishwork.draft import Dish
from batchcook.foodsafety.storage import add_months, storage_rows
from batchcook.kitchens.containers import load_containers
from batchcook.plan import Container
from batchcook.quantities import ureg

COOKBOOK = load_cookbook()
DAY = dt.date(2027, 1, 16)


def made(name: str, batches: int = 1, waited: int | None = None) -> tuple[Container, ...]:
    return made_of(COOKBOOK[name], batches, waited)


def made_of(recipe: Recipe, batches: int = 1, waited: int | None = None) -> tuple[Container, ...]:
    dish = Dish(recipe, batches, "bowl")
    count = len(codes([dish])[dish.id])
    frozen = None if waited is None else {dish.id: [DAY + dt.timedelta(days=waited)] * count}
    return containers([dish], DAY, "us", frozen)


@pytest.mark.parametrize("name", sorted(COOKBOOK))
def test_no_date_is_later_than_any_chart_that_applies(name: str) -> None:
    for each in made(name, 2):
        rows = [storage_rows()[row] for row in each.storage_rows]
        months = [row.freezer_months for row in rows if row.freezer_months]
        assert each.best_by == add_months(DAY, min(span[0] for span in months))
        assert each.use_by == add_months(DAY, min(span[1] for span in months))


def test_of_two_charts_for_cooked_meat_the_stricter_stands() -> None:
    stew = made("beef-barley-stew")[0]
    assert {"cooked-meat-or-poultry", "cooked-meat-fsis"} <= set(stew.storage_rows)
    assert stew.use_by <= add_months(DAY, 3)


def test_what_a_recipe_leaves_out_of_its_claim_still_counts() -> None:
    claimed = replace(COOKBOOK["beef-barley-stew"], stored_as=("cooked-meat-or-poultry",))
    assert made_of(claimed)[0].use_by == made("beef-barley-stew")[0].use_by
    assert "soup-or-stew" in made_of(claimed)[0].storage_rows


def test_days_in_the_refrigerator_before_freezing_count_against_those_after_thawing() -> None:
    at_once = made("beef-barley-stew", waited=0)[0]
    waited = made("beef-barley-stew", waited=2)[0]
    assert at_once.keeps_thawed_days == 3
    assert waited.keeps_thawed_days == 1
    assert waited.frozen_on == dt.date(2027, 1, 18)
    assert waited.best_by == at_once.best_by


def test_cooked_dishes_are_reheated_to_165() -> None:
    for name, recipe in COOKBOOK.items():
        if recipe.state != "raw-kit":
            assert {each.reheat_to_degF for each in made(name)} == {165}
            assert {each.cook_to_degF for each in made(name)} == {None}


def test_a_raw_kit_is_cooked_to_the_temperature_of_what_it_holds() -> None:
    kit = made("lemon-herb-chicken-kit")[0]
    assert kit.state == "raw-kit"
    assert kit.cook_to_degF == 165
    assert kit.reheat_to_degF is None


def test_a_raw_kit_of_beef_rests() -> None:
    recipe = COOKBOOK["lemon-herb-chicken-kit"]
    beef = replace(
        recipe,
        ingredients=tuple(
            replace(each, food="beef chuck") if each.food == "chicken thigh" else each
            for each in recipe.ingredients
        ),
    )
    assert made_of(beef)[0].cook_to_degF == 145
    assert made_of(beef)[0].rest_minutes == 3


def test_containers_are_lettered_by_dish_and_numbered_within_it() -> None:
    dishes = [Dish(COOKBOOK[name], 1, "bowl") for name in ("cottage-pie", "beef-barley-stew")]
    assert codes(dishes) == {
        "cottage-pie": ("A1", "A2"),
        "beef-barley-stew": ("B1", "B2", "B3", "B4"),
    }
    found = containers(dishes, DAY, "us")
    assert [each.code for each in found] == ["A1", "A2", "B1", "B2", "B3", "B4"]


def test_thawing_takes_a_day_for_each_four_pounds_at_least() -> None:
    for name in COOKBOOK:
        for each in made(name):
            if each.thaw == "from-frozen":
                assert each.thaw_days == 0
            else:
                assert each.thaw_days >= max(1, each.grams / 453.6 / 4)


def test_only_what_a_leak_proof_bag_holds_goes_into_cold_water() -> None:
    # USDA FSIS, The Big Thaw: in a leak-proof package or plastic bag.
    for name, recipe in COOKBOOK.items():
        for each in made(name):
            if load_containers()[recipe.container].shape == "pan":
                assert (each.cold_water_minutes, each.cold_water_in) == (None, ""), name
            elif each.cold_water_minutes is not None:
                assert "bag" in each.cold_water_in
    assert made("beef-barley-stew")[0].cold_water_in == "its tub sealed in a leak-proof bag"
    assert made("lemon-herb-chicken-kit")[0].cold_water_in.startswith("in its bag")


def test_cold_water_takes_an_hour_for_a_pound_and_more_for_more() -> None:
    by_weight = {
        each.grams: each.cold_water_minutes
        for name, recipe in COOKBOOK.items()
        for each in made(name)
        if load_containers()[recipe.container].shape != "pan"
    }
    for grams, minutes in by_weight.items():
        if grams <= 453:
            assert minutes == 60
        elif grams <= 4 * 453.59:
            assert minutes is not None
            assert 60 <= minutes <= 180
        else:
            assert minutes is None


def test_what_may_stay_frozen_says_so_with_its_minutes() -> None:
    stew = made("beef-barley-stew")[0]
    assert stew.from_frozen
    assert "35 min from frozen" in stew.finish
    assert stew.from_frozen_takes == "35 min"
    assert not made("cider-pulled-pork")[0].from_frozen


def test_minutes_from_frozen_are_half_as_long_again_where_the_recipe_gives_none() -> None:
    recipe = COOKBOOK["beef-barley-stew"]
    night = replace(recipe.night, minutes=20, minutes_from_frozen=None)
    found = made_of(replace(recipe, night=night))[0]
    assert "about 30 min from frozen" in found.finish
    assert found.from_frozen_takes == "about 30 min"


def test_minutes_from_frozen_are_told_with_an_oven_too() -> None:
    recipe = COOKBOOK["cottage-pie"]
    night = replace(
        recipe.night, oven=ureg.Quantity(375, "degF"), minutes=40, minutes_from_frozen=None
    )
    finish = made_of(replace(recipe, night=night))[0].finish
    assert finish.startswith("Oven 375 degF, 40 min thawed, about 60 min from frozen.")


def test_a_dish_for_the_slow_cooker_is_thawed_first() -> None:
    recipe = COOKBOOK["beef-barley-stew"]
    night = replace(recipe.night, finish="Six hours on low in the slow cooker.")
    found = made_of(replace(recipe, night=night))[0]
    assert not found.from_frozen
    assert found.note.startswith("Thaw it first")
    assert "from frozen" not in found.finish


def test_words_that_forbid_the_slow_cooker_are_not_taken_for_using_it() -> None:
    assert "Do not reheat it in the slow cooker" in COOKBOOK["cider-pulled-pork"].night.finish
    assert made("cider-pulled-pork")[0].note == ""


def test_a_kit_may_stay_frozen_only_where_its_recipe_says_so() -> None:
    assert not may_stay_frozen(COOKBOOK["lemon-herb-chicken-kit"])


def test_refreezing_depends_on_how_it_was_thawed() -> None:
    words = made("beef-barley-stew")[0].refreeze
    assert "refrigerator" in words or "while it keeps" in words
    assert "cold water" in words


def test_what_is_bought_for_the_night_is_shared_out_over_the_containers() -> None:
    stew = made("beef-barley-stew", 2)
    assert {each.add[0].amount for each in stew} == {"1/4 cup (35 g) frozen green peas"}
    pies = made("cottage-pie")
    assert len(pies) == 2
    assert all(each.add for each in pies)


def test_every_major_allergen_of_the_foods_is_named() -> None:
    assert "fish" in made("salmon-potato-cakes")[0].allergens
    assert "milk" in made("cottage-pie")[0].allergens
