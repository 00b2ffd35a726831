"""What a screen follows runs out when the paper says so."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from batchcook.documents.foodclocks import FoodClock, Track, food_clocks
from batchcook.foodsafety.limits import STRAIGHT_ON_MINUTES, TIME_OUT_MINUTES
from batchcook.plan import Plan, read_plan

SAMPLE = Path(__file__).parents[2] / "output_samples" / "prep-day"


@pytest.fixture(scope="module")
def plan() -> Plan:
    return read_plan(SAMPLE)


def runs_out(plan: Plan, track: Track) -> datetime:
    """When the last spell of a track has used up what is left, with all as planned."""
    spans: Mapping[str, tuple[datetime, datetime]] = {
        task.id: (task.start, task.end) for task in plan.tasks
    }
    instants: list[datetime] = []
    for moment in track.moments:
        at = spans[moment.task][moment.anchor == "end"] + timedelta(minutes=moment.offset)
        instants.append(max([at, *instants[-1:]]))
    *earlier, (first, _) = track.spells
    used = sum((instants[end] - instants[start] for start, end in earlier), timedelta())
    return instants[first] + timedelta(minutes=track.budget) - used


def test_as_planned_each_clock_runs_out_at_the_printed_minute(plan: Plan) -> None:
    clocks = food_clocks(plan)
    printed = sorted(each.at for each in plan.deadlines)
    assert sorted(clock.at for clock in clocks if clock.state != "browned") == printed
    for clock in clocks:
        assert clock.tracks
        for track in clock.tracks:
            assert runs_out(plan, track) == clock.at


def test_no_clock_gives_more_than_two_hours(plan: Plan) -> None:
    clocks = food_clocks(plan)
    assert clocks
    for clock in clocks:
        assert clock.tracks
        assert all(0 < track.budget <= TIME_OUT_MINUTES for track in clock.tracks)


def test_what_is_browned_has_minutes_only(plan: Plan) -> None:
    browned = [clock for clock in food_clocks(plan) if clock.state == "browned"]
    assert browned
    assert {track.budget for clock in browned for track in clock.tracks} == {STRAIGHT_ON_MINUTES}


def test_a_dish_is_watched_until_it_is_cold_and_what_is_cut_until_it_is_back_there(
    plan: Plan,
) -> None:
    titles = {dish.title for dish in plan.dishes}
    dishes = [clock for clock in food_clocks(plan) if clock.what in titles]
    cold = [clock for clock in dishes if clock.where == "cold"]
    assert {clock.what for clock in cold} == titles
    assert {clock.state for clock in cold} == {"hot"}
    raw = [clock for clock in food_clocks(plan) if clock.state == "cold"]
    assert {"Beef chuck", "Chicken thigh"} <= {clock.what for clock in raw}
    assert not titles & {clock.what for clock in raw}
    back = [clock for clock in raw if "/cut/" in clock.task]
    assert back
    assert all(clock.where == "cold" for clock in back)


def test_without_events_the_printed_minute_stands(plan: Plan) -> None:
    bare = food_clocks(plan.model_copy(update={"events": ()}))
    assert [clock.at for clock in bare] == sorted(each.at for each in plan.deadlines)
    assert all(clock.tracks == () for clock in bare)


def test_clocks_stand_in_the_order_in_which_they_run_out(plan: Plan) -> None:
    def ends(clock: FoodClock) -> datetime:
        return clock.at

    assert list(food_clocks(plan)) == sorted(food_clocks(plan), key=ends)
