"""The choice of how a dish is cooled."""

from __future__ import annotations

import itertools

import pytest

from batchcook.complaints import Complaint, InputFault
from batchcook.foodsafety.cooling import (
    Consistency,
    CoolingContainer,
    CoolingPlan,
    choose_cooling,
    cooling_times,
)
from batchcook.foodsafety.coolingoptions import Case, in_order
from batchcook.foodsafety.coolingroutes import bath_seconds, ice_needed, water_around
from batchcook.foodsafety.thermal import thermal_values
from batchcook.quantities import Quantity, ureg


def inches(number: float) -> Quantity:
    return ureg.Quantity(number, "inch")


def quarts(number: float) -> Quantity:
    return ureg.Quantity(number, "quart")


def degrees(number: float) -> Quantity:
    return ureg.Quantity(number, "degF")


def container(
    name: str, length: float, width: float, depth: float, count: int | None = None
) -> CoolingContainer:
    return CoolingContainer(name, inches(length), inches(width), inches(depth), count=count)


TUB = container("quart tub", 4.75, 4.75, 4.25)
BAG = container("quart freezer bag", 7, 8, 1)
FOIL_PAN = container("8 x 8 inch foil pan", 8, 8, 1.5)
SHEET_PAN = CoolingContainer("sheet pan", inches(12), inches(17), inches(1), count=4, final=False)


def places(plan: CoolingPlan) -> list[str]:
    return [stage.place for stage in plan.stages]


def test_thin_flat_bags_go_straight_into_the_refrigerator() -> None:
    plan = choose_cooling(quarts(4), "thick", [BAG])
    assert places(plan) == ["fill", "refrigerator"]
    assert plan.ice.magnitude == 0
    assert "both met" in plan.reason


@pytest.mark.parametrize(("depth", "shallow"), [(2.0, True), (2.05, False)])
def test_two_inches_of_food_is_shallow_and_no_more_is(depth: float, shallow: bool) -> None:
    # Home guidance, cited at cooling-depth in foodsafety/tables/handling.toml: 2 inches or less.
    case = Case(
        volume=0.002,
        consistency="solid",
        start=82.0,
        refrigerator=4.0,
        room=22.0,
        pots=1,
        ice=True,
        out_seconds=7200.0,
    )
    pan = CoolingContainer("pan", inches(8), inches(8), inches(depth))
    full = [each for each in in_order(case, [pan]) if each.depth_inches == depth]
    assert bool(full) == shallow


def test_deep_tubs_get_an_ice_bath_first() -> None:
    plan = choose_cooling(quarts(6), "liquid", [TUB])
    assert places(plan) == ["cold-water", "ice-bath", "fill", "refrigerator"]
    assert plan.ice.magnitude > 0
    assert "deeper than home guidance" in plan.reason
    assert "Food Code" in plan.reason


def test_what_cannot_be_stirred_stands_on_ice() -> None:
    plan = choose_cooling(quarts(5), "solid", [FOIL_PAN])
    assert places(plan) == ["ice-under-pan", "refrigerator"]
    assert plan.depth.magnitude == 1.5
    assert "Home guidance alone" in plan.reason


def test_without_ice_a_baked_dish_is_filled_less_deep() -> None:
    plan = choose_cooling(quarts(5), "solid", [FOIL_PAN], ice=False)
    assert places(plan) == ["fill", "refrigerator"]
    assert plan.depth.magnitude < 1.5
    assert plan.containers > choose_cooling(quarts(5), "solid", [FOIL_PAN]).containers


def test_pieces_cool_on_racks() -> None:
    plan = choose_cooling(quarts(4), "pieces", [SHEET_PAN])
    assert places(plan) == ["refrigerator"]


def test_the_counts_come_from_what_a_container_holds() -> None:
    tub = CoolingContainer(
        "quart tub", inches(4.75), inches(4.75), inches(4.25), holds=ureg.Quantity(3, "cup")
    )
    assert choose_cooling(quarts(6), "liquid", [tub]).containers == 8


