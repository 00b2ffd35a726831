"""Sheet pans and baking dishes in a dish's work."""

from __future__ import annotations

from dataclasses import replace

import networkx as nx
import pytest
from planned_days import starter

from batchcook.complaints import InputFault
from batchcook.cookbooks.recipe import Recipe
from batchcook.day.taskgraph import task_graph
from batchcook.dishwork.dishes import dish_work
from batchcook.dishwork.draft import Dish
from batchcook.dishwork.work import CLOSING, Job, Keep, Work
from batchcook.kitchens.kitchen import Kitchen, default_kitchen
from batchcook.kitchens.pans import Pans, read_size

KITCHEN = default_kitchen()


def _sheets(*counts: tuple[str, int]) -> Kitchen:
    return replace(KITCHEN, sheet_pans=tuple(_pans(size, count) for size, count in counts))


def _pans(size: str, count: int) -> Pans:
    sides = read_size(size)
    assert sides is not None
    return Pans(*sides, count)


def _work(recipe: Recipe, batches: int, kitchen: Kitchen = KITCHEN) -> Work:
    return dish_work(Dish(recipe, batches, "bowl"), kitchen)


def _kept(work: Work, kind: str) -> list[Keep]:
    return [keep for keep in work.keeps if any(name.startswith(kind) for name in keep.options[0])]


def _jobs(work: Work, *ends: str) -> list[Job]:
    return [job for job in work.jobs if any(job.id.endswith(end) for end in ends)]


def _in_bags() -> Recipe:
    """The egg bake, cut up into bags, so that its pan is the kitchen's."""
    return replace(starter()["vegetable-egg-bake"], container="gallon freezer bag")


def test_sheet_pans_are_kept_from_their_filling_to_their_washing() -> None:
    work = _work(starter()["turkey-meatballs"], 3)
    (keep,) = _kept(work, "sheet-pan")
    assert keep.options == ({"sheet-pan:13x18 inch": 3},)
    assert {f"turkey-meatballs/roll/{number}" for number in (1, 2, 3)} <= set(keep.fillers)
    assert keep.until == "turkey-meatballs/wash/sheet-pan"
    awaited = {link.before for link in work.links if link.after == keep.until}
    assert "turkey-meatballs/bring-together" in awaited


def test_three_pans_take_longer_to_wash_than_one() -> None:
    one, three = (
        _jobs(_work(starter()["turkey-meatballs"], batches), "wash/sheet-pan")[0].minutes
        for batches in (1, 3)
    )
    assert three == one + 2


def test_how_many_pans_to_take_is_told_where_they_are_first_filled() -> None:
    def words(name: str, batches: int, *ends: str, kitchen: Kitchen = KITCHEN) -> list[str]:
        return [job.words for job in _jobs(_work(starter()[name], batches, kitchen), *ends)]

    assert "On 3 sheet pans in all. Scoop" in words("turkey-meatballs", 3, "/roll/1")[0]
    assert "sheet pans in all" not in words("turkey-meatballs", 3, "/roll/2")[0]
    assert "sheet pans." not in words("turkey-meatballs", 3, "bake/in-1")[0]
    assert words("squash-red-lentil-soup", 1, "roast-the-squash/in")[0].startswith("On 1 sheet pan")
    few = _sheets(("13x18 inch", 2))
    assert "On 2 sheet pans at a time." in words("turkey-meatballs", 3, "/roll/1", kitchen=few)[0]
    assert not any("sheet pan" in each for each in words("cottage-pie", 2, "bake/in"))
    washed = _jobs(_work(starter()["turkey-meatballs"], 3), "wash/sheet-pan")
    assert [job.title for job in washed] == ["Wash 3 sheet pans"]


def test_pieces_keep_their_pans_until_the_day_ends_and_nobody_washes_them() -> None:
    work = _work(starter()["salmon-potato-cakes"], 2)
    (keep,) = _kept(work, "sheet-pan")
    assert keep.options == ({"sheet-pan:13x18 inch": 2},)
    assert keep.until == CLOSING
    assert "salmon-potato-cakes/shape" in keep.fillers
    assert not _jobs(work, "wash/sheet-pan")
    (portion,) = _jobs(work, "/portion")
    assert portion.title == "2 sheet pans into the refrigerator"


def test_pieces_that_no_recipe_lays_on_a_pan_still_cool_on_one() -> None:
    soup = starter()["squash-red-lentil-soup"]
    work = _work(replace(soup, cool="pieces", vessels=soup.vessels), 1)
    cold = [keep for keep in _kept(work, "sheet-pan") if keep.until == CLOSING]
    assert [keep.fillers for keep in cold] == [("squash-red-lentil-soup/portion",)]
    assert _jobs(work, "wash/sheet-pan")


@pytest.mark.parametrize("name", ["cottage-pie", "vegetable-egg-bake"])
def test_a_foil_pan_that_goes_to_the_freezer_is_no_vessel_of_the_kitchen(name: str) -> None:
    bare = replace(KITCHEN, sheet_pans=(), baking_dishes=())
    work = _work(starter()[name], 2, bare)
    assert not _kept(work, "baking-dish")
    assert not [job for job in _jobs(work, "pan", "pans") if "/wash/" in job.id]


