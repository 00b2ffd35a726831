"""No food-safety limit that a disturbed day breaks goes untold on the screen."""

from __future__ import annotations

import random
from collections.abc import Callable
from pathlib import Path

from pressed_screen import Screen
from retimed import food_breaches

from batchcook.plan import read_plan
from batchcook.plans.network import network_of_plan
from batchcook.quantities import ureg
from batchcook.scheduling.retiming import retime

SAMPLE = Path(__file__).parents[2] / "output_samples" / "prep-day"

_TOLD = frozenset({"time-out", "time-out-hot-room", "straight-on"})

MISSED = """(days) => days.map((times) => {
  const k = kitchenScreen;
  const bare = { started: {}, ended: {}, food: {} };
  k.day.tasks.forEach((task, i) => { [bare.started[i], bare.ended[i]] = times[task.id]; });
  Object.assign(k.state(), bare);
  const order = k.day.tasks.map((task) => times[task.id]);
  const end = Math.max(...order.map((time) => time[1]));
  return k.clockStates(order, end).filter(({ phase }) => phase === "missed")
    .map(({ clock }) => k.day.dishes[clock.dish].id);
})"""


def test_whatever_the_replay_of_a_day_throws_out_the_screen_says_to_throw_out(
    shown: Callable[..., Screen],
) -> None:
    plan = read_plan(SAMPLE)
    network = network_of_plan(plan)
    dice = random.Random(6)  # noqa: S311 - the same days every time, nothing secret
    days = [
        retime(
            network,
            {
                name: round(step.minutes * dice.choice((1.5, 3, 6)))
                for name, step in network.steps.items()
                if dice.random() < 0.15
            },
            as_scheduled=True,
        )
        for _ in range(40)
    ]
    told = shown(plan).page.evaluate(MISSED, [dict(times) for times in days])
    broken = 0
    for times, on_screen in zip(days, told, strict=True):
        breaches = food_breaches(plan, times, ureg.Quantity(72, "degF"))
        dishes = {breach.dish for breach in breaches if breach.rule in _TOLD}
        broken += bool(dishes)
        assert dishes <= set(on_screen)
    assert broken > 10


def test_a_day_as_planned_throws_nothing_out(shown: Callable[..., Screen]) -> None:
    plan = read_plan(SAMPLE)
    network = network_of_plan(plan)
    times = retime(network, {}, as_scheduled=True)
    assert shown(plan).page.evaluate(MISSED, [dict(times)]) == [[]]
