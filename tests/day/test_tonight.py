"""Tonight's dinner out of what is cooked."""

import datetime as dt
from dataclasses import replace

from batchcook.cookbook import load_cookbook
from batchcook.day.prepday import PrepDay
from batchcook.day.solving import Effort
from batchcook.day.tonight import Tonight
from batchcook.kitchens.kitchen import default_kitchen
from batchcook.plan import Plan
from batchcook.planning import plan_day

DAY = PrepDay(dt.date(2027, 1, 16), dt.time(14), {"squash-red-lentil-soup": 1}, default_kitchen())


def _planned(at: dt.time) -> Plan:
    day = replace(DAY, tonight=Tonight("squash-red-lentil-soup", 4, at))
    return plan_day(day, load_cookbook(), Effort(seconds=5))


def test_a_dinner_within_the_day_is_plated_at_its_time() -> None:
    plan = _planned(dt.time(15, 40))
    plate = next(task for task in plan.tasks if task.technique == "plate")
    assert plate.end == dt.datetime.combine(DAY.date, dt.time(15, 40))
    assert plate.cook is not None
    assert plan.tonight == ""


def test_dinner_comes_from_the_pot_or_is_warmed_to_165_degf() -> None:
    plan = _planned(dt.time(15, 40))
    plate = next(task for task in plan.tasks if task.technique == "plate")
    warmed = [task for task in plan.tasks if task.technique == "warm"]
    if warmed:
        assert "165 degF" in warmed[-1].title
        assert max(task.end for task in warmed) <= plate.start
    else:
        season = next(task for task in plan.tasks if task.technique in {"season", "simmer"})
        assert season.end <= plate.start


def test_a_dinner_after_the_day_is_set_aside_in_words() -> None:
    plan = _planned(dt.time(20))
    assert not any(task.technique == "plate" for task in plan.tasks)
    assert "19:40" in plan.tonight
    assert "165 degF" in plan.tonight


def test_what_is_eaten_tonight_is_in_no_container() -> None:
    plan = _planned(dt.time(20))
    assert sum(each.portions for each in plan.containers) == plan.dishes[0].servings - 4