def test_a_baking_dish_is_kept_and_washed_where_the_food_is_packed_in_something_else() -> None:
    work = _work(_in_bags(), 2)
    (keep,) = _kept(work, "baking-dish")
    assert keep.options == ({"baking-dish:9x13 inch": 2},)
    assert keep.until == "vegetable-egg-bake/wash/foil-pan"
    (bake,) = [job for job in work.jobs if job.oven]
    assert bake.oven is not None
    assert bake.oven.half_shelves == 2


def test_smaller_dishes_stand_in_and_take_the_shelves_they_take() -> None:
    small = replace(KITCHEN, baking_dishes=(_pans("8x8 inch", 4),))
    work = _work(_in_bags(), 2, small)
    (keep,) = _kept(work, "baking-dish")
    assert keep.options == ({"baking-dish:8x8 inch": 4},)
    assert [job.oven.half_shelves for job in work.jobs if job.oven] == [2]


def test_with_too_few_pans_for_all_of_it_they_are_filled_again() -> None:
    work = _work(starter()["turkey-meatballs"], 3, _sheets(("13x18 inch", 2)))
    (keep,) = _kept(work, "sheet-pan")
    assert keep.options == ({"sheet-pan:13x18 inch": 2},)
    assert len(_jobs(work, "roll/1", "roll/2", "roll/3")) == 3
    assert [job.oven.half_shelves for job in work.jobs if job.oven] == [4, 2]
    graph = task_graph(work)
    dish = "turkey-meatballs"
    for earlier, later in (
        ("bake/out-1", "bake/clear-1"),
        ("bake/clear-1", "roll/3"),
        ("roll/3", "bake/in-2"),
        ("roll/1", "bake/in-1"),
        ("roll/2", "bake/in-1"),
    ):
        assert graph.has_edge(f"{dish}/{earlier}", f"{dish}/{later}")
    assert not nx.has_path(graph, f"{dish}/roll/3", f"{dish}/bake/in-1")
    assert nx.is_directed_acyclic_graph(graph)
    awaited = {link.before for link in work.links if link.after == f"{dish}/bring-together"}
    assert {f"{dish}/bake/out-1", f"{dish}/bake/out-2"} <= awaited


def test_filling_them_again_leaves_no_food_out_of_sight() -> None:
    """Every load's way, from the refrigerator to the heat, is on the clock."""
    work = _work(starter()["turkey-meatballs"], 3, _sheets(("13x18 inch", 1)))
    loads = {job.id for job in work.jobs if job.oven}
    assert len(loads) == 3
    heated = {
        moment.job
        for stream in work.streams
        if stream.food == "ground turkey"
        for moment in stream.moments
        if moment.event == "on-heat"
    }
    assert loads <= heated


def test_enough_pans_are_filled_once_and_go_into_the_oven_by_its_shelves() -> None:
    work = _work(starter()["turkey-meatballs"], 3)
    assert not any("clear" in job.id for job in work.jobs)
    assert [job.oven.half_shelves for job in work.jobs if job.oven] == [4, 2]
    assert not [job for job in work.jobs if "/clear" in job.id]


def test_a_quarter_sheet_takes_half_of_what_a_recipe_lays_on_a_sheet_pan() -> None:
    work = _work(starter()["squash-red-lentil-soup"], 1, _sheets(("9x13 inch", 2)))
    (keep,) = _kept(work, "sheet-pan")
    assert keep.options == ({"sheet-pan:9x13 inch": 2},)
    assert [job.oven.half_shelves for job in work.jobs if job.oven] == [2]


def test_pieces_on_more_pans_than_there_are_are_refused_with_what_would_do() -> None:
    with pytest.raises(InputFault) as caught:
        _work(starter()["salmon-potato-cakes"], 5)
    told = str(caught.value)
    assert "salmon-potato-cakes, step 'freeze apart'" in told
    assert "4 of 13x18 inch" in told
    assert "4 of its batches instead of 5, or 5 of them under [[sheet_pans]]" in told
    assert _work(starter()["salmon-potato-cakes"], 4)
    assert _work(starter()["salmon-potato-cakes"], 5, _sheets(("13x18 inch", 5)))


@pytest.mark.parametrize("size", ["", "4x4 inch"])
def test_a_pan_that_nothing_stands_in_for_is_told_once_with_its_step(size: str) -> None:
    kitchen = _sheets((size, 1)) if size else replace(KITCHEN, sheet_pans=())
    with pytest.raises(InputFault) as caught:
        _work(starter()["turkey-meatballs"], 1, kitchen)
    (told,) = map(str, caught.value.complaints)
    assert "turkey-meatballs, step 'roll': the kitchen has no sheet pan" in told
    assert "one of 13x18 inch under [[sheet_pans]]" in told


def test_a_baking_dish_that_is_missing_is_told_by_its_size() -> None:
    with pytest.raises(InputFault, match=r"one of 9x13 inch under \[\[baking_dishes\]\]"):
        _work(_in_bags(), 1, replace(KITCHEN, baking_dishes=(_pans("5x5 inch", 1),)))


def test_what_was_shaped_on_its_pan_is_not_laid_on_it_a_second_time() -> None:
    work = _work(starter()["salmon-potato-cakes"], 2)
    minutes = {job.id.split("/")[1]: job.minutes for job in work.jobs}
    assert minutes["freeze-apart"] == 2
    assert minutes["shape"] > 30
