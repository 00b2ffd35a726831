"""Thawing days, cold water, cooking from frozen and freezing again."""

from __future__ import annotations

import datetime as dt

import pytest

from batchcook.complaints import InputFault
from batchcook.foodsafety.thawing import (
    cold_water_minutes,
    cook_from_frozen,
    days_used,
    eat_by,
    in_slow_cooker,
    may_refreeze,
    thaw_days,
)
from batchcook.quantities import Quantity, ureg

SATURDAY = dt.date(2027, 2, 6)


def pounds(number: float) -> Quantity:
    return ureg.Quantity(number, "pound")


def block(*inches: float) -> tuple[Quantity, Quantity, Quantity]:
    one, two, three = (ureg.Quantity(number, "inch") for number in inches)
    return one, two, three


@pytest.mark.parametrize(
    ("weight", "days"), [(0.5, 1), (1, 1), (4, 1), (4.1, 2), (8, 2), (8.5, 3), (12, 3)]
)
def test_a_full_day_and_a_day_for_each_four_pounds(weight: float, days: int) -> None:
    assert thaw_days(pounds(weight)) == days


def test_a_thick_block_takes_longer_than_a_flat_bag_of_the_same_weight() -> None:
    assert thaw_days(pounds(3), block(8, 10, 1)) == 1
    assert thaw_days(pounds(3), block(5, 5, 4)) == 2


def test_the_published_days_by_weight_are_never_undercut() -> None:
    assert thaw_days(pounds(12), block(20, 20, 0.5)) == 3


def test_a_container_is_moved_in_time_for_its_evening() -> None:
    days = thaw_days(pounds(5))
    moved_on = SATURDAY - dt.timedelta(days=days)
    assert moved_on == dt.date(2027, 2, 4)
    assert eat_by(moved_on, days, 3) == dt.date(2027, 2, 9)


def test_days_before_freezing_leave_fewer_after_thawing() -> None:
    assert eat_by(dt.date(2027, 2, 5), 1, 0) == SATURDAY
    assert eat_by(dt.date(2027, 2, 4), 2, 1) == dt.date(2027, 2, 7)


@pytest.mark.parametrize(("weight", "minutes"), [(0.5, 60), (1, 60), (3, 140), (4, 180)])
def test_cold_water_takes_an_hour_for_a_pound_and_up_to_three_for_four(
    weight: float, minutes: int
) -> None:
    assert cold_water_minutes(pounds(weight)) == minutes


@pytest.mark.parametrize("weight", [4.5, 0, -1])
def test_cold_water_is_refused_beyond_the_published_weights(weight: float) -> None:
    with pytest.raises(InputFault):
        cold_water_minutes(pounds(weight))


def test_no_weight_cannot_be_thawed() -> None:
    with pytest.raises(InputFault):
        thaw_days(pounds(0))


def test_oven_and_stove_take_half_as_long_again_from_frozen() -> None:
    assert cook_from_frozen("oven", 40).minutes == 60
    assert cook_from_frozen("stove", 25).minutes == 38
    assert cook_from_frozen("oven").minutes is None


def test_a_slow_cooker_never_takes_frozen_food() -> None:
    found = cook_from_frozen("slow-cooker", 240)
    assert not found.allowed
    assert found.minutes is None
    assert "Thaw it first" in found.words


def test_only_food_thawed_in_the_refrigerator_or_cooked_since_is_frozen_again() -> None:
    assert may_refreeze("refrigerator").allowed
    assert not may_refreeze("cold-water").allowed
    assert not may_refreeze("microwave").allowed
    assert may_refreeze("cold-water", cooked_since=True).allowed


@pytest.mark.parametrize(("days_on", "used"), [(0, 1), (1, 1), (2, 2), (4, 4)])
def test_days_after_thawing_count_when_food_is_frozen_again(days_on: int, used: int) -> None:
    """FDA Food Code 3-501.17: days before freezing and after thawing add up; a day begun counts."""
    assert days_used(SATURDAY, 1, SATURDAY + dt.timedelta(days=days_on)) == used


def test_days_that_a_large_piece_thaws_are_not_days_after_thawing() -> None:
    assert days_used(SATURDAY, 4, SATURDAY + dt.timedelta(days=4)) == 1


@pytest.mark.parametrize(
    "words",
    [
        "Slow-cook on low for 6 hours.",
        "Into the slow-cooker.",
        "slow cooker on low, not high",
        "Slow cooker on low 4 hours, no need to stir",
        "With no stirring in the slow cooker",
        "Slowcooker, low; never lift the lid",
        "Never on the stove, but in the slow cooker",
        "Do not cook it in the slow cooker on high",
        "Slow cook from frozen",
        "Finish by slow-cooking",
    ],
)
def test_whatever_may_mean_a_slow_cooker_counts_as_one(words: str) -> None:
    assert in_slow_cooker(words)


@pytest.mark.parametrize(
    "words",
    [
        "Warm in a skillet. Do not reheat it in the slow cooker. Taste for salt.",
        "Warm on the stove, never in a slow-cooker",
        "Oven at 375; not in the oven or the slow cooker",
        "Warm the slow-cooked pork in a covered skillet",
        "Warm on the stove",
        "",
    ],
)
def test_a_slow_cooker_that_is_forbidden_counts_as_none(words: str) -> None:
    assert not in_slow_cooker(words)
