"""Tonight's dinner out of what is cooked."""

import datetime as dt
from dataclasses import replace
from unittest import mock

import pytest
from planned_days import day_of

from batchcook import planning
from batchcook.complaints import InputFault
from batchcook.cookbook import load_cookbook
from batchcook.day.prepday import PrepDay
from batchcook.day.solving import Effort
from batchcook.day.tonight import Tonight, set_aside_words, with_dinner
from batchcook.day.workday import day_work, ordered_dishes
from batchcook.dishwork.work import Work
from batchcook.kitchens.kitchen import default_kitchen
from batchcook.plan import Plan
from batchcook.planning import plan_day
from batchcook.plans.network import minute_of, network_of_plan
from batchcook.replan.replanning import Drift, replan
from batchcook.scheduling.retiming import retime

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


def _planned_by(way: str, at: dt.time, **orders: int) -> Plan:
    """A day from eight, of which the search is left only one of the two ways to its dinner."""

    def one_way(work: Work, tonight: Tonight) -> Work:
        both = with_dinner(work, tonight)
        (choice,) = (each for name, each in both.choices.items() if name.startswith("dinner of "))
        assert way in choice.options
        return replace(both, choices={**both.choices, choice.id: replace(choice, options=(way,))})

    day = replace(day_of(**orders), tonight=Tonight("squash-red-lentil-soup", 3, at))
    with (
        mock.patch.object(planning, "with_dinner", one_way),
        mock.patch.object(planning, "one_after_another", return_value=0),
    ):
        return plan_day(day, load_cookbook(), Effort(seconds=5))


def test_dinner_straight_from_the_pot_is_plated_while_it_is_hot() -> None:
    plan = _planned_by("straight from the pot", dt.time(9, 40), squash_red_lentil_soup=1)
    (plate,) = [task for task in plan.tasks if task.technique == "plate"]
    assert not any(task.technique == "warm" for task in plan.tasks)
    off_heat = [event.at for event in plan.events if event.event == "off-heat"]
    # Half an hour, covered: common practice, no source.
    assert dt.timedelta() <= plate.start - max(off_heat) <= dt.timedelta(minutes=30)
    rest = [task for task in plan.tasks if task.technique in {"cool", "portion"}]
    assert {task.technique for task in rest} == {"cool", "portion"}
    assert all(task.start >= plate.end for task in rest)


def test_dinner_is_plated_for_its_time_however_fast_the_day_goes() -> None:
    plan = _planned_by("straight from the pot", dt.time(9, 40), squash_red_lentil_soup=1)
    (plate,) = [task for task in plan.tasks if task.technique == "plate"]
    network = network_of_plan(plan)
    at_once = retime(network, dict.fromkeys(network.steps, 1))
    assert at_once[plate.id][0] == minute_of(plan, plate.start)
    assert plan.sure is not None
    assert plan.sure.half > plate.end


def test_dinner_from_what_is_packed_is_warmed_to_165_degf() -> None:
    soups = {"sausage_lentil_soup": 1, "squash_red_lentil_soup": 1}
    plan = _planned_by("warmed again", dt.time(10, 55), **soups)
    (plate,) = [task for task in plan.tasks if task.technique == "plate"]
    fill, warm = [task for task in plan.tasks if task.technique == "warm"]
    assert "165 degF" in warm.title
    assert fill.end <= warm.start
    assert dt.timedelta() <= plate.start - warm.end <= dt.timedelta(minutes=5)


def test_a_dinner_after_the_day_is_set_aside_in_words() -> None:
    plan = _planned(dt.time(20))
    assert not any(task.technique == "plate" for task in plan.tasks)
    assert "19:40" in plan.tonight
    assert "165 degF" in plan.tonight
    assert plan.tonight_at == dt.datetime.combine(DAY.date, dt.time(19, 40))


def test_one_portion_is_told_as_one() -> None:
    warm = dt.datetime.combine(DAY.date, dt.time(18, 40))
    told = set_aside_words(Tonight("soup", 1, dt.time(19)), "Soup", warm)
    assert "keep 1 portion of Soup" in told
    assert "warm it to 165 degF" in told


