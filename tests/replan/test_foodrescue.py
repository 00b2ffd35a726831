"""What to do now with food that is not cold."""

from __future__ import annotations

import datetime as dt

import pytest

from batchcook.foodsafety.events import FoodEvent
from batchcook.quantities import Quantity, ureg
from batchcook.replan.foodrescue import food_out, what_to_do

NOON = dt.datetime.fromisoformat("2027-01-16T12:00")
ROOM = ureg.Quantity(72, "degF")
HOT_ROOM = ureg.Quantity(95, "degF")
TITLES = {"stew": "Stew"}


def event(what: str, minutes: int, kind: str = "raw-beef") -> FoodEvent:
    return FoodEvent("stew", "beef", kind, what, NOON + dt.timedelta(minutes=minutes), "t")


def told(*events: FoodEvent, after: int, room: Quantity = ROOM) -> tuple[str, ...]:
    return what_to_do(events, NOON + dt.timedelta(minutes=after), room, TITLES)


def test_food_just_out_goes_back_within_what_is_left_of_two_hours() -> None:
    assert told(event("out", 0), after=50) == (
        "Stew (beef): into the refrigerator now, within 70 min, or throw it out",
    )


def test_in_a_hot_room_there_is_an_hour() -> None:
    assert "within 10 min" in told(event("out", 0), after=50, room=HOT_ROOM)[0]


def test_food_out_too_long_is_thrown_out() -> None:
    assert "throw it out, neither" in told(event("out", 0), after=121)[0]
    assert "within 0 min" in told(event("out", 0), after=120)[0]


def test_food_on_heat_is_kept_hot() -> None:
    assert "140 degF" in told(event("out", 0), event("on-heat", 10), after=30)[0]


def test_browned_meat_is_cooked_through_at_once_and_not_kept() -> None:
    browned = (event("out", 0), event("on-heat", 10), event("off-heat", 20))
    assert "cook it through now" in told(*browned, after=25)[0]
    assert "throw it out" in told(*browned, after=60)[0]


@pytest.mark.parametrize(
    ("waited", "words"),
    [
        (dt.timedelta(minutes=10), "cook it through now"),
        (dt.timedelta(minutes=10, seconds=1), "throw it out"),
        (dt.timedelta(minutes=11), "throw it out"),
    ],
)
def test_browned_meat_goes_straight_on_within_ten_minutes(waited: dt.timedelta, words: str) -> None:
    # Ten minutes are our own figure; that it goes on at once is the USDA's.
    browned = (event("out", 0), event("on-heat", 10), event("off-heat", 20))
    (said,) = what_to_do(browned, NOON + dt.timedelta(minutes=20) + waited, ROOM, TITLES)
    assert words in said
    (found,) = food_out(browned, NOON + dt.timedelta(minutes=20) + waited, ROOM)
    assert found.lost == (words == "throw it out")


def test_food_in_the_refrigerator_needs_nothing() -> None:
    assert told(event("out", 0), event("refrigerated", 30), after=200) == ()


def test_spells_before_count_against_food_that_is_out_again() -> None:
    events = (event("out", 0), event("refrigerated", 60), event("out", 100))
    (found,) = food_out(events, NOON + dt.timedelta(minutes=130), ROOM)
    assert (found.left, found.lost) == (30, False)


def test_what_is_given_up_comes_off_the_heat() -> None:
    events = (event("out", 0), event("on-heat", 10), event("off-heat", 90, "cooked"))
    (words,) = what_to_do(events, NOON + dt.timedelta(minutes=40), ROOM, TITLES, given_up=("stew",))
    assert "cook it through, cool it, into the refrigerator now, within 110 min" in words


def load(number: int, what: str, minutes: int) -> FoodEvent:
    at = NOON + dt.timedelta(minutes=minutes)
    return FoodEvent("stew", f"beef, load {number}", "raw-beef", what, at, "t")


def out(*events: FoodEvent, after: int) -> list[tuple[str, int, bool]]:
    found = food_out(events, NOON + dt.timedelta(minutes=after), ROOM)
    return [(each.food, each.left, each.lost) for each in found]


def test_loads_of_one_food_are_told_once_by_the_most_urgent() -> None:
    assert out(load(1, "out", 20), load(2, "out", 0), after=50) == [("beef", 70, False)]


def test_loads_that_need_different_things_are_named() -> None:
    browned = (load(1, "out", 0), load(1, "on-heat", 10), load(1, "off-heat", 20))
    assert sorted(out(*browned, load(2, "out", 0), after=50)) == [
        ("beef, load 1", 80, True),
        ("beef, load 2", 70, False),
    ]


def test_lost_food_is_not_hidden_behind_food_with_as_much_time_left() -> None:
    browned = (event("out", 0), event("on-heat", 0), event("off-heat", 0))
    other = FoodEvent("stew", "milk", "dairy", "out", NOON, "t")
    assert {(food, lost) for food, _, lost in out(other, *browned, after=50)} == {
        ("milk", False),
        ("beef", True),
    }


def test_what_came_off_the_heat_in_one_pot_is_told_once_by_the_most_urgent() -> None:
    def pot(food: str, *steps: tuple[str, int]) -> list[FoodEvent]:
        return [
            FoodEvent("stew", food, "cooked", what, NOON + dt.timedelta(minutes=at), "simmer")
            for what, at in steps
        ]

    beef = pot("beef", ("out", 0), ("on-heat", 20), ("off-heat", 60))
    oil = pot("oil", ("on-heat", 10), ("off-heat", 60))
    (out,) = food_out([*oil, *beef], NOON + dt.timedelta(minutes=70), ROOM)
    assert (out.food, out.left) == ("beef", 90)