CONSISTENCIES: tuple[Consistency, ...] = ("liquid", "thick", "solid", "pieces")
CASES = list(
    itertools.product(
        CONSISTENCIES,
        (2.0, 6.0, 11.0),
        (165.0, 195.0, 208.0),
        (35.0, 37.0, 39.0),
        (72.0, 95.0),
    )
)


def test_every_plan_keeps_every_limit_with_margin_or_is_refused_with_a_proposal() -> None:
    plans = 0
    refusals: list[Complaint] = []
    for consistency, volume, start, cold, room in CASES:
        try:
            plan = choose_cooling(
                quarts(volume),
                consistency,
                [TUB, BAG, FOIL_PAN, SHEET_PAN],
                start=degrees(start),
                refrigerator=degrees(cold),
                room=degrees(room),
            )
        except InputFault as fault:
            refusals += fault.complaints
            continue
        plans += 1
        assert plan.minutes_to_70 <= 109
        assert plan.minutes_to_41 <= 325
        assert minutes_out(plan) <= (55 if room > 90 else 109)
        assert plan.stages[-1].ends_at.magnitude <= 41.01
    assert all(complaint.expected for complaint in refusals)
    assert plans > len(CASES) / 2


def minutes_out(plan: CoolingPlan) -> int:
    """Minutes until it stands in the refrigerator."""
    return sum(
        stage.minutes
        for stage in plan.stages
        if stage.place not in {"refrigerator", "ice-under-pan"}
    )


def test_a_container_that_cannot_cool_in_time_is_refused_with_a_proposal() -> None:
    deep = container("stockpot", 12, 12, 9)
    with pytest.raises(InputFault) as fault:
        choose_cooling(quarts(20), "thick", [deep], where="chili")
    assert fault.value.complaints[0].where == "chili"
    assert "at most 1 inch deep" in fault.value.complaints[0].expected


def test_too_few_pans_are_counted() -> None:
    few = container("8 x 8 inch foil pan", 8, 8, 1.5, count=2)
    with pytest.raises(InputFault) as fault:
        choose_cooling(quarts(5), "solid", [few])
    assert "too few" in fault.value.complaints[0].what
    assert "there are 2" in fault.value.complaints[0].expected


def test_a_refrigerator_that_is_too_warm_is_refused() -> None:
    with pytest.raises(InputFault, match="a refrigerator at 41 degF"):
        choose_cooling(quarts(5), "solid", [FOIL_PAN], refrigerator=degrees(41))


def test_sharing_a_pot_between_two_shortens_the_bath() -> None:
    one = choose_cooling(quarts(8), "liquid", [TUB])
    two = choose_cooling(quarts(8), "liquid", [TUB], pots=2)
    assert minutes_out(two) < minutes_out(one)


def test_two_inches_straight_into_the_refrigerator_miss_the_first_stage() -> None:
    found = cooling_times(inches(2), [("refrigerator", None)])
    assert found is not None
    assert found[0] > 120
    assert found[1] > 360


def test_an_inch_straight_into_the_refrigerator_makes_both_stages() -> None:
    found = cooling_times(inches(1), [("refrigerator", None)])
    assert found is not None
    assert found[0] < 120
    assert found[1] < 360


def test_half_an_hour_on_the_counter_first_only_delays() -> None:
    straight = cooling_times(inches(1.5), [("refrigerator", None)])
    first = cooling_times(inches(1.5), [("counter", 30), ("refrigerator", None)])
    assert straight is not None
    assert first is not None
    assert first[0] > straight[0]
    assert first[1] > straight[1]


def test_ice_under_the_pan_hurries_both_stages() -> None:
    straight = cooling_times(inches(1.5), [("refrigerator", None)])
    on_ice = cooling_times(inches(1.5), [("ice-under-pan", 90), ("refrigerator", None)])
    assert straight is not None
    assert on_ice is not None
    assert on_ice[0] < straight[0]
    assert on_ice[1] < straight[1]


def test_food_on_the_counter_never_becomes_cold() -> None:
    assert cooling_times(inches(1), [("counter", None)]) is None


