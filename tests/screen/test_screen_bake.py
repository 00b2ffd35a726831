"""A bake on the kitchen screen: its clock runs to the minute at which it is taken out."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta

from counter_day import counter_day
from playwright.sync_api import expect
from pressed_screen import Screen

from batchcook.plan import Lag, Plan


def baked_day() -> Plan:
    """The short day with an oven that is kept until the pie is out, as planned days have it."""
    plan = counter_day()
    tasks = tuple(
        each.model_copy(update={"station": "oven", "end": each.end + timedelta(minutes=3)})
        if each.id == "pie/bake"
        else each
        for each in plan.tasks
    )
    common = {"before": "pie/bake", "after": "pie/out"}
    out = (
        Lag.model_validate(
            common | {"from": "start", "to": "start", "min_minutes": 30, "max_minutes": 31}
        ),
        Lag.model_validate(
            common | {"from": "end", "to": "end", "min_minutes": -1, "max_minutes": None}
        ),
    )
    kept = tuple(each for each in plan.lags if (each.before, each.after) != tuple(common.values()))
    return plan.model_copy(update={"tasks": tasks, "lags": kept + out})


def test_its_timer_rings_when_it_is_to_come_out(shown: Callable[..., Screen]) -> None:
    screen = shown(baked_day())
    screen.begin()
    screen.follow_the_plan(until=45)
    screen.wait(62 - screen.page.evaluate("kitchenScreen.minuteNow()"))
    timer = screen.timer("Bake the pie")
    expect(timer.get_by_role("timer")).to_contain_text("9:50 min")
    expect(timer).not_to_contain_text("look whether it is done")
    screen.wait(10)
    expect(timer).to_contain_text("look whether it is done")
    assert screen.faults == []
