"""What is done the day before, and from the evening on."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import replace

from batchcook import plan
from batchcook.buying.linewords import food_words
from batchcook.buying.shopping import shopping_lines
from batchcook.cookbook import load_cookbook
from batchcook.day.lists import day_before, morning_after
from batchcook.dishwork.draft import Dish
from batchcook.kitchens.kitchen import default_kitchen
from batchcook.quantities import ureg

COOKBOOK = load_cookbook()
KITCHEN = default_kitchen()
DAY = dt.date(2027, 1, 16)


def before(dishes: Sequence[Dish], ice_pounds: int = 0) -> tuple[str, ...]:
    return day_before(dishes, KITCHEN, DAY, ice_pounds=ice_pounds, ice_pans=0)


def dishes(*names: str) -> list[Dish]:
    return [Dish(COOKBOOK[name], 2, "bowl") for name in names]


def freezing(dish: str) -> plan.Freezing:
    at = dt.datetime(2027, 1, 16, 17, 5)  # noqa: DTZ001 - plans are in the cook's own time
    words = "Sat 16 Jan, 17:05: into the freezer."
    return plan.Freezing(
        at=at, dish=dish, containers=("A1",), waited_days=0, minutes=600, words=words
    )


def test_ice_is_made_and_the_rest_bought() -> None:
    lines = " ".join(before(dishes("beef-barley-stew"), 29))
    assert "Ice for cooling, 29 lb: make 6 lb, buy the other 23 lb." in lines
    assert "Water frozen in shallow pans on the days before" in lines
    few = " ".join(before(dishes("beef-barley-stew"), 8))
    assert "buy the other 2 lb" in few
    assert "Water frozen" not in few


def test_cans_that_are_opened_cold_are_put_into_the_refrigerator_the_day_before() -> None:
    lines = before(dishes("salmon-potato-cakes"))
    assert "Into the refrigerator, to be cold when opened: 4 cans salmon." in lines
    assert not any("when opened" in line for line in before(dishes("beef-barley-stew")))


def test_little_ice_is_made_at_home_and_none_is_not_mentioned() -> None:
    assert "Make 3 lb of ice for cooling." in before(dishes("beef-barley-stew"), 3)
    assert not any(" ice" in line for line in before(dishes("cider-pulled-pork")))


def test_no_more_ice_is_made_than_the_kitchen_makes() -> None:
    """As the shopping list counts it, which buys the 1 lb that 3.6 lb of 4 leave."""
    little = replace(KITCHEN, ice=ureg.Quantity(3.6, "pound"))
    stew = dishes("beef-barley-stew")
    lines = " ".join(day_before(stew, little, DAY, ice_pounds=4, ice_pans=0))
    assert "Ice for cooling, 4 lb: make 3 lb, buy the other 1 lb." in lines


def test_meat_is_thawed_on_the_lowest_shelf_and_the_freezer_turned_down() -> None:
    lines = before(dishes("beef-barley-stew"))
    assert "lowest shelf" in lines[0]
    assert "beef chuck" in lines[0]
    assert any("-10 degF" in line for line in lines)


def test_frozen_meat_has_a_day_for_each_four_pounds_in_one_pack_by_the_evening_before() -> None:
    # USDA FSIS, The Big Thaw: 24 hours for each 4 to 5 lb; the shorter pack is the safer count.
    six = [Dish(COOKBOOK["chicken-coconut-curry"], 6, "bowl")]
    line = before(six)[1]
    assert "by Thu 14 Jan in packs of up to 4 lb: 24 hours for each 4 lb in one pack" in line
    assert line.endswith("in one pack, 12 lb boneless, skinless chicken thighs by Tue 12 Jan.")
    small = before(dishes("turkey-meatballs")[:1])[1]
    assert small.endswith("24 hours for each 4 lb in one pack.")
    metric = [Dish(COOKBOOK["beef-barley-stew"], 2, "bowl", "metric")]
    assert " lb" not in before(metric)[1]
    squash = before(dishes("squash-red-lentil-soup"))
    assert not any("frozen goes there" in line for line in squash)


def test_what_cooled_spread_out_is_bagged_before_it_is_frozen() -> None:
    both = dishes("cider-pulled-pork", "beef-barley-stew")

    def told(*spread: str) -> list[str]:
        return [line for line in morning_after(both, spread=spread) if "shallow pans" in line]

    assert told() == []
    (bags,) = told("cider-pulled-pork")
    assert "into its bags (6) before it is frozen; bags with the air pressed out" in bags
    (tubs,) = told("beef-barley-stew")
    assert tubs.endswith("into its tubs (8) before it is frozen; about 13 minutes.")
    (either,) = told("beef-barley-stew", "cider-pulled-pork")
    assert "into its bags or tubs (14) before" in either


def test_the_day_before_and_the_shopping_list_ask_for_the_same_meat() -> None:
    day = [
        Dish(COOKBOOK[name], 1, "bowl") for name in ("cider-pulled-pork", "chicken-coconut-curry")
    ]
    lines = before(day)
    bought = {line.food: line.amount for line in shopping_lines(day, "us")}
    for food in ("pork shoulder", "chicken thigh"):
        assert f"{bought[food]} {food_words(food)}" in lines[0]
    assert "5 lb boneless pork shoulder" in lines[0]


def test_each_dish_goes_into_the_freezer_at_its_hour_after_a_look_at_the_thermometer() -> None:
    lines = morning_after(dishes("beef-barley-stew"), [freezing("beef-barley-stew")])
    assert "41 degF" in lines[0]
    assert lines[1] == "Sat 16 Jan, 17:05: into the freezer."


def test_a_raw_kit_already_frozen_is_not_told_again() -> None:
    kit = "lemon-herb-chicken-kit"
    lines = morning_after(dishes(kit), [freezing(kit)])
    assert not any("17:05" in line for line in lines)


def test_pieces_frozen_on_trays_are_bagged_when_hard() -> None:
    cakes = "salmon-potato-cakes"
    lines = morning_after(dishes(cakes), [freezing(cakes)])
    assert (
        "Salmon and potato cakes, frozen hard on the pans from Sun 17 Jan in the morning on: "
        "bag them (4), press out the air, label; about 10 minutes."
    ) in lines
    assert not any("bag them" in line for line in morning_after(dishes("beef-barley-stew")))


def test_larger_pans_are_laid_out_for_what_cools_on_ice() -> None:
    lines = day_before(dishes("cottage-pie"), KITCHEN, DAY, ice_pounds=13, ice_pans=4)
    assert (
        "Lay out 4 roasting pans or large foil pans (12 x 17 inch, 3 inches deep) for what cools "
        "on ice in the refrigerator."
    ) in lines


def test_the_same_food_to_thaw_is_told_once_with_all_of_it() -> None:
    lines = before(dishes("spinach-ricotta-shells", "vegetable-egg-bake"))
    told = [line for line in lines if line.endswith("to the refrigerator to thaw.")]
    # 1 lb a batch of shells and 10 oz a batch of the egg bake, two batches of each.
    assert told == ["Move 3 lb 4 oz of frozen spinach to the refrigerator to thaw."]


def test_shallow_pans_are_laid_out_for_what_is_spread_to_cool() -> None:
    def lines(pans: int, system: str = "us") -> list[str]:
        soup = [Dish(COOKBOOK["squash-red-lentil-soup"], 3, "bowl", system)]
        told = day_before(soup, KITCHEN, DAY, ice_pounds=0, ice_pans=0, shallow_pans=pans)
        return [line for line in told if "shallow pan" in line]

    assert lines(0) == []
    (five,) = lines(5)
    assert five.startswith("Lay out 5 shallow pans, 9 x 13 inch each or more")
    assert lines(1)[0].startswith("Lay out 1 shallow pan, 9 x 13 inch or more")
    assert "23 x 33 cm each" in lines(2, "metric")[0]
