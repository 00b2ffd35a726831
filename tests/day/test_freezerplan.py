"""What freezer and refrigerator take of a prep day."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from batchcook.complaints import InputFault
from batchcook.cookbook import load_cookbook
from batchcook.day.freezerplan import check_cold_space, cooling_room, freezing_minutes, stage, waits
from batchcook.dishwork.draft import Dish
from batchcook.foodsafety.freezing import freezing_time
from batchcook.kitchens.kitchen import ColdStore, Kitchen, default_kitchen
from batchcook.quantities import ureg

COOKBOOK = load_cookbook()
DAY = dt.date(2027, 1, 16)
KITCHEN = default_kitchen()


def dish(name: str, batches: int = 1) -> Dish:
    return Dish(COOKBOOK[name], batches, "bowl")


def kitchen(
    capacity: float = 14, free: float = 5, degrees: float = 0, refrigerator: float = 4
) -> Kitchen:
    usual = default_kitchen()
    return replace(
        usual,
        freezer=ColdStore(
            ureg.Quantity(capacity, "foot ** 3"),
            ureg.Quantity(free, "foot ** 3"),
            ureg.Quantity(degrees, "degF"),
        ),
        refrigerator=replace(usual.refrigerator, free=ureg.Quantity(refrigerator, "foot ** 3")),
    )


SATURDAY = [
    dish("beef-barley-stew", 2),
    dish("sausage-lentil-soup", 2),
    dish("chicken-coconut-curry", 2),
    dish("cottage-pie", 2),
]


def test_a_small_day_is_frozen_at_once() -> None:
    staging = stage([dish("cottage-pie")], kitchen(), DAY)
    assert [day.day for day in staging.days] == [DAY]


def test_no_day_brings_more_than_the_freezer_takes_and_nothing_is_lost() -> None:
    staging = stage(SATURDAY, kitchen(), DAY)
    assert len(staging.days) == 2
    for day in staging.days:
        assert day.weight.to("pound").magnitude <= 3 * 14
    waited = waits(SATURDAY, staging)
    assert {name: len(days) for name, days in waited.items()} == {
        "beef-barley-stew": 8,
        "sausage-lentil-soup": 8,
        "chicken-coconut-curry": 8,
        "cottage-pie": 4,
    }
    assert max(days for all_ in waited.values() for days in all_) == 1


def test_a_raw_kit_never_waits() -> None:
    dishes = [*SATURDAY[:2], dish("lemon-herb-chicken-kit", 2)]
    assert set(waits(dishes, stage(dishes, kitchen(), DAY))["lemon-herb-chicken-kit"]) == {0}


def test_a_small_freezer_refuses_with_the_order_that_it_could_take() -> None:
    small = kitchen(capacity=4)
    with pytest.raises(InputFault) as fault:
        stage(SATURDAY, small, DAY)
    expected = fault.value.complaints[0].expected
    order = dict(each.split("=") for each in expected.rsplit("; or ", 1)[1].split())
    assert sum(map(int, order.values())) < sum(each.batches for each in SATURDAY)
    fewer = [dish(name, int(batches)) for name, batches in order.items()]
    assert stage(fewer, small, DAY).days


def test_a_full_freezer_is_refused_by_volume() -> None:
    with pytest.raises(InputFault, match="cubic feet"):
        stage(SATURDAY, kitchen(free=1), DAY)


def test_a_freezer_too_warm_is_refused() -> None:
    with pytest.raises(InputFault, match="15 degF is too warm"):
        stage(SATURDAY, kitchen(degrees=15), DAY)


def test_a_full_refrigerator_is_refused_with_the_room_that_it_takes() -> None:
    with pytest.raises(InputFault) as fault:
        check_cold_space(SATURDAY, kitchen(refrigerator=1), DAY)
    assert f"{cooling_room(SATURDAY, KITCHEN):.1f} cubic feet" in fault.value.complaints[0].what


def test_raw_kits_take_no_room_to_cool() -> None:
    assert cooling_room([dish("lemon-herb-chicken-kit", 3)], KITCHEN) == 0


def test_everything_wrong_with_the_cold_is_told_at_once() -> None:
    with pytest.raises(InputFault) as fault:
        check_cold_space(SATURDAY, kitchen(degrees=15, refrigerator=1), DAY)
    assert len(fault.value.complaints) == 2


def test_a_tub_freezes_as_planks_equation_says_for_its_block() -> None:
    edges = tuple(ureg.Quantity(edge, "inch") for edge in (4.5, 4.5, 4.25))
    whole = freezing_time("brick", edges, freezer=ureg.Quantity(0, "degF"))
    found = freezing_minutes(COOKBOOK["beef-barley-stew"], kitchen())
    assert found == pytest.approx(whole.to("minute").magnitude, abs=1)


def test_flat_bags_freeze_sooner_than_tubs() -> None:
    bag = freezing_minutes(COOKBOOK["cider-pulled-pork"], kitchen())
    assert bag < freezing_minutes(COOKBOOK["beef-barley-stew"], kitchen())


def test_pans_that_are_shaped_cold_have_their_room_until_they_are_baked() -> None:
    """By hand: a half sheet 2 inches high, half an inch of air beside it, a quarter above."""
    one = (13.5 * 18.5 * 2.25) / 12**3
    tubs = cooling_room([dish("squash-red-lentil-soup")], KITCHEN)
    balls = cooling_room([dish("turkey-meatballs")], KITCHEN)
    assert balls == pytest.approx(max(one, tubs), rel=1e-6)
    patties = replace(COOKBOOK["turkey-meatballs"], state="raw-kit")
    assert cooling_room([Dish(patties, 3, "bowl")], KITCHEN) == pytest.approx(3 * one)
