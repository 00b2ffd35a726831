"""A dish given up that shared its boiling or its softening: the others still get theirs."""

from __future__ import annotations

import datetime as dt
import json

import pytest
from plan_oracle import breaches
from planned_days import day_of, planned, starter

from batchcook.day.solving import Effort
from batchcook.day.workday import day_work, ordered_dishes
from batchcook.plan import Plan, Task, write_plan
from batchcook.replan.dropping import clearing_job, without_dishes
from batchcook.replan.replanning import Drift, replan
from batchcook.replan.sharedpots import leads_to_shared

EFFORT = Effort(8.0)
BOTH = {"cottage-pie", "salmon-potato-cakes"}


def _day() -> Plan:
    """A day on which two dishes boil their potatoes in one pot, the pie's."""
    return planned(cottage_pie=1, salmon_potato_cakes=1, cider_pulled_pork=1)


def _boiling(plan: Plan) -> list[Task]:
    return [task for task in plan.tasks if task.technique == "boil" and task.cook is None]


def _without_pie(at: dt.datetime) -> Plan:
    return replan(_day(), Drift(at, drop=("cottage-pie",)), EFFORT)


@pytest.fixture(name="together")
def _together() -> Task:
    (together,) = _boiling(_day())
    assert set(together.dishes) == BOTH
    return together


def test_before_it_is_boiled_each_goes_back_to_its_own_pot(together: Task) -> None:
    after = _without_pie(together.start - dt.timedelta(minutes=20))
    (boiled,) = _boiling(after)
    assert set(boiled.dishes) == {"salmon-potato-cakes"}
    assert boiled.end - boiled.start < together.end - together.start
    assert breaches(json.loads(write_plan(after))) == []


def test_while_it_boils_the_pot_stays_on_until_the_others_share_is_out(together: Task) -> None:
    after = _without_pie(together.start + dt.timedelta(minutes=5))
    tasks = {task.id: task for task in after.tasks}
    assert tasks[together.id].end == together.end
    drained = next(task for task in after.tasks if task.technique == "drain")
    washed = tasks["cottage-pie/wash/potato-pot"]
    assert together.end <= drained.start < drained.end <= washed.start
    assert breaches(json.loads(write_plan(after))) == []


def test_the_water_of_a_dropped_dish_goes_on_heating_for_the_next() -> None:
    plan = _day()
    (together,) = _boiling(plan)
    alone = together.model_copy(update={"dishes": {"cottage-pie": "1 batch"}})
    tasks = tuple(alone if task is together else task for task in plan.tasks)
    plan = plan.model_copy(update={"tasks": tasks})
    assert together.id in leads_to_shared(plan, {"cottage-pie"})
    assert not leads_to_shared(plan, {"cider-pulled-pork"})


def test_every_dropped_dish_is_cleared_away_soon() -> None:
    day = day_of(squash_red_lentil_soup=1, sausage_lentil_soup=1)
    work = day_work(ordered_dishes(day, starter()), day)
    begun = {next(job.id for job in work.jobs if set(job.dishes) == {dish}) for dish in day.orders}
    after = without_dishes(work, dict.fromkeys(day.orders, "Soup"), begun)
    soon = {link.after for link in after.links if link.weight}
    assert {clearing_job(dish) for dish in day.orders} <= soon
