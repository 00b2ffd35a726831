"""What waits on the heat is kept hot, and a slow cooker is on before meat goes into it.

At 140 degF or above: USDA FSIS, Danger Zone. On high for the first hour where possible, never
cooked on the warm setting: USDA FSIS, Slow Cookers and Food Safety.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from planned_days import planned, starter

from batchcook.dishwork.dishes import dish_work
from batchcook.dishwork.draft import Dish
from batchcook.dishwork.work import Job, Work
from batchcook.documents.aside import asides
from batchcook.kitchens.kitchen import default_kitchen

HOT = "at 140 degF or above"


def work_of(name: str, batches: int = 1) -> Work:
    return dish_work(Dish(starter()[name], batches, "bowl"), default_kitchen())


def job_of(work: Work, id_: str) -> Job:
    return next(job for job in work.jobs if job.id.endswith(id_))


@pytest.mark.parametrize("name", sorted(starter()))
def test_whatever_goes_on_in_its_own_pot_is_kept_hot_until_then(name: str) -> None:
    recipe, work = starter()[name], work_of(name)
    for step in recipe.steps:
        vessel = recipe.vessels.get(step.vessel or "")
        onward = [
            each
            for each in recipe.steps
            if step.name in each.after
            and each.vessel == step.vessel
            and each.technique in {"simmer", "season", "blend"}
        ]
        if vessel is None or vessel.kind != "pot" or not onward:
            continue
        own = f"{name}/{step.name.replace(' ', '-')}"
        assert HOT in next(job.words for job in work.jobs if job.id == own), own


def test_on_a_planned_day_no_minute_on_the_heat_is_one_that_nobody_was_told_of() -> None:
    plan = planned(beef_barley_stew=2, squash_red_lentil_soup=2)
    called = {aside.task.id: aside.call for aside in asides(plan)}
    gaps = 0
    for dish in plan.dishes:
        events = [each for each in plan.events if each.dish == dish.id]
        first = min(each.at for each in events if each.event == "on-heat")
        last = max(each.at for each in events if each.event == "off-heat")
        own = [
            task
            for task in plan.tasks
            if task.station == "pot" and dish.id in task.dishes and first <= task.start < last
        ]
        for before, after in pairwise(own):
            if after.start > before.end:
                gaps += 1
                assert HOT in before.words + called.get(before.id, ""), before.title
    assert gaps, "the day has nothing that waits on the heat"


def test_what_is_blended_off_the_heat_goes_back_on_it() -> None:
    words = job_of(work_of("squash-red-lentil-soup"), "/blend").words
    assert "off the heat" in words
    assert words.endswith(f"Then on low heat, {HOT}, until the next step.")


def test_browned_meat_goes_into_a_pot_that_stays_hot() -> None:
    for load in work_of("beef-barley-stew", 2).jobs:
        if load.technique == "brown":
            assert load.words.endswith(f"The stew pot stays on low heat meanwhile, {HOT}.")


def test_a_slow_cooker_is_on_high_before_the_meat_goes_in_and_set_when_it_is_full() -> None:
    work = work_of("beef-mushroom-ragu")
    warm, fill = job_of(work, "slow-cook/warm"), job_of(work, "slow-cook/fill")
    assert warm.title == "Switch the slow cooker on high, lid on, with its beef broth"
    assert "Never the warm setting" in warm.words
    assert fill.title == "Fill the slow cooker, lid on, set it to low"
    assert "What it was warmed with is in already." in fill.words
    assert "Never the warm setting" in fill.words
    loads = [job for job in work.jobs if job.technique == "brown"]
    assert loads
    for load in loads:
        assert "is on high by then" in load.words
        ahead = [each for each in work.links if (each.before, each.after) == (warm.id, load.id)]
        assert [(each.to, each.low) for each in ahead] == [("end", 10)]


def test_it_is_warmed_with_a_cup_of_a_larger_amount_or_with_water() -> None:
    recipe = starter()["beef-mushroom-ragu"]
    kitchen = default_kitchen()
    two = dish_work(
        Dish(recipe, 2, "bowl"),
        replace(
            kitchen, slow_cookers=tuple(replace(each, count=2) for each in kitchen.slow_cookers)
        ),
    )
    assert "with its beef broth" in job_of(two, "slow-cook/warm").title
    plenty = tuple(
        replace(each, amount=4 * each.amount) if each.food == "beef broth" else each
        for each in recipe.ingredients
    )
    one = dish_work(Dish(replace(recipe, ingredients=plenty), 1, "bowl"), kitchen)
    assert "with 1 cup beef broth of what it takes" in job_of(one, "slow-cook/warm").title
    dry = replace(
        recipe,
        steps=tuple(
            replace(each, takes=tuple(name for name in each.takes if name != "beef broth"))
            for each in recipe.steps
        ),
    )
    none = dish_work(Dish(dry, 1, "bowl"), kitchen)
    assert "with a little hot water" in job_of(none, "slow-cook/warm").title
