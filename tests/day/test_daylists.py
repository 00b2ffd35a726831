"""What is done the day before, and from the evening on."""

from __future__ import annotations

import datetime as dt

from batchcook import plan
from batchcook.cookbook import load_cookbook
from batchcook.day.lists import day_before, morning_after
from batchcook.dishwork.draft import Dish
from batchcook.quantities import ureg

COOKBOOK = load_cookbook()
SIX = ureg.Quantity(6, "pound")


def dishes(*names: str) -> list[Dish]:
    return [Dish(COOKBOOK[name], 2, "bowl") for name in names]


def freezing(dish: str) -> plan.Freezing:
    at = dt.datetime(2027, 1, 16, 17, 5)  # noqa: DTZ001 - plans are in the cook's own time
    words = "Sat 16 Jan, 17:05: into the freezer."
    return plan.Freezing(
        at=at, dish=dish, containers=("A1",), waited_days=0, minutes=600, words=words
    )


def test_ice_is_made_and_the_rest_bought() -> None:
    lines = " ".join(day_before(dishes("beef-barley-stew"), 29, SIX))
    assert "Ice for cooling, 29 lb: make 6 lb, buy the other 23 lb." in lines


def test_little_ice_is_made_at_home_and_none_is_not_mentioned() -> None:
    assert "Make 3 lb of ice for cooling." in day_before(dishes("beef-barley-stew"), 3, SIX)
    assert not any(" ice" in line for line in day_before(dishes("cider-pulled-pork"), 0, SIX))


def test_no_more_ice_is_made_than_the_kitchen_makes() -> None:
    """As the shopping list counts it, which buys the 1 lb that 3.6 lb of 4 leave."""
    lines = " ".join(day_before(dishes("beef-barley-stew"), 4, ureg.Quantity(3.6, "pound")))
    assert "Ice for cooling, 4 lb: make 3 lb, buy the other 1 lb." in lines


def test_meat_is_thawed_on_the_lowest_shelf_and_the_freezer_turned_down() -> None:
    lines = day_before(dishes("beef-barley-stew"), 0, SIX)
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
    assert any("bag them" in line for line in morning_after(dishes("salmon-potato-cakes")))
    assert not any("bag them" in line for line in morning_after(dishes("beef-barley-stew")))
