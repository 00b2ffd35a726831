"""What is done the day before, and from the evening on."""

from __future__ import annotations

import datetime as dt

from batchcook import plan
from batchcook.cookbook import load_cookbook
from batchcook.day.lists import day_before, morning_after
from batchcook.dishwork.draft import Dish
from batchcook.kitchens.kitchen import default_kitchen

COOKBOOK = load_cookbook()
KITCHEN = default_kitchen()


def dishes(*names: str) -> list[Dish]:
    return [Dish(COOKBOOK[name], 2, "bowl") for name in names]


def freezing(dish: str) -> plan.Freezing:
    at = dt.datetime(2027, 1, 16, 17, 5)  # noqa: DTZ001 - plans are in the cook's own time
    words = "Sat 16 Jan, 17:05: into the freezer."
    return plan.Freezing(
        at=at, dish=dish, containers=("A1",), waited_days=0, minutes=600, words=words
    )


def test_ice_is_made_and_the_rest_bought() -> None:
    lines = " ".join(day_before(dishes("beef-barley-stew"), KITCHEN, ice_pounds=29, ice_pans=0))
    assert "Ice for cooling, 29 lb: make 6 lb, buy the other 23 lb." in lines


def test_little_ice_is_made_at_home_and_none_is_not_mentioned() -> None:
    assert "Make 3 lb of ice for cooling." in day_before(
        dishes("beef-barley-stew"), KITCHEN, ice_pounds=3, ice_pans=0
    )
    assert not any(
        " ice" in line
        for line in day_before(dishes("cider-pulled-pork"), KITCHEN, ice_pounds=0, ice_pans=0)
    )


def test_meat_is_thawed_on_the_lowest_shelf_and_the_freezer_turned_down() -> None:
    lines = day_before(dishes("beef-barley-stew"), KITCHEN, ice_pounds=0, ice_pans=0)
    assert "lowest shelf" in lines[0]
    assert "beef chuck" in lines[0]
    assert any("-10 degF" in line for line in lines)


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
    lines = day_before(dishes("cottage-pie"), KITCHEN, ice_pounds=13, ice_pans=4)
    assert (
        "Lay out 4 roasting pans or large foil pans (12 x 17 inch, 3 inches deep) for what cools "
        "on ice in the refrigerator."
    ) in lines
