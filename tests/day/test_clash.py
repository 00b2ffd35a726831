"""Why a day cannot be done, in kitchen words."""

import datetime as dt
from dataclasses import replace

import pytest

from batchcook.cookbook import load_cookbook
from batchcook.day.prepday import PrepDay
from batchcook.day.solving import Effort, NoPlan
from batchcook.kitchens.kitchen import Away, default_kitchen
from batchcook.planning import plan_day

KITCHEN = default_kitchen()
DAY = PrepDay(
    dt.date(2027, 1, 16),
    dt.time(8),
    {"cider-pulled-pork": 1, "squash-red-lentil-soup": 1},
    KITCHEN,
    finish_by=dt.time(12, 30),
)


def _told(day: PrepDay) -> str:
    with pytest.raises(NoPlan) as caught:
        plan_day(day, load_cookbook(), Effort(seconds=5))
    return str(caught.value)


def test_a_dish_longer_than_the_day_is_named_with_both_lengths() -> None:
    told = _told(DAY)
    assert "Cider pulled pork needs" in told
    assert "between 08:00 and 12:30 there are 4 h 30 min" in told


def test_the_changes_offered_can_be_done() -> None:
    told = _told(DAY)
    assert "leave out Cider pulled pork" in told
    later = next(line for line in told.splitlines() if "finish by" in line)
    finish = dt.time.fromisoformat(later.split("finish by ")[1][:5])
    plan = plan_day(replace(DAY, finish_by=finish), load_cookbook(), Effort(seconds=5))
    assert plan.finish.time() <= finish


def test_cooks_who_are_away_are_named_with_their_time() -> None:
    gone = Away(dt.time(8, 30), dt.time(12), "school")
    cooks = tuple(replace(cook, away=(gone,)) for cook in KITCHEN.cooks)
    day = PrepDay(
        DAY.date,
        dt.time(8),
        {"squash-red-lentil-soup": 1},
        replace(KITCHEN, cooks=cooks),
        finish_by=dt.time(12, 30),
    )
    told = _told(day)
    assert "from 08:30 to 12:00" in told
    assert "First cook" in told


def test_limits_of_food_safety_are_never_offered_as_a_change() -> None:
    changes = _told(DAY).split("Any one of these would do:")[1]
    assert "degF" not in changes
    assert "refrigerat" not in changes
