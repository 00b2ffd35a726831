"""Cold mixtures in lots: shaped pan by pan, back in the refrigerator until their load."""

from __future__ import annotations

from dataclasses import replace

import pytest
from planned_days import starter

from batchcook.cookbooks.recipe import Recipe, Vessel
from batchcook.dishwork.coldwaits import cold_waits
from batchcook.dishwork.dishes import dish_work
from batchcook.dishwork.draft import Dish
from batchcook.dishwork.streams import spells_of
from batchcook.dishwork.work import Job, Lot, Stream, Work
from batchcook.kitchens.kitchen import default_kitchen
from batchcook.quantities import ureg

BALLS = "turkey-meatballs"


def _work(name: str, batches: int) -> Work:
    return dish_work(Dish(starter()[name], batches, "bowl"), default_kitchen())


def _job(work: Work, part: str) -> Job:
    return next(job for job in work.jobs if job.id.endswith(f"/{part}"))


def _ways(work: Work, food: str) -> list[Stream]:
    return [stream for stream in work.streams if stream.food == food]


@pytest.mark.parametrize(
    ("name", "steps"),
    [
        (BALLS, {"mix the meat", "roll"}),
        ("vegetable-egg-bake", {"mix the custard"}),
        ("spinach-ricotta-shells", {"mix the filling"}),
        # Hot mash goes in with the salmon: it has to be cooled, not put back.
        ("salmon-potato-cakes", set()),
        ("cottage-pie", set()),
    ],
)
def test_only_what_has_nothing_hot_in_it_waits_in_the_refrigerator(
    name: str, steps: set[str]
) -> None:
    assert cold_waits(starter()[name]) == steps


def test_what_is_long_under_hands_is_shaped_pan_by_pan_for_the_load_it_goes_in_with() -> None:
    work = _work(BALLS, 3)
    into = {
        load: {link.before for link in work.links if link.after == f"{BALLS}/bake/in-{load}"}
        for load in (1, 2)
    }
    rolled = {load: {each for each in jobs if "/roll/" in each} for load, jobs in into.items()}
    assert rolled == {1: {f"{BALLS}/roll/1", f"{BALLS}/roll/2"}, 2: {f"{BALLS}/roll/3"}}
    assert [_job(work, f"roll/{number}").minutes for number in (1, 2, 3)] == [14, 14, 14]


def test_one_batch_is_shaped_in_one_go() -> None:
    assert _job(_work(BALLS, 1), "roll").minutes <= 20


def test_each_lot_is_cold_while_it_waits_for_hands_and_for_the_oven() -> None:
    work = _work(BALLS, 3)
    ways = _ways(work, "ground turkey")
    assert len(ways) == 3
    for number, way in enumerate(ways, 1):
        load = 1 if number < 3 else 2
        assert [(each.event, each.job.removeprefix(f"{BALLS}/")) for each in way.moments[:6]] == [
            ("out", "mix-the-meat"),
            ("refrigerated", "mix-the-meat"),
            ("out", f"roll/{number}"),
            ("refrigerated", f"roll/{number}"),
            ("out", f"bake/in-{load}"),
            ("on-heat", f"bake/oven-{load}"),
        ]


def test_what_counts_of_a_lot_is_its_own_work() -> None:
    work = _work(BALLS, 3)
    minutes = {job.id: job.minutes for job in work.jobs}
    raw = [
        spell for spell in spells_of(_ways(work, "ground turkey")[0]) if spell.before == spell.after
    ]
    # Mixed for 10 minutes, a pan shaped in 14; with all of it out at once it would be 47.
    assert sum(minutes[spell.before] for spell in raw) == 10 + 14


def test_the_refrigerator_is_told_where_it_waits_and_where_it_is_taken_on() -> None:
    work = _work(BALLS, 3)
    assert _job(work, "mix-the-meat").words.endswith("covered, into the refrigerator.")
    assert _job(work, "roll/2").words.startswith("Take only this load's share out of")
    assert _job(work, "roll/2").words.endswith("covered, into the refrigerator.")
    assert _job(work, "bake/in-1").words.startswith("Fetch from the refrigerator what waits")


