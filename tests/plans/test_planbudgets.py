"""What plan.json says of the minutes food may be out, against what happens to each food."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

import pytest
from planned_days import planned

from batchcook.complaints import InputFault
from batchcook.foodsafety.clock import minutes_out
from batchcook.foodsafety.events import FoodEvent, tracks
from batchcook.foodsafety.kinds import RAW_MEAT
from batchcook.foodsafety.limits import STRAIGHT_ON_MINUTES, TIME_OUT_MINUTES
from batchcook.plan import Budget, Plan
from batchcook.plans.network import minute_of, network_of_plan
from batchcook.scheduling.retiming import Times, retime
from batchcook.scheduling.watching import watch


@pytest.fixture(scope="module")
def plan() -> Plan:
    return planned(sausage_lentil_soup=1, salmon_potato_cakes=1)


def spent(budget: Budget, times: Times) -> int:
    """Minutes of a budget that a day uses."""
    return sum(
        times[span.after][span.to == "end"] - times[span.before][span.from_ == "end"]
        for span in budget.spans
    )


def as_planned(plan: Plan) -> Times:
    return {
        task.id: (minute_of(plan, task.start), minute_of(plan, task.end)) for task in plan.tasks
    }


DAYS: tuple[dict[str, int], ...] = (
    {"sausage_lentil_soup": 1, "salmon_potato_cakes": 1},
    {"cottage_pie": 1, "lemon_herb_chicken_kit": 1, "chicken_coconut_curry": 1},
    {"beef_barley_stew": 2, "cider_pulled_pork": 1},
)


@pytest.mark.parametrize("orders", DAYS, ids=", ".join)
def test_spans_add_up_to_the_minutes_that_the_events_tell(orders: dict[str, int]) -> None:
    day = planned(**orders)
    events = [FoodEvent(e.dish, e.food, e.kind, e.event, e.at, e.task) for e in day.events]
    straight: Counter[tuple[str, str]] = Counter()
    for track in tracks(events):
        for one, after in pairwise(track.events):
            if one.event == "off-heat" and one.kind in RAW_MEAT:
                straight[track.dish, track.food] += int((after.at - one.at).total_seconds()) // 60
    told = {
        (food[0], minutes - straight[food])
        for food, minutes in minutes_out(events).items()
        if minutes > straight[food]
    }
    spent_by = {(each.dish, spent(each, as_planned(day))) for each in day.budgets}
    assert {each for each in spent_by if each[1]} == told
    assert all(spent(each, as_planned(day)) <= each.limit_minutes for each in day.budgets)
    assert all(0 < each.limit_minutes <= TIME_OUT_MINUTES for each in day.budgets)


def test_what_goes_straight_on_is_set_aside_from_the_clock() -> None:
    day = planned(chicken_coconut_curry=1)
    chicken = [each for each in day.budgets if "chicken" in each.food]
    assert {each.limit_minutes for each in chicken} == {TIME_OUT_MINUTES - STRAIGHT_ON_MINUTES}


def test_food_out_too_long_is_told_though_every_spell_alone_is_short(plan: Plan) -> None:
    network = network_of_plan(plan)
    times = as_planned(plan)
    assert watch(network, times) == []
    place, budget = max(enumerate(plan.budgets), key=lambda each: len(each[1].spans))
    assert len(budget.spans) > 1
    last = budget.spans[-1].after
    late = {**times, last: (times[last][0], times[last][1] + 20)}
    assert budget.spans[-1].to == "end"
    tight = budget.model_copy(update={"limit_minutes": spent(budget, times) + 19})
    budgets = tuple(tight if n == place else each for n, each in enumerate(plan.budgets))
    changed = plan.model_copy(update={"budgets": budgets})
    alarms = [each for each in watch(network_of_plan(changed), late) if each.kind == "budget"]
    assert (1, str(place)) in [(each.over, each.budget) for each in alarms]


def test_food_stays_in_the_cold_while_what_it_is_for_is_late(plan: Plan) -> None:
    """Taken out when planned it would wait for the pan; the clock would run for nothing."""
    network = network_of_plan(plan)
    out = next(each for each in plan.events if each.event == "out")
    span = next(each.spans[0] for each in plan.budgets if each.spans[0].before == out.task)
    cook = next(task.cook for task in plan.tasks if task.id == span.after)
    before = max(
        (task for task in plan.tasks if task.cook == cook and task.id != out.task),
        key=lambda task: (task.end <= out.at, task.end),
    )
    minutes = minute_of(plan, before.end) - minute_of(plan, before.start) + 90
    times = retime(network, {before.id: minutes}, as_scheduled=True)
    planned_out = times[span.after][span.to == "end"] - times[span.before][span.from_ == "end"]
    as_was = as_planned(plan)
    assert times[span.after][0] > as_was[span.after][0] + 30
    assert planned_out <= (
        as_was[span.after][span.to == "end"] - as_was[span.before][span.from_ == "end"]
    )


def test_a_budget_of_no_task_is_named(plan: Plan) -> None:
    first = plan.budgets[0]
    lost = first.spans[0].model_copy(update={"before": "no-such-task"})
    changed = plan.model_copy(
        update={"budgets": (first.model_copy(update={"spans": (lost, *first.spans[1:])}),)}
    )
    with pytest.raises(InputFault, match=r"budgets\[1\]: names 'no-such-task'"):
        network_of_plan(changed)
