"""What a freezer takes in a day, and what waits."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from batchcook.complaints import InputFault
from batchcook.foodsafety.freezerload import FreezerItem, daily_load, stage_freezing
from batchcook.quantities import Quantity, ureg

PREP_DAY = dt.date(2027, 1, 16)


def cubic_feet(number: float) -> Quantity:
    return ureg.Quantity(number, "foot ** 3")


def item(
    dish: str, count: int, pounds: float = 2.0, inches: float = 2.0, days: int = 3
) -> FreezerItem:
    return FreezerItem(
        dish,
        count,
        ureg.Quantity(pounds, "pound"),
        ureg.Quantity(inches, "inch"),
        ureg.Quantity(60, "inch ** 3"),
        days,
    )


def test_a_freezer_takes_up_to_three_pounds_a_cubic_foot() -> None:
    assert daily_load(cubic_feet(14)).to("pound").magnitude == pytest.approx(42)


def test_a_small_load_goes_in_at_once() -> None:
    plan = stage_freezing([item("stew", 5)], cubic_feet(7), PREP_DAY)
    assert [day.containers for day in plan.days] == [{"stew": 5}]
    assert plan.pounds_per_cubic_foot == 2


def test_what_exceeds_the_days_load_waits_in_the_refrigerator() -> None:
    plan = stage_freezing([item("stew", 18)], cubic_feet(5), PREP_DAY)
    assert [(day.day.day, day.days_waited, day.containers["stew"]) for day in plan.days] == [
        (16, 0, 7),
        (17, 1, 7),
        (18, 2, 4),
    ]
    assert "Mon 18 Jan 2027" in plan.words


def test_nothing_waits_that_goes_in_within_three_pounds_a_cubic_foot() -> None:
    """2 to 3 lb a cubic foot in 24 h: National Center for Home Food Preservation."""
    plan = stage_freezing([item("stew", 7)], cubic_feet(5), PREP_DAY)
    assert [day.days_waited for day in plan.days] == [0]
    assert plan.pounds_per_cubic_foot == 3


def test_no_more_is_loaded_than_what_spares_a_wait() -> None:
    plan = stage_freezing([item("stew", 6)], cubic_feet(5), PREP_DAY)
    assert plan.pounds_per_cubic_foot == 2.5


def test_what_is_cold_too_late_has_no_share_of_the_first_day() -> None:
    late = replace(item("stew", 3), from_day=1)
    plan = stage_freezing([late, item("soup", 2)], cubic_feet(5), PREP_DAY)
    assert [(day.days_waited, day.containers) for day in plan.days] == [
        (0, {"soup": 2}),
        (1, {"stew": 3}),
    ]


def test_the_shortest_dated_and_then_the_thickest_go_first() -> None:
    plan = stage_freezing(
        [
            item("flat sauce", 5, inches=1),
            item("thick stew", 6, inches=4),
            item("raw kit", 2, days=1),
        ],
        cubic_feet(5),
        PREP_DAY,
    )
    assert plan.days[0].containers == {"raw kit": 2, "thick stew": 5}
    assert plan.days[1].containers == {"thick stew": 1, "flat sauce": 5}


def test_what_may_not_wait_at_all_goes_in_at_the_high_end_of_the_range() -> None:
    plan = stage_freezing([item("raw kit", 7, days=1)], cubic_feet(5), PREP_DAY)
    assert plan.pounds_per_cubic_foot == 3
    assert plan.days[0].weight.magnitude == 14


def test_a_day_that_cannot_be_frozen_in_time_is_refused_with_what_could() -> None:
    with pytest.raises(InputFault) as fault:
        stage_freezing([item("raw kit", 12, days=1)], cubic_feet(5), PREP_DAY)
    assert fault.value.complaints[0].expected == "7 containers of raw kit"


def test_a_freezer_too_warm_and_too_full_is_told_both() -> None:
    with pytest.raises(InputFault) as fault:
        stage_freezing(
            [item("stew", 20)],
            cubic_feet(14),
            PREP_DAY,
            free=cubic_feet(0.4),
            freezer=ureg.Quantity(10, "degF"),
        )
    whats = [complaint.what for complaint in fault.value.complaints]
    assert "10 degF is too warm" in whats[0]
    assert "0.4 cubic feet are free" in whats[1]
    assert "11 of the 20" in fault.value.complaints[1].expected


@given(
    st.lists(
        st.tuples(
            st.integers(1, 8), st.floats(0.5, 5), st.floats(0.75, 4), st.sampled_from([1, 2, 3, 7])
        ),
        min_size=1,
        max_size=6,
    ),
    st.floats(2, 20),
)
def test_no_plan_overloads_the_freezer_nor_lets_a_dish_wait_out_its_life(
    dishes: list[tuple[int, float, float, int]], capacity: float
) -> None:
    items = [
        item(f"dish {number}", count, pounds, inches, days)
        for number, (count, pounds, inches, days) in enumerate(dishes)
    ]
    try:
        plan = stage_freezing(items, cubic_feet(capacity), PREP_DAY)
    except InputFault:
        heaviest = max(pounds for _, pounds, _, _ in dishes)
        total = sum(count * pounds for count, pounds, _, _ in dishes)
        shortest = min(days for _, _, _, days in dishes)
        room = 3 * capacity - heaviest
        assert heaviest > 3 * capacity or total > room * shortest
        return
    life = {each.dish: each.refrigerator_days for each in items}
    for day in plan.days:
        assert day.weight.magnitude <= 3 * capacity + 0.01
        assert all(day.days_waited < life[dish] for dish in day.containers)
    for each in items:
        assert sum(day.containers.get(each.dish, 0) for day in plan.days) == each.containers
