"""One pot for several dishes, or one water: what may be shared, and what that does to the day."""

from __future__ import annotations

from dataclasses import replace

import pytest
from plan_oracle import breaches
from planned_days import day_of, planned, starter, written

from batchcook.cookbooks.recipe import Recipe
from batchcook.day.boiling import BOILED_APART, share_boiling
from batchcook.day.ways import parts_words
from batchcook.day.workday import day_work, dishes_of
from batchcook.dishwork.dishes import dish_work
from batchcook.dishwork.draft import Dish
from batchcook.dishwork.work import Job, Work
from batchcook.documents.columns import columns
from batchcook.kitchens.kitchen import default_kitchen
from batchcook.quantities import ureg

KITCHEN = default_kitchen()
SHELLS = starter()["spinach-ricotta-shells"]


def _of_macaroni(minutes: int = 7) -> Recipe:
    """The shells with macaroni in their place."""
    ingredients = tuple(
        replace(each, name="elbow macaroni", food="elbow macaroni")
        if each.food == "jumbo shells"
        else each
        for each in SHELLS.ingredients
    )
    steps = tuple(
        replace(each, takes=("elbow macaroni",), minutes=minutes)
        if each.technique == "boil"
        else each
        for each in SHELLS.steps
    )
    return replace(
        SHELLS, id="macaroni-bake", title="Macaroni bake", ingredients=ingredients, steps=steps
    )


def _side_by_side(*recipes: Recipe, batches: int = 1) -> Work:
    return sum(
        (dish_work(Dish(each, batches, f"{each.id} bowl"), KITCHEN) for each in recipes), Work()
    )


def _shared(*recipes: Recipe, batches: int = 1) -> Work:
    return share_boiling(_side_by_side(*recipes, batches=batches), KITCHEN, "us")


def _starters(*names: str) -> tuple[Recipe, ...]:
    return tuple(starter()[name] for name in names)


def _done(work: Work, option: str) -> list[Job]:
    """The jobs that are done if a way is taken."""
    return [job for job in work.jobs if all(option in each.options for each in job.when)]


def test_potatoes_of_two_dishes_may_be_boiled_in_one_pot_and_divided() -> None:
    day = _shared(*_starters("cottage-pie", "salmon-potato-cakes"))
    (choice,) = day.choices.values()
    apart, together = choice.options
    assert apart == BOILED_APART
    boiling = [job for job in _done(day, together) if job.technique in {"boil", "drain"}]
    assert [len(job.dishes) for job in boiling] == [2, 2, 2]
    drain = boiling[-1]
    assert drain.bowls.keys() == {"cottage-pie", "salmon-potato-cakes"}
    assert drain.bowls == {
        "cottage-pie": "potato pot for the cottage-pie",
        "salmon-potato-cakes": "potato pot for the salmon-potato-cakes",
    }
    assert all(f"1/2 into the {pot}" in drain.words for pot in drain.bowls.values())


def test_what_one_pot_saves_is_the_difference_in_hands() -> None:
    for recipes in (
        _starters("cottage-pie", "salmon-potato-cakes"),
        (SHELLS, _of_macaroni()),
        (SHELLS, replace(SHELLS, id="more-shells")),
    ):
        day = _shared(*recipes)
        (choice,) = day.choices.values()
        hands = {
            option: sum(job.minutes for job in _done(day, option) if job.hands is not None)
            for option in choice.options
        }
        for option in choice.options[1:]:
            told = sum(job.saves for job in _done(day, option))
            assert hands[BOILED_APART] - hands[option] == told > 0


def test_one_large_pot_takes_longer_to_boil_than_a_small_one() -> None:
    day = _shared(*_starters("cottage-pie", "salmon-potato-cakes"))
    cooks = [job for job in day.jobs if job.technique == "boil" and job.hands is None]
    apart = max(job.minutes for job in cooks if len(job.dishes) == 1)
    assert next(job.minutes for job in cooks if len(job.dishes) == 2) > apart + 5


def test_what_one_pot_does_not_hold_is_boiled_apart() -> None:
    day = _shared(*_starters("cottage-pie", "salmon-potato-cakes"), batches=2)
    assert not day.choices


def test_a_day_on_which_nothing_boils_alike_is_left_as_it_is() -> None:
    apart = _side_by_side(*_starters("cottage-pie", "spinach-ricotta-shells"))
    assert share_boiling(apart, KITCHEN, "us") == apart


