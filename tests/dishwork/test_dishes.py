"""What a recipe becomes in a kitchen: jobs, their order, and what is kept."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import pytest
from planned_days import starter

from batchcook.complaints import InputFault
from batchcook.cookbooks.packing import container_count
from batchcook.dishwork.dishes import dish_work
from batchcook.dishwork.draft import Dish, Draft, ingredient_grams
from batchcook.dishwork.work import STRAIGHT_ON, Job, Work
from batchcook.kitchens.kitchen import Kitchen, default_kitchen

KITCHEN = default_kitchen()


def _work(name: str, batches: int = 1, kitchen: Kitchen = KITCHEN, system: str = "us") -> Work:
    return dish_work(Dish(starter()[name], batches, "stew bowl", system), kitchen)


def _jobs(work: Work, technique: str) -> list[Job]:
    return [job for job in work.jobs if job.technique == technique]


def _ids(options: Iterable[Iterable[str]]) -> list[str]:
    return [name for option in options for name in option]


@pytest.mark.parametrize("name", sorted(starter()))
def test_everything_a_recipe_takes_is_in_some_job(name: str) -> None:
    recipe = starter()[name]
    work = _work(name)
    cut = {job.id for job in work.jobs if "/cut/" in job.id}
    assert len(cut) == sum(1 for each in recipe.ingredients if each.cut)
    assert len(_jobs(work, "portion")) == 1
    assert _jobs(work, "wash")


@pytest.mark.parametrize("name", sorted(starter()))
def test_what_the_cook_should_know_of_an_ingredient_is_told_where_it_is_first_handled(
    name: str,
) -> None:
    work = _work(name)
    for each in starter()[name].ingredients:
        if each.note:
            note = each.note.lower()
            told = [
                job.id for job in work.jobs if note in " ".join((job.words, *job.amounts)).lower()
            ]
            assert told, each.name
            if each.cut:
                assert told == [f"{name}/cut/{each.name.replace(' ', '-')}"]


def test_cartons_and_low_acid_cans_are_opened_at_the_step_that_takes_them() -> None:
    (add,) = [
        job for job in _work("chicken-coconut-curry", 2).jobs if job.id.endswith("simmer/add")
    ]
    assert "4 cans coconut milk (opened now; 13 1/2 oz cans, rinsed out with a little water)" in (
        add.amounts
    )


def test_more_than_a_skillet_softens_takes_goes() -> None:
    (one,) = _jobs(_work("vegetable-egg-bake", 1), "sweat")
    (two,) = _jobs(_work("vegetable-egg-bake", 2), "sweat")
    assert not one.words.startswith("In ")
    assert two.words.startswith("In 2 goes, or it stews.")
    # Eleven cups of vegetables, a pound of mushrooms among them, twenty minutes and more.
    assert two.minutes >= 20 > one.minutes


def test_casings_come_off_at_the_board_for_raw_meat_and_take_their_minutes() -> None:
    (casings,) = [
        job
        for job in _work("sausage-lentil-soup", 2).jobs
        if job.food == "italian sausage" and job.station == "board"
    ]
    assert casings.title == "Take the casings off Italian sausage"
    assert casings.uses == {"board:raw": 1}
    assert casings.hands == frozenset({"raw meat"})
    # Ten links of a quarter of a pound, half a minute each: common practice, no source.
    assert 4 <= casings.minutes <= 6


@pytest.mark.parametrize("name", sorted(starter()))
def test_two_batches_never_take_less_work_than_one(name: str) -> None:
    kitchen = replace(KITCHEN, slow_cookers=(replace(KITCHEN.slow_cookers[0], count=2),))
    one, two = (
        sum(job.minutes for job in _work(name, batches, kitchen).jobs if job.hands is not None)
        for batches in (1, 2)
    )
    assert one < two < 2.5 * one


def test_raw_meat_is_cut_at_its_own_board_into_its_own_bowl_by_one_who_may() -> None:
    (beef,) = [
        job
        for job in _work("beef-barley-stew").jobs
        if job.food == "beef chuck" and job.station == "board"
    ]
    assert beef.uses == {"board:raw": 1}
    assert beef.bowl == "raw stew bowl"
    assert beef.hands is not None
    assert "raw meat" in beef.hands


def test_vegetables_are_cut_at_a_board_of_theirs() -> None:
    onion = next(job for job in _work("beef-barley-stew").jobs if job.food == "onion")
    assert onion.uses == {"board:produce": 1}
    assert onion.hands == frozenset({"knife"})


def test_meat_is_browned_in_loads_and_all_of_it_is() -> None:
    dish = Dish(starter()["beef-barley-stew"], 2, "stew bowl")
    loads = _jobs(dish_work(dish, KITCHEN), "brown")
    whole = ingredient_grams(dish.recipe.ingredient("beef chuck"), 2)
    assert len(loads) > 1
    assert sum(load.grams for load in loads) == pytest.approx(float(whole.magnitude))


def test_each_load_goes_straight_into_a_hot_vessel() -> None:
    work = _work("beef-barley-stew", 2)
    loads = _jobs(work, "brown")
    assert loads
    for load in loads:
        straight = [
            link
            for link in work.links
            if link.before == load.id and link.reason.startswith(STRAIGHT_ON)
        ]
        assert [(link.low, link.high) for link in straight] == [(None, 10)]


def test_a_pot_is_kept_from_filling_to_washing_and_its_burner_with_it() -> None:
    work = _work("sausage-lentil-soup")
    pots = [keep for keep in work.keeps if any("pot:" in each for each in _ids(keep.options))]
    assert pots
    assert all("/wash/" in keep.until for keep in pots)
    burners = [keep for keep in work.keeps if "burner" in _ids(keep.options)]
    assert len(burners) == len(pots)
    assert all("/wash/" not in keep.until for keep in burners)


def test_a_vessel_is_washed_only_when_the_last_of_what_was_in_it_is_out() -> None:
    work = _work("cider-pulled-pork")
    awaited = {link.before for link in work.links if link.after.endswith("wash/slow-cooker")}
    assert "cider-pulled-pork/reduce-the-juices/add" in awaited
    assert "cider-pulled-pork/pull-the-pork" in awaited


def test_a_slow_cooker_is_kept_but_needs_no_burner() -> None:
    work = _work("cider-pulled-pork")
    kept = [
        keep for keep in work.keeps if any("slow-cooker" in each for each in _ids(keep.options))
    ]
    assert len(kept) == 1


def test_a_bake_may_be_moved_a_little_unless_its_recipe_forbids_it() -> None:
    for name, slack in (("cottage-pie", 25), ("vegetable-egg-bake", 0)):
        (bake,) = [job for job in _work(name).jobs if job.oven]
        assert bake.oven is not None
        assert bake.oven.highest - bake.oven.lowest == 2 * slack
        assert bake.hands is None


def test_what_is_baked_goes_in_and_comes_out_by_hand() -> None:
    work = _work("vegetable-egg-bake")
    assert [job.id.rsplit("/", 1)[-1] for job in _jobs(work, "bake")] == ["in", "oven", "out"]


def test_four_pans_in_an_oven_for_two_are_baked_in_loads() -> None:
    small = replace(KITCHEN, ovens=(replace(KITCHEN.ovens[0], shelves=1),))
    one, more = (_work("vegetable-egg-bake", batches, small) for batches in (1, 4))
    assert len([job for job in one.jobs if job.oven]) == 1
    loads = [job.oven.half_shelves for job in more.jobs if job.oven]
    assert len(loads) > 1
    assert all(load <= 2 for load in loads)


@pytest.mark.parametrize(("batches", "minutes"), [(1, 50), (2, 50), (3, 55)])
def test_a_load_of_more_than_half_an_oven_takes_a_tenth_longer(batches: int, minutes: int) -> None:
    # A tenth is common practice, no source, as dishwork/baking.py says.
    recipe = starter()["vegetable-egg-bake"]
    steps = tuple(
        replace(each, minutes=50) if each.technique == "bake" else each for each in recipe.steps
    )
    dish = Dish(replace(recipe, steps=steps), batches, "bake bowl")
    oven = replace(KITCHEN.ovens[0], shelves=2)
    work = dish_work(dish, replace(KITCHEN, ovens=(oven,)))
    # A shelf holds two pans of 9 by 13 inches, so the oven four.
    baked = [job for job in work.jobs if job.oven]
    assert [job.oven.half_shelves for job in baked if job.oven] == [batches]
    assert [job.words for job in baked] == [f"{minutes} min"]


def test_containers_are_counted_into_the_portioning() -> None:
    for batches in (1, 3):
        (portion,) = _jobs(_work("beef-barley-stew", batches), "portion")
        count = container_count(starter()["beef-barley-stew"], batches)
        assert str(count) in portion.title


def test_a_raw_kit_goes_to_the_freezer_from_hands_that_may_touch_it() -> None:
    work = _work("lemon-herb-chicken-kit")
    (portion,) = _jobs(work, "portion")
    assert portion.hands == frozenset({"raw meat"})
    assert {stream.moments[-1].event for stream in work.streams} == {"frozen"}


def test_what_was_cooked_goes_to_the_refrigerator_first() -> None:
    work = _work("chicken-coconut-curry")
    assert {stream.moments[-1].event for stream in work.streams} == {"refrigerated"}


def test_metric_amounts_reach_the_jobs() -> None:
    us, metric = (
        " ".join(
            text
            for job in _work("cottage-pie", 1, KITCHEN, system).jobs
            for text in (*job.amounts, *job.dishes.values())
        )
        for system in ("us", "metric")
    )
    assert " lb" in us
    assert " lb" not in metric


@pytest.mark.parametrize(
    ("name", "without", "lacking"),
    [
        ("cottage-pie", {"ovens": ()}, "no oven"),
        ("beef-barley-stew", {"skillets": ()}, "no skillet"),
        ("beef-barley-stew", {"pots": ()}, "no pots"),
        ("cider-pulled-pork", {"slow_cookers": ()}, "no slow cooker"),
        ("sausage-lentil-soup", {"burners": replace(KITCHEN.burners, count=0)}, "no burner"),
    ],
)
def test_what_the_kitchen_lacks_is_told_with_the_step(
    name: str, without: dict[str, object], lacking: str
) -> None:
    kitchen = replace(KITCHEN, **without)  # type: ignore[arg-type] # fields of Kitchen, by name
    with pytest.raises(InputFault) as caught:
        _work(name, 1, kitchen)
    told = str(caught.value)
    assert lacking in told
    assert f"{name}, step" in told


def test_what_is_divided_and_comes_together_again_is_weighed_once() -> None:
    recipe = starter()["squash-red-lentil-soup"]
    first, *_, last = recipe.steps
    half, other = (
        replace(first, name=name, takes=(), after=(first.name,)) for name in ("half", "other half")
    )
    whole = replace(last, name="whole", takes=(), after=("half", "other half"))
    divided = replace(recipe, steps=(first, half, other, whole))
    draft = Draft(Dish(divided, 1, "bowl"), KITCHEN, list(divided.steps))
    assert draft.weight_through(whole) == pytest.approx(draft.weight_through(first))
    assert draft.weight_through(first) > 0