def test_the_layers_of_a_load_wait_for_no_other_load() -> None:
    work = _work("vegetable-egg-bake", 6)
    layers = [job.id for job in work.jobs if "/layer/" in job.id]
    assert len(layers) == len([job for job in work.jobs if job.oven is not None]) == 2
    behind = {link.after for link in work.links if link.before == layers[0]}
    assert "vegetable-egg-bake/bake/in-1" in behind
    assert "vegetable-egg-bake/bake/in-2" not in behind


def test_lots_of_one_filling_meet_where_their_loads_do() -> None:
    assert Lot(0, 0.5, load=1).joins(Lot(0, 0.25, load=1))
    assert not Lot(0, 0.5, load=1).joins(Lot(0, 0.5, load=2))
    assert Lot(0, 0.5, load=1).joins(Lot(0, 1.0))
    assert not Lot(0, 0.5).joins(Lot(1, 0.5))


def _roast_chicken() -> Work:
    """Raw thighs and vegetables laid on trays as they go into the oven; more than it takes."""
    soup = starter()["squash-red-lentil-soup"]
    roast = next(step for step in soup.steps if step.technique == "roast")
    squash = soup.ingredient("butternut squash")
    chicken = starter()["lemon-herb-chicken-kit"].ingredient("chicken thigh")
    raw = replace(chicken, name=squash.name, amount=squash.amount.magnitude * ureg.pound)
    changed = replace(
        soup,
        ingredients=tuple(raw if each is squash else each for each in soup.ingredients),
    )
    assert "butternut squash" in roast.takes
    return dish_work(Dish(changed, 3, "bowl"), default_kitchen())


def test_hands_that_lay_raw_meat_on_trays_are_washed_before_anything_else() -> None:
    work = _roast_chicken()
    first, second = (_job(work, f"roast-the-squash/in-{load}") for load in (1, 2))
    for job in (first, second):
        assert "raw meat" in (job.hands or ())
        assert job.family is not None
        assert work.families[job.family].clean_down > 0


def test_what_goes_into_the_oven_in_two_loads_is_listed_once() -> None:
    work = _work("squash-red-lentil-soup", 3)
    first, second = (_job(work, f"roast-the-squash/in-{load}") for load in (1, 2))
    assert any("butternut squash" in line for line in first.amounts)
    assert second.amounts == ()
    assert second.words.startswith("What is left of it.")
    # Vegetables leave nothing on the hands that has to be washed off.
    assert first.family is None


def _patties(name: str, food: str) -> Recipe:
    """A recipe whose mixture is shaped and fried."""
    balls = starter()[BALLS]
    fried = next(step for step in balls.steps if step.technique == "bake")
    steps = tuple(
        replace(step, technique="cook-through", vessel="skillet", minutes=None, oven=None)
        if step is fried
        else step
        for step in balls.steps
    )
    ingredients = tuple(
        replace(each, food=food) if each.food == "ground turkey" else each
        for each in balls.ingredients
    )
    return replace(
        balls,
        id=name,
        steps=steps,
        ingredients=ingredients,
        vessels={**balls.vessels, "skillet": Vessel("skillet", "skillet")},
    )


def test_what_is_shaped_is_fried_with_no_other_dish() -> None:
    """Two mixtures in one skillet would bring the allergens of one into the other."""
    families = []
    for name, food in (("turkey-patties", "ground turkey"), ("beef-patties", "ground beef")):
        work = dish_work(Dish(_patties(name, food), 1, "bowl"), default_kitchen())
        loads = [job for job in work.jobs if job.station == "skillet"]
        assert len(loads) > 1
        assert loads[0].title.startswith(f"Cook through {food}, load 1 of")
        families.append({job.family for job in loads})
        (way, *_) = [stream for stream in work.streams if stream.food == food]
        assert ("refrigerated", f"{name}/roll") in {(m.event, m.job) for m in way.moments}
    assert not families[0] & families[1]
