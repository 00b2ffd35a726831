"""Why a day cannot be done, in kitchen words."""

import datetime as dt
from dataclasses import replace
from pathlib import Path

import pytest

from batchcook.cookbook import load_cookbook
from batchcook.day.clashwords import limit_words
from batchcook.day.formulation import formulate
from batchcook.day.prepday import Busy, PrepDay
from batchcook.day.solving import Effort, NoPlan
from batchcook.day.tonight import Tonight
from batchcook.dishwork.dishes import dish_work
from batchcook.dishwork.draft import Dish
from batchcook.kitchens.kitchen import Away, Vessels, default_kitchen
from batchcook.planning import plan_day
from batchcook.quantities import ureg
from batchcook.scheduling.conflict import Conflict, Reference

KITCHEN = default_kitchen()
DAY = PrepDay(
    dt.date(2027, 1, 16),
    dt.time(8),
    {"cider-pulled-pork": 1, "squash-red-lentil-soup": 1},
    KITCHEN,
    finish_by=dt.time(12, 30),
)


ONE_SMALL_SKILLET = replace(KITCHEN, skillets=(Vessels(ureg.Quantity(10, "inch"), 1),))


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


def test_an_hour_for_a_day_of_hours_is_answered_with_when_to_finish_and_when_to_start() -> None:
    """As far off as this no repair by minutes goes; each offer is planned again here."""
    day = replace(DAY, start=dt.time(9), finish_by=dt.time(10), orders={"cottage-pie": 1})
    told = _told(day)
    offers = {
        word: dt.time.fromisoformat(told.split(f"{word} ")[1][:5])
        for word in ("finish by", "start at")
    }
    for changed in (
        replace(day, finish_by=offers["finish by"]),
        replace(day, start=offers["start at"]),
    ):
        plan = plan_day(changed, load_cookbook(), Effort(seconds=5))
        assert changed.finish_by is not None
        assert plan.finish.time() <= changed.finish_by
    # The day takes as long either way: nothing in this kitchen is bound to a time of day.
    lengths = {line.split(" takes ")[1] for line in told.splitlines() if " takes " in line}
    assert len(lengths) == 1


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


def test_pans_taken_until_the_day_ends_clash_and_one_more_would_do(tmp_path: Path) -> None:
    cakes = load_cookbook()["salmon-potato-cakes"]
    text = cakes.path.read_text("utf-8").replace(f'title = "{cakes.title}"', 'title = "Fish cakes"')
    (tmp_path / "fish-cakes.toml").write_text(text, "utf-8")
    day = PrepDay(DAY.date, dt.time(8), {"fish-cakes": 3, "salmon-potato-cakes": 2}, KITCHEN)
    with pytest.raises(NoPlan) as caught:
        plan_day(day, load_cookbook([tmp_path]), Effort(seconds=5))
    told = str(caught.value)
    assert "there are 4 sheet pans of 13x18 inch" in told
    assert (
        "3 sheet pans of 13x18 inch are in use from 'Shape on the sheet pan (Fish cakes)'" in told
    )
    assert "- 1 sheet pan of 13x18 inch more" in told
    assert "- 2 of Fish cakes instead of 3" in told


def test_another_pan_is_offered_where_filling_one_again_takes_too_long() -> None:
    (sheets,) = KITCHEN.sheet_pans
    kitchen = replace(KITCHEN, sheet_pans=(replace(sheets, count=1),))
    day = PrepDay(DAY.date, dt.time(8), {"squash-red-lentil-soup": 4}, kitchen)
    assert "- 1 sheet pan of 13x18 inch more" in _told(day)
    two = replace(kitchen, sheet_pans=(replace(sheets, count=2),))
    assert plan_day(replace(day, kitchen=two), load_cookbook(), Effort(seconds=5)).tasks


def test_a_dish_that_its_skillets_do_not_brown_in_time_is_refused_with_the_reason() -> None:
    told = _told(PrepDay(DAY.date, dt.time(8), {"chicken-coconut-curry": 4}, ONE_SMALL_SKILLET))
    assert "there is 1 skillet of 10 inch" in told
    assert "the curry pot is hot and waits to be filled" in told
    assert "- 2 of Chicken coconut curry instead of 4" in told


def test_what_begins_by_itself_is_not_told_as_a_limit() -> None:
    """Food bakes from when it is in the oven: at most 0 min apart, which helps nobody."""
    day = PrepDay(DAY.date, dt.time(8), {"turkey-meatballs": 1}, KITCHEN)
    work = dish_work(Dish(load_cookbook()["turkey-meatballs"], 1, "bowl"), KITCHEN)
    formulation = formulate(work, day)

    def told(before: str, after: str) -> list[str]:
        (number,) = (
            number
            for number, lag in enumerate(formulation.problem.lags)
            if (lag.before, lag.after)
            == (f"turkey-meatballs/{before}", f"turkey-meatballs/{after}")
            and lag.high is not None
        )
        limits = (Reference("lag", str(number)), Reference("capacity", "oven"))
        return list(limit_words(Conflict(limits, proved=True, minimal=True), formulation))

    assert told("bake/in", "bake/oven") == ["there are 2 oven shelves"]
    out, shelves = told("bake/oven", "bake/out")
    assert "dries out in the oven" in out
    assert shelves == "there are 2 oven shelves"


def test_dishes_impossible_by_themselves_are_left_out_together() -> None:
    orders = {"beef-barley-stew": 4, "cider-pulled-pork": 1, "squash-red-lentil-soup": 1}
    one_cook = replace(KITCHEN, cooks=KITCHEN.cooks[:1])
    day = PrepDay(DAY.date, dt.time(8), orders, one_cook, finish_by=dt.time(13))
    assert "- leave out Beef barley stew and Cider pulled pork" in _told(day)


def test_what_is_wanted_elsewhere_is_not_said_to_be_away() -> None:
    cake = Busy("oven", 4, dt.time(9), dt.time(12), "a cake")
    day = PrepDay(DAY.date, dt.time(8), {"cottage-pie": 1}, KITCHEN, dt.time(12), busy=(cake,))
    told = _told(day)
    assert "2 oven shelves are wanted elsewhere from 09:00 to 12:00" in told
    assert "oven free" in told


def test_no_change_is_offered_that_leaves_no_time_for_the_dinner() -> None:
    """Fewer pans or batches do not make a dinner possible that is too early for any of them."""
    day = PrepDay(
        DAY.date,
        dt.time(8),
        {"salmon-potato-cakes": 2, "squash-red-lentil-soup": 1},
        KITCHEN,
        tonight=Tonight("squash-red-lentil-soup", 2, dt.time(8, 10)),
    )
    told = _told(day)
    assert "dinner" in told
    assert "sheet pan" not in told
    assert "salmon" not in told.lower().split("any one of these")[-1]
