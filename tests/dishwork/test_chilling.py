"""How dishes are cooled on the prep day, and what that makes of the work."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from batchcook.complaints import InputFault
from batchcook.cookbook import load_cookbook
from batchcook.dishwork.chilling import ICE_BATH, chilling_of, consistency_of
from batchcook.dishwork.dishes import dish_work
from batchcook.dishwork.draft import Dish
from batchcook.dishwork.work import Baths, Job, Work
from batchcook.foodsafety.limits import limit
from batchcook.kitchens.kitchen import Kitchen, default_kitchen, load_kitchen
from batchcook.quantities import ureg

COOKBOOK = load_cookbook()
COOKED = [name for name, recipe in COOKBOOK.items() if recipe.state != "raw-kit"]


def dish(name: str, batches: int = 1) -> Dish:
    return Dish(COOKBOOK[name], batches, "bowl")


def work(name: str, batches: int = 1, kitchen: Kitchen | None = None) -> Work:
    return dish_work(dish(name, batches), kitchen or default_kitchen())


def job(found: Work, id_: str) -> Job:
    return next(each for each in found.jobs if each.id == id_)


@pytest.mark.parametrize("batches", [1, 2])
@pytest.mark.parametrize("name", COOKED)
def test_every_starter_dish_keeps_both_stages_of_cooling_with_margin(
    name: str, batches: int
) -> None:
    chilling = chilling_of(dish(name, batches), default_kitchen())
    assert chilling is not None
    assert chilling.method.minutes_to_70 <= 0.9 * limit("two-stage-first").minutes + 1
    assert chilling.method.minutes_to_41 <= 0.9 * limit("two-stage-total").minutes + 1


def test_a_raw_kit_was_never_hot() -> None:
    assert chilling_of(dish("lemon-herb-chicken-kit"), default_kitchen()) is None


def test_what_is_baked_in_its_pan_cannot_be_stirred() -> None:
    assert consistency_of(COOKBOOK["cottage-pie"]) == "solid"
    assert consistency_of(COOKBOOK["beef-barley-stew"]) == "thick"
    assert consistency_of(COOKBOOK["salmon-potato-cakes"]) == "pieces"


def test_a_stew_stands_in_cold_water_then_ice_before_it_is_portioned() -> None:
    found = work("beef-barley-stew", 2)
    bath, water, ice = (
        job(found, f"beef-barley-stew/{part}") for part in ("bath", "bath/water", "bath/ice")
    )
    portion = "beef-barley-stew/portion"
    assert bath.hands is None
    assert water.hands is not None
    before = {(link.before, link.after): link for link in found.links}
    assert before[bath.id, water.id].low == before[bath.id, water.id].high == 0
    assert before[bath.id, ice.id].low == 23
    assert (bath.id, portion) in before
    assert (ice.id, portion) in before
    assert ("beef-barley-stew/season", water.id) in before
    assert found.baths == {"beef-barley-stew": Baths(2)}


def test_hands_are_at_the_bath_for_a_quarter_of_its_time_only() -> None:
    found = work("beef-barley-stew")
    bath = job(found, "beef-barley-stew/bath")
    hands = sum(each.minutes for each in found.jobs if each.id.startswith("beef-barley-stew/bath/"))
    assert bath.minutes / 4 <= hands < bath.minutes / 2


def test_the_tub_is_kept_from_cold_water_until_the_dish_is_portioned() -> None:
    keep = next(each for each in work("beef-barley-stew").keeps if ICE_BATH in each.options[0])
    assert "beef-barley-stew/bath/water" in keep.fillers
    assert keep.until == "beef-barley-stew/portion"


def test_a_pie_goes_onto_ice_in_the_refrigerator_without_a_bath() -> None:
    found = work("cottage-pie", 2)
    assert found.baths == {"cottage-pie": Baths(0)}
    portion = job(found, "cottage-pie/portion")
    assert portion.title == "Stand 4 x foil pan with lid, 8 x 8 inch on ice in the refrigerator"
    assert "13 lb of ice" in portion.words
    assert "(12 x 17 inch, 3 inches deep)" in portion.words


def test_where_too_little_ice_fits_around_a_dish_it_is_filled_in_again() -> None:
    found = work("vegetable-egg-bake", 2)
    again = job(found, "vegetable-egg-bake/ice/1")
    assert again.title == "Fresh ice under 2 pans"
    assert again.minutes == 4
    link = next(each for each in found.links if each.after == again.id)
    assert (link.before, link.low) == ("vegetable-egg-bake/portion", 15)
    assert not any("/ice/" in each.id for each in work("cottage-pie", 2).jobs)


@pytest.mark.parametrize(
    "name",
    ["beef-barley-stew", "squash-red-lentil-soup", "chicken-coconut-curry", "turkey-meatballs"],
)
def test_thick_dishes_stand_longer_in_the_bath_than_a_broth(name: str) -> None:
    thick, thin = (
        chilling_of(dish(each), default_kitchen()) for each in (name, "sausage-lentil-soup")
    )
    assert thick is not None
    assert thin is not None
    assert thick.bath_minutes > 1.8 * thin.bath_minutes


def test_nobody_is_told_to_stir_now_and_then() -> None:
    bath = job(work("beef-barley-stew"), "beef-barley-stew/bath")
    assert bath.words == "7 lb of ice in all; stirred every few minutes"


def test_pieces_go_into_the_refrigerator_before_the_freezer() -> None:
    found = work("salmon-potato-cakes", 2)
    portion = job(found, "salmon-potato-cakes/portion")
    assert portion.title == "2 sheet pans into the refrigerator"
    assert "only when refrigerator-cold" in portion.words
    assert {stream.moments[-1].event for stream in found.streams} == {"refrigerated"}


def test_a_flat_bag_needs_no_ice() -> None:
    chilling = chilling_of(dish("cider-pulled-pork"), default_kitchen())
    assert chilling is not None
    assert chilling.baths == Baths(0)
    assert chilling.spread
    assert chilling.method.ice.magnitude == 0


def test_food_long_out_raw_has_its_bath_shared_between_two_tubs() -> None:
    one = chilling_of(dish("beef-mushroom-ragu"), default_kitchen())
    two = chilling_of(dish("beef-mushroom-ragu"), default_kitchen(), already_out=40)
    assert one is not None
    assert two is not None
    assert (one.baths, two.baths) == (Baths(1), Baths(2))
    assert two.bath_minutes < one.bath_minutes


def test_where_two_tubs_do_not_do_the_dish_is_spread_in_shallow_pans_from_cold_water() -> None:
    soup = dish("squash-red-lentil-soup", 3)
    hurried = chilling_of(soup, default_kitchen(), already_out=45)
    usual = chilling_of(soup, default_kitchen())
    assert hurried is not None
    assert usual is not None
    assert hurried.baths == Baths(1, spread=True)
    assert hurried.minutes_out < usual.minutes_out - 30
    assert hurried.minutes_at("ice-bath") == 0
    assert (hurried.method.ice.magnitude, usual.method.ice.magnitude) == (0, 17)
    # 9 quarts at 13 x 9 inches and 1 inch deep: 520 cubic inches, 117 in a pan.
    assert (hurried.method.containers, hurried.method.depth.magnitude) == (5, 1)


def test_where_there_is_no_time_for_cold_water_either_it_is_spread_hot() -> None:
    hurried = chilling_of(dish("squash-red-lentil-soup", 3), default_kitchen(), already_out=85)
    assert hurried is not None
    assert hurried.baths == Baths(0, spread=True)
    assert hurried.bath_minutes == 0


def test_a_dish_that_is_spread_is_cooled_the_same_way_when_the_day_is_told() -> None:
    found = work("beef-barley-stew", 3)
    baths = found.baths["beef-barley-stew"]
    assert baths == Baths(1, spread=True)
    settled = chilling_of(dish("beef-barley-stew", 3), default_kitchen(), baths=baths)
    assert settled is not None
    assert settled.bath_minutes == job(found, "beef-barley-stew/bath").minutes
    assert job(found, "beef-barley-stew/bath").title == "In cold water"
    assert not any(each.id == "beef-barley-stew/bath/ice" for each in found.jobs)
    portion = job(found, "beef-barley-stew/portion")
    assert portion.title == "Spread to cool, for 12 x quart tub"
    assert portion.words.startswith("In 5 pans (9 x 13 inch), at most 1 inch deep")
    assert (
        "it goes into its tubs, with at least 1 inch free at the top, once it is cold"
        in portion.words
    )
    assert "Cold water first takes half of the heat" in settled.method.reason


def test_without_any_tub_a_deep_dish_is_spread_in_shallow_pans() -> None:
    kitchen = replace(default_kitchen(), ice_baths=0)
    chilling = chilling_of(dish("beef-barley-stew"), kitchen)
    assert chilling is not None
    assert chilling.baths == Baths(0, spread=True)
    assert chilling.method.minutes_to_70 <= 108
    assert chilling.method.minutes_to_41 <= 324


def test_a_lukewarm_refrigerator_is_refused_for_every_cooked_dish() -> None:
    usual = default_kitchen()
    warm = replace(
        usual, refrigerator=replace(usual.refrigerator, temperature=ureg.Quantity(43, "degF"))
    )
    with pytest.raises(InputFault, match="43 degF"):
        chilling_of(dish("cottage-pie"), warm)


def test_the_kitchen_file_says_how_many_tubs_and_how_much_ice(tmp_path: Path) -> None:
    file = tmp_path / "kitchen.toml"
    file.write_text(
        '[[cooks]]\nname = "Mara"\n[burners]\ncount = 2\n'
        '[cooling]\nice_baths = 3\nice = "10 lb"\nice_pans = 2\n'
        '[refrigerator]\nfree = "3 cubic_foot"\ntemperature = "37 degF"\n'
        '[freezer]\nfree = "4 cubic_foot"\ntemperature = "0 degF"\n'
    )
    kitchen = load_kitchen(file)
    assert kitchen.ice_baths == 3
    assert kitchen.ice_pans == 2
    assert kitchen.ice.to("pound").magnitude == pytest.approx(10)


@pytest.mark.parametrize(
    ("name", "system", "deep"),
    [
        ("beef-barley-stew", "us", "Fill 4 1/4 inches deep"),
        ("cider-pulled-pork", "us", "In shallow pans, at most 1 inch deep"),
        ("beef-barley-stew", "metric", "Fill 11 cm deep"),
    ],
)
def test_the_depth_is_told_in_the_cooks_own_measures(name: str, system: str, deep: str) -> None:
    found = dish_work(replace(dish(name), system=system), default_kitchen())
    assert job(found, f"{name}/portion").words.startswith(deep)