def test_a_stirred_pot_falls_by_the_lumped_law() -> None:
    whole = bath_seconds(0.006, 150, 0.5, 90, 20)
    parts = bath_seconds(0.006, 150, 0.5, 90, 50) + bath_seconds(0.006, 150, 0.5, 50, 20)
    assert whole == pytest.approx(parts)
    assert bath_seconds(0.006, 150, 0.5, 90, 0.5) == float("inf")
    assert bath_seconds(0.006, 150, 0.5, 15, 20) == 0


SIX_QUARTS = 0.005678
"""Cubic meters."""


def test_six_quarts_stand_in_some_ten_litres_of_water() -> None:
    assert water_around(SIX_QUARTS) == pytest.approx(0.010, rel=0.02)


def test_ice_takes_up_the_heat_of_the_food_and_of_the_tap_water() -> None:
    """334 kJ melt a kilogram of ice, 4.19 kJ warm one of water by a degree: handbook values."""
    food = 3930 * SIX_QUARTS * (48.9 - 10) / 334
    # Of the 10 litres around the pot the ice has half: it goes in first, the water between it.
    tap_water = 4.19 * 5 * (60 - 33) / 1.8 / 334
    assert food == pytest.approx(2.6, abs=0.05)
    assert tap_water == pytest.approx(0.94, abs=0.05)  # kilograms: 2 lb
    needed = ice_needed(SIX_QUARTS, 48.9, 10, 22 * 60)
    assert 1.2 * (food + tap_water) < needed < 1.5 * (food + tap_water)


def test_a_hot_kitchen_melts_more_of_it() -> None:
    usual, hot = (ice_needed(SIX_QUARTS, 48.9, 10, 3600, room=room) for room in (22.2, 35.0))
    assert ice_needed(SIX_QUARTS, 48.9, 10, 3600) == pytest.approx(usual, rel=0.001)
    # 8 W/m2K into a tub 38 cm wide and 14 cm deep, 0.39 m2 with base and top, for an hour, 12.8 K.
    assert hot - usual == pytest.approx(1.2 * 8 * 0.394 * 12.8 * 3600 / 334_000, rel=0.05)


def test_where_nothing_is_cooled_no_ice_is_needed() -> None:
    assert ice_needed(SIX_QUARTS, 10, 10, 0) == 0


@pytest.mark.parametrize("quarts_of_food", [3, 6, 9])
@pytest.mark.parametrize("coefficient", [100, 200])
def test_the_bath_stays_at_the_temperature_of_ice_water_and_some_ice_is_left(
    quarts_of_food: float, coefficient: float
) -> None:
    """A bath stepped through second by second: tap water and ice at 32 degF, food, the room."""
    volume = quarts_of_food * 0.000946353
    seconds = bath_seconds(volume, coefficient, (33 - 32) / 1.8, 48.9, 10)
    ice = ice_needed(volume, 48.9, 10, seconds)
    first = ice
    space = water_around(volume) * 1000
    food, water = 48.9, space - min(ice / 0.917, space / 2)
    # The tap water is cold before the pot goes in: it gives its heat to the ice first.
    ice -= 4.19 * water * (60 - 32) / 1.8 / 334
    diameter = (4 * volume / (3.1416 * 0.6)) ** (1 / 3)
    wetted = 3.1416 * diameter**2 * 0.85
    tub = diameter + 2 * 0.0762
    open_to_the_room = 3.1416 * tub * (0.6 * diameter + tub / 2)
    for _ in range(round(seconds)):
        assert ice > 0
        flow = coefficient * wetted * (food - 0.56) / 1000
        food -= flow / (3930 * volume)
        ice -= (flow + 0.008 * open_to_the_room * 22) / 334
    assert food == pytest.approx(10, abs=0.2)
    assert 0.05 * first < ice < 0.25 * first


def test_a_bath_is_stirred_every_few_minutes_which_its_times_assume() -> None:
    plan = choose_cooling(quarts(6), "thick", [TUB])
    for stage in plan.stages[:2]:
        assert "stir every few minutes" in stage.words
    for name in ("stirred-liquid", "stirred-thick"):
        assert "stirred every few minutes" in thermal_values()[name].scope