def test_nothing_is_kept_for_tonight_of_a_dish_that_is_given_up() -> None:
    orders = {"squash-red-lentil-soup": 1, "sausage-lentil-soup": 1}
    day = replace(DAY, orders=orders, tonight=Tonight("squash-red-lentil-soup", 4, dt.time(22)))
    with mock.patch.object(planning, "one_after_another", return_value=0):
        plan = plan_day(day, load_cookbook(), Effort(seconds=5))
    at = plan.start + dt.timedelta(minutes=20)
    other = replan(plan, Drift(at, None, {}, (), ("sausage-lentil-soup",)), Effort(seconds=5))
    assert other.tonight == plan.tonight != ""
    without = replan(plan, Drift(at, None, {}, (), ("squash-red-lentil-soup",)), Effort(seconds=5))
    assert without.tonight == ""
    assert without.tonight_at is None


@pytest.mark.parametrize(("at", "within"), [(dt.time(16, 40), True), (dt.time(18), False)])
def test_a_day_with_a_finish_alone_is_put_to_its_time_before_its_dinner_is_seen_to(
    at: dt.time, within: bool
) -> None:
    """Done by 17:00: a dinner at 16:40 is plated, and none is warmed before it is cooked."""
    day = replace(
        DAY, start=None, finish_by=dt.time(17), tonight=Tonight("squash-red-lentil-soup", 4, at)
    )
    with mock.patch.object(planning, "one_after_another", return_value=0):
        plan = plan_day(day, load_cookbook(), Effort(seconds=5))
    plates = [task.end.time() for task in plan.tasks if task.technique == "plate"]
    assert plates == ([at] if within else [])
    assert bool(plan.tonight) is not within
    assert plan.finish.time() <= dt.time(17)


def test_what_is_eaten_tonight_is_in_no_container() -> None:
    plan = _planned(dt.time(20))
    assert sum(each.portions for each in plan.containers) == plan.dishes[0].servings - 4


def _work(dish: str) -> tuple[Work, Tonight]:
    tonight = Tonight(dish, 2, dt.time(16))
    day = replace(DAY, orders={dish: 1}, tonight=tonight)
    return day_work(ordered_dishes(day, load_cookbook()), day), tonight


@pytest.mark.parametrize(
    ("dish", "words"),
    [
        ("lemon-herb-chicken-kit", "is packed raw"),
        ("spinach-ricotta-shells", "is packed only part-baked"),
    ],
)
def test_no_raw_or_half_done_dish_is_dinner(dish: str, words: str) -> None:
    orders = {"squash-red-lentil-soup": 1, dish: 1}
    day = replace(DAY, orders=orders, tonight=Tonight(dish, 2, dt.time(16)))
    with pytest.raises(InputFault, match=words) as fault:
        ordered_dishes(day, load_cookbook())
    assert "squash-red-lentil-soup" in str(fault.value)


def test_dinner_is_not_before_the_day_begins() -> None:
    day = replace(DAY, tonight=Tonight("squash-red-lentil-soup", 2, dt.time(13)))
    with pytest.raises(InputFault, match="dinner at 13:00, and the day begins at 14:00"):
        ordered_dishes(day, load_cookbook())


@pytest.mark.parametrize("dish", ["cider-pulled-pork", "salmon-potato-cakes", "beef-barley-stew"])
def test_a_dinner_from_the_pot_waits_until_the_dish_is_done(dish: str) -> None:
    work, tonight = _work(dish)
    done = with_dinner(work, tonight)
    cooling = {job.id for job in work.jobs if job.technique == "cool"}
    last = {each.before for each in work.links if each.after == f"{dish}/portion"} - cooling
    assert last
    waits = {each.before for each in done.links if each.after == f"{dish}/plate"}
    assert last <= waits


def test_what_nothing_heats_is_never_eaten_from_the_pot() -> None:
    work, tonight = _work("squash-red-lentil-soup")
    with pytest.raises(InputFault, match="comes off heat"):
        with_dinner(replace(work, streams=()), tonight)
