from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from batchcook.foodsafety.thawing import ThawWay
from batchcook.freezer.lots import lot_of
from batchcook.freezer.outage import outage
from batchcook.freezer.standing import WORDS, due, standing, standings
from batchcook.freezer.stock import Stock, Stored
from batchcook.freezer.tables import state_words

PACKED = dt.date(2026, 1, 10)
STEW = Stored(
    key="A1@2026-01-10",
    code="A1",
    dish="beef-stew",
    title="Beef stew",
    portions=4,
    packed_on=PACKED,
    best_by=dt.date(2026, 3, 10),
    use_by=dt.date(2026, 4, 10),
    state="cooked",
    thaw="refrigerator",
    thaw_days=1,
    keeps_thawed_days=3,
    grams=900,
)
MOVED = replace(STEW, key="A2@2026-01-10", place="refrigerator", moved_on=dt.date(2026, 2, 1))


@pytest.mark.parametrize(
    ("today", "state", "until"),
    [
        (dt.date(2026, 3, 10), "at its best", dt.date(2026, 3, 10)),
        (dt.date(2026, 3, 11), "eat first", dt.date(2026, 4, 10)),
        (dt.date(2026, 4, 10), "eat first", dt.date(2026, 4, 10)),
        (dt.date(2026, 4, 11), "safe but fading", None),
        (dt.date(2029, 4, 11), "safe but fading", None),
    ],
)
def test_frozen_it_goes_from_best_to_fading_and_is_never_thrown_out(
    today: dt.date, state: str, until: dt.date | None
) -> None:
    found = standing(STEW, today)
    assert (found.state, found.until) == (state, until)


def test_thawed_it_is_thrown_out_past_its_eat_by_whatever_the_label_says() -> None:
    assert standing(MOVED, dt.date(2026, 2, 5)).state == "thawing"
    assert standing(MOVED, dt.date(2026, 2, 5)).until == dt.date(2026, 2, 5)
    assert standing(MOVED, dt.date(2026, 2, 6)).state == "throw out"


def test_between_the_short_and_the_long_end_of_its_chart_it_is_to_be_eaten_that_day() -> None:
    # Three to four days after thawing: FoodSafety.gov, Cold Food Storage Chart, soups and stews.
    four = replace(MOVED, keeps_thawed_at_most=4)
    last = dt.date(2026, 2, 6)
    assert four.eat_by == dt.date(2026, 2, 5)
    assert standing(four, dt.date(2026, 2, 5)).state == "thawing"
    assert (standing(four, last).state, standing(four, last).until) == ("last days", last)
    assert state_words(standing(four, last)) == "eat today, last day Fri 6 Feb 2026"
    assert due([standing(four, last)], last, 0)
    assert standing(four, dt.date(2026, 2, 7)).state == "throw out"


def test_plans_go_by_the_short_end() -> None:
    four = replace(MOVED, keeps_thawed_at_most=4)
    assert lot_of(four, PACKED, PACKED).last_day == dt.date(2026, 2, 5)


@pytest.mark.parametrize("way", ["cold-water", "microwave"])
def test_what_thawed_in_water_or_a_microwave_has_that_day_only(way: ThawWay) -> None:
    fast = replace(MOVED, keeps_thawed_at_most=4, thawed_by=way)
    assert fast.eat_by == fast.last_day == fast.moved_on
    assert state_words(standing(fast, dt.date(2026, 2, 1))).endswith("eat at once")
    assert standing(fast, dt.date(2026, 2, 2)).state == "throw out"


def test_only_thawed_food_past_its_day_is_worded_as_throw_out() -> None:
    for state, words in WORDS.items():
        assert ("throw" in f"{state} {words}") == (state == "throw out")
    assert "stays safe" in WORDS["safe but fading"]


def test_the_list_begins_with_what_thaws_then_goes_by_use_by() -> None:
    later = replace(STEW, key="B1", use_by=dt.date(2026, 5, 1))
    sooner = replace(STEW, key="C1", use_by=dt.date(2026, 4, 1))
    kept = Stock({each.key: each for each in (later, MOVED, sooner)}, frozenset(), {})
    listed = standings(kept, dt.date(2026, 2, 3))
    assert [each.stored.key for each in listed] == [MOVED.key, "C1", "B1"]


@pytest.mark.parametrize(
    ("today", "days", "found"),
    [
        (dt.date(2026, 3, 1), 8, 0),
        (dt.date(2026, 3, 1), 9, 1),
        (dt.date(2026, 3, 11), 29, 0),
        (dt.date(2026, 3, 11), 30, 1),
        (dt.date(2026, 4, 11), 0, 1),
    ],
)
def test_due_is_what_ends_within_the_days_or_has_no_end(
    today: dt.date, days: int, found: int
) -> None:
    assert len(due([standing(STEW, today)], today, days)) == found


@pytest.mark.parametrize(
    ("hours", "fill", "opened", "cold"),
    [
        (24, "half", False, True),
        (25, "half", False, False),
        (48, "full", False, True),
        (49, "full", False, False),
        (1, "full", True, False),
    ],
)
def test_a_power_cut_by_the_published_hours(
    hours: float, fill: str, opened: bool, cold: bool
) -> None:
    raw = replace(STEW, key="R1", state="raw-kit", grams=2000)
    small = replace(STEW, key="S1", grams=300)
    stock = [standing(each, PACKED) for each in (STEW, raw, small)]
    assert fill in {"full", "half"}
    said = outage(stock, hours, "full" if fill == "full" else "half", opened=opened)
    assert said.cold is cold
    assert [each.stored.key for each in said.look_at] == ([] if cold else ["R1", "S1", STEW.key])
    # Even in time it is only what is still frozen that stays.
    assert any("can stay" in line for line in said.advice) is cold
    assert any("ice crystals" in line.lower() for line in said.advice)
    assert "FoodSafety.gov" in said.source


def test_what_stood_in_the_refrigerator_is_named_apart() -> None:
    stock = [standing(each, dt.date(2026, 2, 2)) for each in (STEW, MOVED)]
    said = outage(stock, 30, "half", opened=False)
    assert [each.stored.key for each in said.in_refrigerator] == [MOVED.key]
    assert [each.stored.key for each in said.look_at] == [STEW.key]
    assert not said.refrigerator_cold
    assert "Throw out all perishable food" in " ".join(said.refrigerator_advice)
