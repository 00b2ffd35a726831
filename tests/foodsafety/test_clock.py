"""The replay of a day's food events against the time out of the refrigerator."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from batchcook.complaints import InputFault
from batchcook.foodsafety.clock import Breach, minutes_out, replay
from batchcook.foodsafety.events import FoodEvent
from batchcook.quantities import ureg

NINE = dt.datetime(2027, 1, 16, 9, 0)  # noqa: DTZ001 - kitchen time has no zone
KITCHEN = ureg.Quantity(72, "degF")
HOT_KITCHEN = ureg.Quantity(95, "degF")


def event(minute: int, what: str, food: str = "chicken thigh", kind: str = "") -> FoodEvent:
    """An event of the curry, so many minutes after nine."""
    if not kind:
        kind = "raw-poultry" if food == "chicken thigh" else "cooked"
    at = NINE + dt.timedelta(minutes=minute)
    return FoodEvent("curry", food, kind, what, at, f"task-{minute}")


def day(out: int = 30, heat: int = 40, off: int = 60, hold: int = 30) -> list[FoodEvent]:
    """Chicken out, then cooked, the curry off the heat, refrigerated, frozen."""
    return [
        event(0, "out"),
        event(out, "on-heat"),
        event(out + heat, "off-heat", "curry"),
        event(out + heat + off, "refrigerated", "curry"),
        event(out + heat + off + hold, "frozen", "curry"),
    ]


def rules(breaches: tuple[Breach, ...]) -> list[str]:
    return [breach.rule for breach in breaches]


def test_a_careful_day_breaks_nothing() -> None:
    assert replay(day(), KITCHEN) == ()


def test_spells_add_up_over_the_day() -> None:
    events = day(out=61, off=60)
    assert minutes_out(events)["curry", "chicken thigh"] == 121
    found = replay(events, KITCHEN)
    assert rules(found) == ["time-out"]
    assert (found[0].food, found[0].minutes, found[0].limit_minutes) == ("chicken thigh", 121, 120)
    assert "throw it out" in found[0].instruction


def test_exactly_two_hours_is_still_within_the_limit() -> None:
    assert replay(day(out=60, off=60), KITCHEN) == ()


def test_above_ninety_degrees_half_the_time_is_left() -> None:
    assert replay(day(out=30, off=30), HOT_KITCHEN) == ()
    assert rules(replay(day(out=31, off=30), HOT_KITCHEN)) == ["time-out-hot-room"]


def test_time_on_the_heat_does_not_count() -> None:
    assert replay(day(heat=400), KITCHEN) == ()


def test_food_held_hot_may_wait() -> None:
    events = [
        event(0, "on-heat", "curry"),
        event(40, "held-hot", "curry"),
        event(300, "off-heat", "curry"),
        event(390, "refrigerated", "curry"),
    ]
    assert replay(events, KITCHEN) == ()


def test_food_that_was_never_hot_cannot_be_held_hot() -> None:
    events = [event(0, "out"), event(20, "held-hot"), event(40, "refrigerated")]
    assert rules(replay(events, KITCHEN)) == ["hot-holding"]


def test_cooked_staples_count_as_perishable_though_raw_they_did_not() -> None:
    raw = [event(0, "out", "rice", "dry-goods"), event(300, "on-heat", "rice", "dry-goods")]
    cooked = [event(320, "off-heat", "rice", "cooked"), event(450, "refrigerated", "rice")]
    assert minutes_out(raw) == {("curry", "rice"): 0}
    found = replay(raw + cooked, KITCHEN)
    assert rules(found) == ["time-out"]
    assert found[0].minutes == 130


@pytest.mark.parametrize("kind", ["canned-fish", "canned-low-acid"])
def test_what_was_opened_may_not_stand_longer_than_other_perishable_food(kind: str) -> None:
    # USDA FSIS, Shelf-Stable Food Safety, from memory: perishable once the can is open.
    food = [event(0, "out", "can", kind), event(130, "refrigerated", "can", kind)]
    assert rules(replay(food, KITCHEN)) == ["time-out"]
    # Tomatoes are acid (pH 4.6 or below; 21 CFR 114.3, from memory).
    assert replay([replace(each, kind="canned") for each in food], KITCHEN) == ()


def test_raw_vegetables_may_wait_for_the_pot() -> None:
    events = [
        event(0, "out", "onion", "produce"),
        event(200, "on-heat", "onion", "produce"),
        *day(out=205),
    ]
    assert [breach.food for breach in replay(events, KITCHEN)] == ["chicken thigh"]


def test_browned_meat_goes_straight_on() -> None:
    seared = [event(0, "out"), event(10, "on-heat"), event(17, "off-heat")]
    rest = [event(90, "off-heat", "curry"), event(120, "refrigerated", "curry")]
    assert replay([*seared, event(20, "on-heat"), *rest], KITCHEN) == ()
    assert rules(replay([*seared, event(40, "on-heat"), *rest], KITCHEN)) == ["straight-on"]


@pytest.mark.parametrize(("minutes", "broken"), [(10, []), (11, ["straight-on"])])
def test_straight_on_is_within_ten_minutes_and_no_second_more(
    minutes: int, broken: list[str]
) -> None:
    # Ten minutes are our own figure; that it goes on at once is the USDA's.
    seared = [event(0, "out"), event(10, "on-heat"), event(17, "off-heat")]
    again = event(17 + minutes, "on-heat")
    rest = [event(90, "off-heat", "curry"), event(120, "refrigerated", "curry")]
    assert rules(replay([*seared, again, *rest], KITCHEN)) == broken
    later = replace(again, at=again.at + dt.timedelta(seconds=1))
    (found,) = replay([*seared, later, *rest], KITCHEN)
    assert (found.rule, found.minutes, found.limit_minutes) == ("straight-on", minutes + 1, 10)


def test_a_part_of_a_minute_out_counts_as_one() -> None:
    late = [
        replace(each, at=each.at + dt.timedelta(seconds=1))
        if each.event == "refrigerated"
        else each
        for each in day(out=60, off=60)
    ]
    assert minutes_out(late)["curry", "chicken thigh"] == 121
    (found,) = replay(late, KITCHEN)
    assert (found.rule, found.minutes, found.limit_minutes) == ("time-out", 121, 120)


def test_browned_meat_is_never_refrigerated_to_finish_later() -> None:
    events = [
        event(0, "out"),
        event(10, "on-heat"),
        event(17, "off-heat"),
        event(20, "refrigerated"),
    ]
    assert rules(replay(events, KITCHEN)) == ["no-partial-cooking"]


def test_crumbled_meat_cooked_through_may_wait_within_its_time() -> None:
    events = [
        event(0, "out"),
        event(10, "on-heat"),
        event(20, "off-heat", "chicken thigh", "cooked"),
        event(60, "on-heat", "chicken thigh", "cooked"),
        event(90, "off-heat", "curry"),
        event(130, "refrigerated", "curry"),
    ]
    assert replay(events, KITCHEN) == ()
    assert minutes_out(events)["curry", "chicken thigh"] == 90


def test_food_is_not_frozen_hot() -> None:
    events = [event(0, "on-heat", "curry"), event(40, "off-heat", "curry")]
    found = replay([*events, event(60, "frozen", "curry")], KITCHEN)
    assert rules(found) == ["cooling-at-home"]


def test_food_is_not_frozen_before_it_is_cold() -> None:
    assert replay(day(hold=180), KITCHEN, chill_minutes={"curry": 180}) == ()
    found = replay(day(hold=179), KITCHEN, chill_minutes={"curry": 180})
    assert rules(found) == ["cooling-at-home"]
    assert (found[0].minutes, found[0].limit_minutes) == (179, 180)


def test_a_raw_kit_goes_to_the_freezer_at_once() -> None:
    events = [event(0, "out"), event(30, "frozen", "curry", "raw-kit")]
    assert replay(events, KITCHEN) == ()


def test_food_never_put_away_is_found() -> None:
    found = replay(day()[:3], KITCHEN)
    assert set(rules(found)) == {"cooling-at-home"}
    assert "never put into" in found[0].what


def test_food_back_in_the_refrigerator_does_not_share_the_dishs_clock() -> None:
    cheese = [
        event(0, "out", "cheese", "cheese"),
        event(5, "refrigerated", "cheese", "cheese"),
        event(200, "out", "cheese", "cheese"),
    ]
    dish = [
        event(10, "on-heat", "curry"),
        event(100, "off-heat", "curry"),
        event(210, "refrigerated", "curry"),
    ]
    assert replay(cheese + dish, KITCHEN) == ()
    assert minutes_out(cheese + dish)["curry", "cheese"] == 15


def test_a_breach_of_the_whole_dish_is_told_once() -> None:
    events = [event(0, "on-heat"), *day(out=1, off=130)[2:]]
    found = replay(events, KITCHEN)
    assert [(breach.food, breach.rule) for breach in found] == [("curry", "time-out")]


def test_an_unknown_event_is_refused_with_the_nearest_name() -> None:
    with pytest.raises(InputFault) as fault:
        replay([event(0, "refridgerated")], KITCHEN)
    assert fault.value.complaints[0].suggestion == "refrigerated"


@given(st.lists(st.integers(0, 40), min_size=6, max_size=6))
def test_the_clock_is_the_sum_of_the_spells_and_breaks_exactly_above_the_limit(
    gaps: list[int],
) -> None:
    out, heat, browned, pot, cooling, chilling = gaps
    marks = [0, out, out + heat]
    marks.append(marks[-1] + browned)
    marks.append(marks[-1] + pot)
    marks.append(marks[-1] + cooling)
    marks.append(marks[-1] + chilling)
    events = [
        event(marks[0], "out"),
        event(marks[1], "on-heat"),
        event(marks[2], "off-heat", "chicken thigh", "cooked"),
        event(marks[3], "on-heat", "chicken thigh", "cooked"),
        event(marks[4], "off-heat", "curry"),
        event(marks[5], "refrigerated", "curry"),
        event(marks[6], "frozen", "curry"),
    ]
    total = out + browned + cooling
    assert minutes_out(events)["curry", "chicken thigh"] == total
    assert ("time-out-hot-room" in rules(replay(events, HOT_KITCHEN))) == (total > 60)
    assert replay(events, KITCHEN) == ()
