"""From the pot to the freezer, each container at its hour."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from batchcook import plan
from batchcook.cookbook import load_cookbook
from batchcook.day.coldchain import (
    ColdChain,
    cold_chain,
    frozen_events,
    ice_to_buy,
    to_the_quarter,
    with_freezer_times,
)
from batchcook.day.labelling import codes
from batchcook.dishwork.draft import Dish
from batchcook.dishwork.work import Baths
from batchcook.foodsafety.clock import replay
from batchcook.foodsafety.events import FoodEvent
from batchcook.kitchens.kitchen import Kitchen, default_kitchen
from batchcook.quantities import ureg

COOKBOOK = load_cookbook()
KITCHEN = default_kitchen()
SMALL_FREEZER = replace(
    KITCHEN, freezer=replace(KITCHEN.freezer, capacity=ureg.Quantity(9.5, "foot ** 3"))
)
SATURDAY = dt.datetime(2027, 1, 16)  # noqa: DTZ001 - plans are in the cook's own time


def portion(name: str, ends: str) -> plan.Task:
    hour, minute = map(int, ends.split(":"))
    end = SATURDAY + dt.timedelta(hours=hour, minutes=minute)
    return plan.Task(
        id=f"{name}/portion",
        title="Portion",
        technique="portion",
        dishes={name: "all"},
        start=end - dt.timedelta(minutes=10),
        end=end,
        words="Fill.",
    )


def day(**ends: str) -> tuple[list[Dish], list[plan.Task]]:
    names = {key.replace("_", "-"): end for key, end in ends.items()}
    dishes = [Dish(COOKBOOK[name], 2, "bowl") for name in names]
    return dishes, [portion(name, end) for name, end in names.items()]


def chain(dishes: list[Dish], tasks: list[plan.Task], kitchen: Kitchen = KITCHEN) -> ColdChain:
    return cold_chain(dishes, kitchen, tasks, codes(dishes), {"beef-barley-stew": Baths(1)})


def test_a_dish_is_frozen_when_it_is_refrigerator_cold_and_not_before() -> None:
    found = chain(*day(beef_barley_stew="11:00"))
    cooling, freezing = found.cooling[0], found.freezing[0]
    assert cooling.refrigerated_at == SATURDAY + dt.timedelta(hours=11)
    assert dt.timedelta() <= freezing.at - cooling.cold_at < dt.timedelta(minutes=15)
    minutes = (cooling.cold_at - cooling.refrigerated_at).total_seconds() / 60
    assert minutes == found.chill_minutes["beef-barley-stew"]
    assert 180 < minutes < 360


def test_nobody_is_told_to_the_minute_when_food_is_cold() -> None:
    found = chain(*day(beef_barley_stew="11:07", cottage_pie="12:01"))
    assert {each.at.minute % 15 for each in found.freezing} == {0}
    on = SATURDAY + dt.timedelta(hours=18)
    assert to_the_quarter(on) == on
    assert to_the_quarter(on + dt.timedelta(minutes=1)) == on + dt.timedelta(minutes=15)
    assert to_the_quarter(on + dt.timedelta(minutes=59)) == on + dt.timedelta(hours=1)


def test_nobody_gets_up_at_night_for_the_freezer() -> None:
    found = chain(*day(beef_barley_stew="20:30"))
    assert found.freezing[0].at == SATURDAY + dt.timedelta(days=1, hours=7)
    assert found.freezing[0].waited_days == 1
    assert found.frozen_on["beef-barley-stew"][0] == dt.date(2027, 1, 17)


@pytest.mark.parametrize(("late", "frozen"), [(0, (16, 22)), (1, (17, 7))])
def test_what_is_cold_by_ten_at_night_still_goes_in(late: int, frozen: tuple[int, int]) -> None:
    dishes, (packed,) = day(beef_barley_stew="11:00")
    cold = chain(dishes, [packed]).cooling[0].cold_at
    later = SATURDAY + dt.timedelta(hours=22, minutes=late) - cold
    moved = packed.model_copy(update={"start": packed.start + later, "end": packed.end + later})
    found = chain(dishes, [moved])
    assert found.cooling[0].cold_at == SATURDAY + dt.timedelta(hours=22, minutes=late)
    at, hour = frozen
    assert found.freezing[0].at == dt.datetime(2027, 1, at, hour)  # noqa: DTZ001 - as above
    assert found.freezing[0].waited_days == at - 16


def test_what_is_cold_too_late_goes_in_on_the_next_day_a_full_day_after_the_first() -> None:
    found = chain(*day(beef_barley_stew="11:00", cottage_pie="19:00"))
    stew, pie = found.freezing
    assert pie.dish == "cottage-pie"
    assert pie.waited_days == 1
    assert pie.at - stew.at == dt.timedelta(days=1)
    assert pie.at > found.cooling[1].cold_at


def test_a_raw_kit_is_frozen_as_soon_as_it_is_packed() -> None:
    found = chain(*day(lemon_herb_chicken_kit="09:30"))
    assert found.cooling == ()
    assert found.freezing[0].at == SATURDAY + dt.timedelta(hours=9, minutes=30)


def test_what_the_freezer_cannot_take_waits_a_day_and_every_container_is_told() -> None:
    dishes, tasks = day(
        beef_barley_stew="11:00",
        sausage_lentil_soup="12:00",
        chicken_coconut_curry="13:00",
        cottage_pie="14:00",
    )
    found = chain(dishes, tasks, SMALL_FREEZER)
    told = [code for each in found.freezing for code in each.containers]
    assert sorted(told) == sorted(code for mine in codes(dishes).values() for code in mine)
    later = [each for each in found.freezing if each.waited_days]
    first = [each for each in found.freezing if not each.waited_days]
    assert later
    last = max(each.at for each in first)
    assert all(each.at - last >= dt.timedelta(hours=20) for each in later)
    assert {on.day for on in found.frozen_on["sausage-lentil-soup"]} == {16, 17}


def test_the_run_sheet_says_to_the_freezer_with_the_hour() -> None:
    dishes, tasks = day(beef_barley_stew="11:00")
    found = chain(dishes, tasks)
    words = with_freezer_times(tasks, found.freezing)[0].words
    assert words == f"Fill. To the freezer at {found.freezing[0].at:%H:%M}."


def test_containers_that_wait_are_named_with_their_day() -> None:
    dishes, tasks = day(
        beef_barley_stew="11:00", sausage_lentil_soup="12:00", chicken_coconut_curry="13:00"
    )
    words = with_freezer_times(tasks, chain(dishes, tasks, SMALL_FREEZER).freezing)[1].words
    assert "on Sun 17 Jan at" in words


def test_other_tasks_keep_their_words() -> None:
    other = portion("beef-barley-stew", "10:00").model_copy(update={"technique": "simmer"})
    dishes, tasks = day(beef_barley_stew="11:00")
    assert with_freezer_times([other], chain(dishes, tasks).freezing) == (other,)


def test_the_check_of_events_passes_the_hour_and_no_earlier_one() -> None:
    dishes, tasks = day(beef_barley_stew="11:00")
    found = chain(dishes, tasks)
    frozen = frozen_events(found.freezing, tasks)[0]

    def broken(at: dt.datetime) -> int:
        name = "beef-barley-stew"
        off = SATURDAY + dt.timedelta(hours=10)
        events = [
            FoodEvent(name, name, "raw-beef", "on-heat", off - dt.timedelta(hours=1), "a"),
            FoodEvent(name, name, "cooked", "off-heat", off, "b"),
            FoodEvent(name, name, "cooked", "refrigerated", tasks[0].end, "c"),
            FoodEvent(name, name, "cooked", frozen.event, at, "d"),
        ]
        return len(replay(events, KITCHEN.room, chill_minutes=found.chill_minutes))

    assert broken(frozen.at) == 0
    cold_at = found.cooling[0].cold_at
    assert broken(cold_at) == 0
    assert broken(cold_at - dt.timedelta(minutes=1)) == 1


def test_ice_beyond_what_the_kitchen_makes_is_bought() -> None:
    found = chain(*day(beef_barley_stew="11:00", cottage_pie="14:00"))
    assert found.ice_pounds == 12 + 13
    line = ice_to_buy(found, KITCHEN)[0]
    assert line.amount == "19 lb"
    assert line.dishes == ("beef-barley-stew", "cottage-pie")
    plenty = replace(KITCHEN, ice=ureg.Quantity(30, "pound"), ice_pans=4)
    assert ice_to_buy(found, plenty) == ()


def test_the_pans_in_which_pies_stand_on_ice_are_bought_as_far_as_they_are_not_there() -> None:
    found = chain(*day(beef_barley_stew="11:00", cottage_pie="14:00"))
    assert found.ice_pans == 4
    assert KITCHEN.ice_pans == 1
    line = ice_to_buy(found, KITCHEN)[1]
    assert (line.amount, line.food) == ("3", "large foil pans, 12 x 17 inch, 3 inches deep")
    assert line.dishes == ("cottage-pie",)


@pytest.mark.parametrize("name", ["cider_pulled_pork", "salmon_potato_cakes", "cottage_pie"])
def test_why_a_dish_is_cooled_its_way_is_told_as_an_estimate(name: str) -> None:
    found = chain(*day(**{name: "12:00"}))
    assert "by estimate" in found.cooling[0].reason
    assert "safe" not in found.cooling[0].reason


def test_pans_to_spread_a_dish_in_are_bought_as_far_as_there_are_no_baking_dishes() -> None:
    dishes, tasks = day(beef_barley_stew="11:00")
    baths = {"beef-barley-stew": Baths(0, spread=True)}
    found = cold_chain(dishes, KITCHEN, tasks, codes(dishes), baths)
    # 6 quarts at 13 x 9 inches and 1 inch deep: 347 cubic inches, 117 in a pan.
    assert (found.shallow_pans, found.spread) == (3, frozenset({"beef-barley-stew"}))
    (line,) = ice_to_buy(found, KITCHEN)
    assert (line.food, line.amount) == ("foil pan, 9 x 13 inch", "1")  # the kitchen has two
    assert line.dishes == ("beef-barley-stew",)
    assert ice_to_buy(found, replace(KITCHEN, baking_dishes=()))[0].amount == "3"
