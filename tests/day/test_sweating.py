"""Vegetables softened for several dishes in one pot: which, how long, and where the food is."""

from __future__ import annotations

from dataclasses import replace

from plan_oracle import breaches
from planned_days import day_of, starter, written

from batchcook.cookbooks.recipe import Recipe
from batchcook.day.sweating import SOFTENED_APART, share_sweating
from batchcook.day.workday import day_work, dishes_of
from batchcook.dishwork.dishes import dish_work
from batchcook.dishwork.draft import Dish
from batchcook.dishwork.streams import spells_of
from batchcook.dishwork.work import Job, Work
from batchcook.kitchens.kitchen import default_kitchen
from batchcook.quantities import ureg

KITCHEN = default_kitchen()
MEATBALLS, SHELLS, RAGU, STEW = (
    starter()[name]
    for name in (
        "turkey-meatballs",
        "spinach-ricotta-shells",
        "beef-mushroom-ragu",
        "beef-barley-stew",
    )
)


def _side_by_side(*recipes: Recipe) -> Work:
    return sum((dish_work(Dish(each, 1, f"{each.id} bowl"), KITCHEN) for each in recipes), Work())


def _shared(*recipes: Recipe) -> Work:
    return share_sweating(_side_by_side(*recipes), "us")


def _done(work: Work, option: str) -> list[Job]:
    return [job for job in work.jobs if all(option in each.options for each in job.when)]


def _with_amount(recipe: Recipe, food: str, amount: str) -> Recipe:
    return replace(
        recipe,
        ingredients=tuple(
            replace(each, amount=ureg.Quantity(amount)) if each.food == food else each
            for each in recipe.ingredients
        ),
    )


def _in_fat(recipe: Recipe, food: str) -> Recipe:
    """The recipe with its olive oil another fat."""
    return replace(
        recipe,
        ingredients=tuple(
            replace(each, food=food) if each.food == "olive oil" else each
            for each in recipe.ingredients
        ),
    )


def _twin(recipe: Recipe) -> Recipe:
    return replace(recipe, id=f"{recipe.id}-again", title=f"{recipe.title} again")


def test_onions_in_the_same_oil_may_be_softened_in_one_pot() -> None:
    day = _shared(MEATBALLS, SHELLS)
    (choice,) = day.choices.values()
    apart, together = choice.options
    assert apart == SOFTENED_APART
    (soften,) = [job for job in _done(day, together) if len(job.dishes) == 2]
    assert soften.bowls == {
        "turkey-meatballs": "sauce pot",
        "spinach-ricotta-shells": "hot spinach-ricotta-shells onion bowl",
    }
    assert soften.dishes["turkey-meatballs"].startswith("3/5 ")
    assert soften.dishes["spinach-ricotta-shells"].startswith("2/5 ")


def test_what_one_pot_saves_is_the_difference_in_hands() -> None:
    for recipes in ((MEATBALLS, SHELLS), (MEATBALLS, SHELLS, _twin(SHELLS))):
        day = _shared(*recipes)
        (choice,) = day.choices.values()
        hands = {
            option: sum(job.minutes for job in _done(day, option) if job.hands is not None)
            for option in choice.options
        }
        for option in choice.options[1:]:
            told = sum(job.saves for job in _done(day, option))
            assert hands[SOFTENED_APART] - hands[option] == told > 0


def test_another_fat_is_another_sweat() -> None:
    apart = _side_by_side(MEATBALLS, _in_fat(SHELLS, "butter"))
    assert share_sweating(apart, "us") == apart


def test_vegetables_in_other_shares_are_another_sweat() -> None:
    pie = starter()["cottage-pie"]
    assert not _shared(STEW, pie).choices
    assert _shared(
        STEW, _with_amount(_with_amount(pie, "carrot", "1.5 cup"), "celery", "1 cup")
    ).choices


def test_two_pots_that_both_have_to_be_hot_for_seared_meat_stay_apart() -> None:
    assert not _shared(STEW, _twin(STEW)).choices


def test_the_pot_that_half_raw_meat_goes_into_is_the_one_that_gets_hot() -> None:
    pie = starter()["cottage-pie"]
    alike = _with_amount(_with_amount(pie, "carrot", "1.5 cup"), "celery", "1 cup")
    day = _shared(STEW, alike)
    (choice,) = day.choices.values()
    (soften,) = [job for job in _done(day, choice.options[1]) if len(job.dishes) == 2]
    assert soften.id.startswith("beef-barley-stew/")
    seared = {job.id for job in day.jobs if job.technique == "brown"}
    assert {link.after for link in day.links if link.before == soften.id} >= seared


def test_garlic_goes_in_for_the_last_minute_in_each_pot() -> None:
    day = _shared(MEATBALLS, SHELLS)
    finish = next(job for job in day.jobs if job.id.endswith("from one pot"))
    assert any("garlic" in line for line in finish.amounts)
    soften = next(job for job in day.jobs if len(job.dishes) > 1 and job.technique == "sweat")
    onion, garlic = (
        next(line for line in soften.amounts if food in line) for food in ("onion", "garlic")
    )
    assert not onion.startswith("then ")
    assert garlic.startswith("then ")
    before = {link.before for link in day.links if link.after == finish.id}
    assert "spinach-ricotta-shells/cut/garlic" in before
    assert "spinach-ricotta-shells/cut/onion" not in before


def test_a_share_that_is_lifted_out_is_on_the_clock_until_its_own_pot() -> None:
    day = _shared(MEATBALLS, SHELLS)
    soften = next(job for job in day.jobs if len(job.dishes) == 2)
    (stream,) = [
        each
        for each in day.streams
        if each.dish == "spinach-ricotta-shells" and each.moments[0].job == soften.id
    ]
    first = spells_of(stream)[0]
    assert (first.before, first.origin) == (soften.id, "end")
    assert first.after.endswith("from one pot")


def test_where_no_two_dishes_soften_alike_the_day_is_left_as_it_is() -> None:
    apart = _side_by_side(SHELLS, RAGU, STEW)
    assert share_sweating(apart, "us") == apart


def test_in_every_way_a_dish_has_its_vegetables_softened_once() -> None:
    day = _shared(MEATBALLS, SHELLS, _twin(SHELLS))
    (choice,) = day.choices.values()
    assert len(choice.options) == 5
    for option in choice.options:
        done = [
            job
            for job in _done(day, option)
            if job.technique == "sweat" and not job.id.endswith("from one pot")
        ]
        assert sorted(dish for job in done for dish in job.dishes) == sorted(
            (MEATBALLS.id, SHELLS.id, f"{SHELLS.id}-again")
        )


def test_a_day_with_both_has_a_task_graph_without_circles() -> None:
    recipes = (MEATBALLS, SHELLS, _twin(SHELLS))
    day = replace(day_of(), orders={each.id: 1 for each in recipes})
    assert len(day_work(dishes_of(day, recipes), day).choices) > 1


def test_a_planned_day_softens_once_and_tells_what_that_saved() -> None:
    plan = written(turkey_meatballs=1, spinach_ricotta_shells=1, cider_pulled_pork=1)
    assert not breaches(plan)
    (run,) = (each for each in plan["shared"] if each["technique"] == "sweat")
    assert {bowl["dish"] for bowl in run["bowls"]} == {"turkey-meatballs", "spinach-ricotta-shells"}
    assert run["minutes_saved"] == 3