def test_pasta_of_two_kinds_follows_in_the_same_water() -> None:
    day = _shared(SHELLS, _of_macaroni())
    (choice,) = day.choices.values()
    assert len(choice.options) == 3
    for option in choice.options[1:]:
        done = _done(day, option)
        cooks = [job for job in done if job.technique == "boil" and job.hands is None]
        assert len(cooks) == 2
        assert len([job for job in done if "pasta-pot" in job.id and job.technique == "wash"]) == 1
        (change,) = [job for job in done if len(job.dishes) == 2]
        after = {link.after for link in day.links if link.before == change.id}
        assert after & {cook.id for cook in cooks}


def test_what_is_in_one_water_has_one_pot_and_one_burner() -> None:
    day = _shared(SHELLS, _of_macaroni())
    (choice,) = day.choices.values()
    for option in choice.options:
        done = {job.id for job in _done(day, option)}
        kept = [
            keep
            for keep in day.keeps
            if all(option in each.options for each in keep.when) and done & set(keep.fillers)
        ]
        assert all(keep.until in done for keep in kept)
        pasta = [keep for keep in kept if "pasta-pot" in keep.id]
        assert len(pasta) == (4 if option == BOILED_APART else 2)


def test_nothing_gets_an_allergen_from_the_water() -> None:
    rice = _of_macaroni()
    ingredients = tuple(
        replace(each, name="elbow macaroni", food="rice, white")
        if each.food == "elbow macaroni"
        else each
        for each in rice.ingredients
    )
    rice = replace(rice, id="rice-bake", title="Rice bake", ingredients=ingredients)
    day = _shared(SHELLS, rice)
    (choice,) = day.choices.values()
    assert choice.options[1:] == ("in one water: rice-bake, then spinach-ricotta-shells",)


def test_a_small_pot_of_water_does_not_do_for_a_larger_lot() -> None:
    large = _of_macaroni()
    pasta = replace(large.vessels["pasta pot"], holds=ureg.Quantity(5, "quart"))
    large = replace(large, vessels={**large.vessels, "pasta pot": pasta})
    day = _shared(SHELLS, large)
    (choice,) = day.choices.values()
    assert choice.options[1:] == ("in one water: macaroni-bake, then spinach-ricotta-shells",)


def test_three_kinds_of_pasta_wait_for_each_other_in_no_circle() -> None:
    recipes = (SHELLS, _of_macaroni(), replace(_of_macaroni(8), id="third", title="A third bake"))
    day = replace(day_of(), orders={each.id: 1 for each in recipes})
    work = day_work(dishes_of(day, recipes), day)
    (choice,) = (each for name, each in work.choices.items() if name.startswith("how to boil"))
    assert any(option.count("then") == 2 for option in choice.options)


@pytest.mark.parametrize(
    ("shares", "told"),
    [
        ({"a": 0.5, "b": 0.5}, {"a": "1/2", "b": "1/2"}),
        ({"a": 2 / 3, "b": 1 / 3}, {"a": "2/3", "b": "1/3"}),
        ({"a": 0.25, "b": 0.5, "c": 0.25}, {"a": "1/4", "b": "1/2", "c": "1/4"}),
        ({"a": 0.53, "b": 0.47}, {"a": "53%", "b": "47%"}),
        ({"a": 3 / 7, "b": 4 / 7}, {"a": "43%", "b": "57%"}),
    ],
)
def test_shares_are_told_as_a_cook_divides(shares: dict[str, float], told: dict[str, str]) -> None:
    assert parts_words(shares) == told


def test_a_planned_day_divides_its_potatoes_and_tells_what_that_saved() -> None:
    plan = written(cottage_pie=1, salmon_potato_cakes=1, cider_pulled_pork=1)
    assert not breaches(plan)
    (run,) = (each for each in plan["shared"] if each["technique"] == "drain")
    assert {bowl["dish"] for bowl in run["bowls"]} == {"cottage-pie", "salmon-potato-cakes"}
    assert run["minutes_saved"] > 0
    shares = next(
        entry.parts
        for column in columns(planned(cottage_pie=1, salmon_potato_cakes=1, cider_pulled_pork=1))
        for entry in column.entries
        if entry.title.startswith("Drain")
    )
    pots = ["to the potato pot for the cakes", "to the potato pot for the pie"]
    assert sorted(part.bowl for part in shares) == pots
    boiled = [each for each in plan["events"] if each["food"] == "potato"]
    off = {each["dish"]: each["at"] for each in boiled if each["event"] == "off-heat"}
    assert off.keys() == {"cottage-pie", "salmon-potato-cakes"}
