"""What the cook reads at the last steps: containers filled as they can be, cut food kept."""

from __future__ import annotations

from dataclasses import replace

from planned_days import starter

from batchcook.dishwork.dishes import dish_work
from batchcook.dishwork.draft import Dish
from batchcook.dishwork.work import Job
from batchcook.kitchens.containers import load_containers
from batchcook.kitchens.kitchen import default_kitchen


def portion(name: str, container: str = "") -> Job:
    recipe = starter()[name]
    recipe = replace(recipe, container=container or recipe.container)
    work = dish_work(Dish(recipe, 1, "bowl"), default_kitchen())
    return next(job for job in work.jobs if job.technique == "portion")


def cut(name: str, food: str) -> Job:
    work = dish_work(Dish(starter()[name], 1, "bowl"), default_kitchen())
    return next(job for job in work.jobs if job.food == food and job.station == "board")


def test_a_tub_keeps_room_on_top_and_only_bags_have_their_air_pressed_out() -> None:
    # Headspace of a quart with a wide top: 1 inch (National Center for Home Food Preservation).
    assert "deep, with at least 1 inch free at the top" in portion("beef-barley-stew").words
    for name, recipe in starter().items():
        pressed = "press out the air" in portion(name).words.lower()
        assert not pressed or "bag" in load_containers()[recipe.container].title, name


def test_a_raw_kit_is_sealed_in_its_bag_or_has_room_in_its_tub() -> None:
    assert portion("lemon-herb-chicken-kit").words.startswith("Press out the air, seal")
    tub = portion("lemon-herb-chicken-kit", "quart tub").words
    assert tub.startswith("Close with at least 1 inch free at the top")


def test_raw_pieces_freeze_on_their_pans_before_they_are_bagged() -> None:
    balls = starter()["turkey-meatballs"]
    taken = {name for step in balls.steps[:2] for name in step.takes}
    raw = replace(
        balls,
        state="raw-kit",
        form="raw-kit",
        container="gallon bag of frozen pieces",
        steps=balls.steps[:2],
        ingredients=tuple(each for each in balls.ingredients if each.name in taken),
    )
    work = dish_work(Dish(raw, 3, "bowl"), default_kitchen())
    (job,) = (job for job in work.jobs if job.technique == "portion")
    assert job.title == "3 sheet pans into the freezer"
    assert job.words.endswith("when hard, into bags.")


def test_hot_food_is_spread_to_cool_and_bagged_and_laid_flat_only_when_cold() -> None:
    job = portion("cider-pulled-pork")
    assert job.title.startswith("Spread to cool, for ")
    assert "In shallow pans, at most 1 inch deep" in job.words
    assert "sealed and laid flat, once it is cold" in job.words


def test_what_comes_cold_from_its_ice_bath_goes_into_bags_at_once() -> None:
    job = portion("vegetable-egg-bake", "gallon freezer bag")
    assert job.title.startswith("Portion into")
    assert "seal, and into the refrigerator, laid flat" in job.words


def test_potatoes_wait_for_their_pot_in_water_and_other_food_does_not() -> None:
    words = "Into cold water until they are boiled; over 2 hours ahead, in the refrigerator"
    assert words in cut("cottage-pie", "potato").words
    assert words in cut("salmon-potato-cakes", "potato").words
    assert "water" not in cut("cottage-pie", "onion").words
    assert "water" not in cut("chicken-coconut-curry", "sweet potato").words
