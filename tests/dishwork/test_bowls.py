"""Which bowl each ingredient waits in: nothing waits among what goes in at another time."""

from __future__ import annotations

from collections import Counter

import pytest
from planned_days import starter

from batchcook.dishwork.bowls import bowl_names, containers_of
from batchcook.dishwork.dishes import dish_work
from batchcook.dishwork.draft import Dish
from batchcook.dishwork.work import Work
from batchcook.kitchens.kitchen import default_kitchen


def _work(name: str) -> Work:
    return dish_work(Dish(starter()[name], 1, "own bowl"), default_kitchen())


def _bowls(name: str) -> dict[str, str]:
    """What is cut, by the name of the ingredient, and the bowl it goes into."""
    return {job.id.split("/")[-1]: job.bowl for job in _work(name).jobs if "/cut/" in job.id}


def test_bowls_are_named_by_the_last_word_that_tells_dishes_apart() -> None:
    names = bowl_names([starter()["beef-barley-stew"], starter()["cottage-pie"]])
    assert names == {"beef-barley-stew": "stew bowl", "cottage-pie": "pie bowl"}


def test_no_two_bowls_have_one_name() -> None:
    names = bowl_names(starter().values())
    assert len(set(names.values())) == len(names)
    assert names["sausage-lentil-soup"] == "sausage soup bowl"
    assert names["squash-red-lentil-soup"] == "squash soup bowl"


def test_a_bowl_is_named_after_the_dish_and_not_after_what_it_comes_in() -> None:
    assert bowl_names([starter()["turkey-meatballs"]]) == {"turkey-meatballs": "meatballs bowl"}


def test_what_goes_in_later_waits_in_a_bowl_of_its_own() -> None:
    assert _bowls("beef-barley-stew") == {
        "beef-chuck": "raw own bowl",
        "onion": "own bowl",
        "carrot": "own bowl",
        "celery": "own bowl",
        "garlic": "own garlic bowl",
        "mushroom": "own mushroom bowl",
    }


def test_what_tops_a_dish_does_not_wait_among_its_filling() -> None:
    bowls = _bowls("cottage-pie")
    assert bowls["potato"] == "own potato bowl"
    assert bowls["onion"] == bowls["carrot"] == "own bowl"


@pytest.mark.parametrize("name", sorted(starter()))
def test_each_bowl_and_cup_is_emptied_by_one_step(name: str) -> None:
    recipe = starter()[name]
    waiting = {each.name: 1.0 for each in recipe.ingredients}
    places = containers_of("own bowl", recipe.steps, recipe, "bowl", waiting)
    assert places.keys() == waiting.keys()
    step_of = {name: step.name for step in recipe.steps for name in step.takes}
    emptied: dict[str, set[str]] = {}
    for ingredient, place in places.items():
        emptied.setdefault(place, set()).add(step_of[ingredient])
    assert all(len(steps) == 1 for steps in emptied.values())


def test_seasonings_of_two_steps_are_not_mixed_in_one_cup() -> None:
    (measuring,) = [job for job in _work("turkey-meatballs").jobs if job.technique == "measure"]
    assert measuring.bowl == "own cups"
    assert measuring.amounts == (
        "own cup: 1 1/2 tsp salt, 1/2 tsp black pepper",
        "own dried basil cup: 1 tsp dried oregano, 2 tsp dried basil",
    )


def test_a_single_seasoning_comes_straight_from_its_jar() -> None:
    work = _work("cottage-pie")
    assert all(job.technique != "measure" for job in work.jobs)
    assert Counter("thyme" in line for job in work.jobs for line in job.amounts)[True] == 1


def test_a_step_names_the_bowl_that_it_empties() -> None:
    (soften,) = [job for job in _work("beef-barley-stew").jobs if job.technique == "sweat"]
    assert soften.amounts[1].startswith("own bowl: ")
    assert soften.amounts[2] == "own garlic bowl: 6 cloves garlic"


@pytest.mark.parametrize(
    ("dish", "step", "line"),
    [
        ("cottage-pie", "simmer-the-filling/add", "cooked own bowl: ground beef"),
        ("spinach-ricotta-shells", "fill", "what is in the mixing bowl"),
        ("squash-red-lentil-soup", "blend", "what is on the sheet pan"),
        ("turkey-meatballs", "bring-together", "what is on the sheet pan"),
        ("vegetable-egg-bake", "layer", "what was softened"),
    ],
)
def test_a_step_names_what_comes_to_it_from_elsewhere(dish: str, step: str, line: str) -> None:
    (job,) = [job for job in _work(dish).jobs if job.id == f"{dish}/{step}"]
    assert line in job.amounts


def test_what_is_cooked_through_goes_into_the_bowl_it_is_taken_from() -> None:
    loads = [job for job in _work("cottage-pie").jobs if job.technique == "cook-through"]
    assert {job.bowl for job in loads} == {"cooked own bowl"}


def test_of_an_outcome_that_is_divided_the_recipe_says_what_goes_where() -> None:
    reduce = next(job for job in _work("cider-pulled-pork").jobs if "reduce" in job.id)
    assert not any("slow cooker" in line for line in reduce.amounts)
