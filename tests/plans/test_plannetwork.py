from __future__ import annotations

import dataclasses
import datetime as dt
import json
import random
from functools import cache

import pytest

from batchcook import plan
from batchcook.complaints import InputFault
from batchcook.cookbook import load_cookbook
from batchcook.day import assembly
from batchcook.day.formulation import formulate
from batchcook.day.prepday import PrepDay
from batchcook.day.workday import day_work
from batchcook.dishwork.bowls import bowl_names
from batchcook.dishwork.draft import Dish
from batchcook.kitchens.kitchen import default_kitchen
from batchcook.pacing.spreads import plan_spreads
from batchcook.plans.network import minute_of, network_of_plan
from batchcook.scheduling.flownetwork import FlowNetwork
from batchcook.scheduling.listing import list_schedule
from batchcook.scheduling.retiming import Times, retime
from batchcook.scheduling.risk import Lognormal, simulate
from batchcook.scheduling.scheduleflow import network_of
from batchcook.scheduling.watching import watch

_START = dt.datetime(2027, 1, 16, 8, 0)  # noqa: DTZ001 - plans hold wall-clock times
_SUMMARY = plan.Summary(
    makespan_minutes=0,
    best_bound_minutes=0,
    proved_shortest=False,
    one_after_another_minutes=0,
    hands_on_minutes=0,
)


def _at(minute: int) -> dt.datetime:
    return _START + dt.timedelta(minutes=minute)


def _task(name: str, start: int, end: int, technique: str = "mix", **uses: int) -> plan.Task:
    named = {key.replace("_", ":"): amount for key, amount in uses.items()}
    return plan.Task(
        id=name,
        title=name,
        technique=technique,
        start=_at(start),
        end=_at(end),
        cook="ann" if "cook_ann" in uses else None,
        uses=named,
    )


def _plan(**changes: object) -> plan.Plan:
    """Chop with its clean-down, a pot from filling to washing, two bakes at two temperatures."""
    fields = {
        "date": _START.date(),
        "start": _START,
        "finish": _at(120),
        "summary": _SUMMARY,
        "cooks": (plan.Cook(id="ann", name="Ann"),),
        "dishes": (),
        "resources": (
            plan.Resource(
                id="cook:ann",
                capacity=1,
                away=(plan.Absence.model_validate({"from": _at(45), "to": _at(50), "amount": 1}),),
            ),
            plan.Resource(id="pot", capacity=1),
            plan.Resource(id="oven", capacity=2),
        ),
        "tasks": (
            _task("chop", 0, 10, cook_ann=1),
            _task("chop/clean-down", 10, 12, "clean-down", cook_ann=1),
            _task("fill", 12, 15, cook_ann=1),
            _task("wash", 40, 45, "wash", cook_ann=1),
            _task("refill", 50, 55, cook_ann=1),
            _task("oven/to-350-1", 0, 12, "preheat", oven=2),
            _task("pie", 12, 42, "bake", oven=1),
            _task("oven/to-400-2", 42, 50, "preheat", oven=2),
            _task("roast", 50, 80, "bake", oven=1),
        ),
        "lags": (
            plan.Lag.model_validate(
                {
                    "before": "fill",
                    "from": "end",
                    "after": "wash",
                    "to": "start",
                    "min_minutes": 25,
                    "max_minutes": 40,
                    "reason": "dries out",
                }
            ),
        ),
        "occupancies": (
            plan.Occupancy(resource="pot", amount=1, from_task="fill", to_task="wash"),
            plan.Occupancy(resource="pot", amount=1, from_task="refill", to_task="refill"),
        ),
        "settings": (
            plan.Setting(resource="oven", task="pie", degF=350),
            plan.Setting(resource="oven", task="roast", degF=400),
        ),
    }
    return plan.Plan.model_validate({**fields, **changes})


def _ordered(**day: object) -> plan.Plan:
    """The same, with what its day was ordered with."""
    return _plan(order=plan.Order(day=day, recipes=()))


def test_a_plan_that_goes_as_planned_is_the_planned_one() -> None:
    made = _plan()
    times = retime(network_of_plan(made), {}, as_scheduled=True)
    for task in made.tasks:
        assert times[task.id] == (minute_of(made, task.start), minute_of(made, task.end))


def test_a_pot_is_filled_again_once_it_is_washed_and_the_cook_is_back() -> None:
    network = network_of_plan(_plan())
    assert retime(network, {"fill": 2})["refill"][0] == 50
    late = retime(network, {"fill": 20})
    assert late["wash"] == (57, 62)
    assert late["refill"][0] == 62


def test_washing_that_would_run_into_a_time_away_waits_and_is_told_if_too_late() -> None:
    network = network_of_plan(_plan())
    times = retime(network, {"fill": 5})
    assert times["wash"][0] == 50
    (alarm,) = watch(network, retime(network, {"wash": 4}, fixed={"fill": (0, 9)}, now=60))
    assert (alarm.kind, alarm.ids, alarm.reason) == ("lag", ("fill", "wash"), "dries out")


def test_the_oven_is_turned_up_only_when_the_first_bake_is_out() -> None:
    times = retime(network_of_plan(_plan()), {"pie": 60})
    assert times["oven/to-400-2"] == (72, 80)
    assert times["roast"] == (80, 110)


def test_a_clean_down_follows_its_work() -> None:
    times = retime(network_of_plan(_plan()), {"chop": 25})
    assert times["chop/clean-down"] == (25, 27)


def test_all_names_that_a_plan_does_not_list_are_told_at_once() -> None:
    faulty = _plan(
        occupancies=(plan.Occupancy(resource="pott", amount=1, from_task="fil", to_task="wash"),),
        settings=(),
    )
    with pytest.raises(InputFault) as fault:
        network_of_plan(faulty)
    assert [each.suggestion for each in fault.value.complaints] == ["fill", "pot"]


def test_a_plan_that_uses_more_than_there_is_is_refused() -> None:
    with pytest.raises(InputFault, match="minute 12: 1 of oven too much"):
        network_of_plan(_plan(tasks=(*_plan().tasks, _task("tart", 12, 20, "bake", oven=2))))


@cache
def _real() -> tuple[plan.Plan, FlowNetwork]:
    """A day of two starter recipes, scheduled by list, as its plan tells it."""
    recipes = [load_cookbook()[name] for name in ("beef-barley-stew", "cottage-pie")]
    day = PrepDay(
        date=_START.date(),
        start=_START.time(),
        orders={recipe.id: 2 for recipe in recipes},
        kitchen=default_kitchen(),
        finish_by=None,
        system="us",
    )
    bowls = bowl_names(recipes)
    dishes = tuple(Dish(recipe, 2, bowls[recipe.id], "us") for recipe in recipes)
    formulation = formulate(day_work(dishes, day), day)
    schedule = list_schedule(formulation.problem, samples=8)
    assert schedule is not None
    tasks = assembly.tasks(formulation, schedule, assembly.runs_of(formulation, schedule))
    made = plan.Plan(
        date=day.date,
        start=_START,
        finish=max(task.end for task in tasks),
        summary=_SUMMARY,
        cooks=(),
        dishes=(),
        resources=assembly.resources(formulation, day.kitchen),
        tasks=tasks,
        lags=assembly.lags(formulation, schedule),
        occupancies=assembly.occupancies(formulation, schedule),
        settings=assembly.settings(schedule, formulation),
    )
    return made, network_of(formulation.problem, schedule)


def _overuse(made: plan.Plan, times: Times) -> list[str]:
    """Every resource counted at every start, from the plan's own lists."""
    uses = [
        (resource, amount, *times[task.id])
        for task in made.tasks
        for resource, amount in task.uses.items()
    ]
    uses += [
        (each.resource, each.amount, times[each.from_task][0], times[each.to_task][1])
        for each in made.occupancies
    ]
    capacities = {each.id: each.capacity for each in made.resources}
    return [
        f"{resource} at {start}"
        for resource, _, start, _ in uses
        if sum(a for r, a, s, e in uses if r == resource and s <= start < e) > capacities[resource]
    ]


def test_a_real_plan_lived_with_other_durations_uses_nothing_twice() -> None:
    made, _ = _real()
    network = network_of_plan(made)
    assert watch(network, retime(network, {})) == []
    rng = random.Random(1)  # noqa: S311 - variety, not secrecy
    for _ in range(10):
        durations = {
            name: max(1, round(step.minutes * rng.uniform(0.6, 2.0)))
            for name, step in network.steps.items()
        }
        assert _overuse(made, retime(network, durations)) == []


def test_a_real_plan_has_the_steps_of_the_schedule_behind_it() -> None:
    made, behind = _real()
    network = network_of_plan(made)
    tasks = {task.id for task in made.tasks if task.technique != "preheat"}
    assert {
        name: (step.start, step.end) for name, step in behind.steps.items() if name in tasks
    } == {name: (step.start, step.end) for name, step in network.steps.items() if name in tasks}


def test_a_learned_spread_takes_the_place_of_the_tables_for_work_by_hand() -> None:
    by_table = plan_spreads(_plan())
    learned = plan_spreads(_ordered(scatter={"mix": 0.1, "bake": 0.1}))
    assert learned["fill"] == Lognormal(1.0, 0.1)
    assert learned["pie"] == by_table["pie"]
    assert set(learned) == set(by_table) == {task.id for task in _plan().tasks}


def test_minutes_to_spare_do_not_make_the_work_itself_longer() -> None:
    plain, padded = plan_spreads(_plan()), plan_spreads(_ordered(pad=25))
    assert padded["fill"].quantile(0.9) == pytest.approx(plain["fill"].quantile(0.9) / 1.25)
    untouched = ("pie", "chop/clean-down", "oven/to-350-1")
    assert all(padded[name] == plain[name] for name in untouched)
    both = plan_spreads(_ordered(pad=25, scatter={"mix": 0.1}))
    assert both["fill"] == Lognormal(0.8, 0.1)


def test_a_network_can_be_written_as_json_for_the_page() -> None:
    network = network_of_plan(_plan())
    written = json.loads(json.dumps(dataclasses.asdict(network)))
    assert list(written["steps"]) == list(network.steps)
    assert len(written["arcs"]) == len(network.arcs)


def test_the_risk_of_a_real_plan_lies_beyond_its_finish() -> None:
    made, _ = _real()
    risk = simulate(network_of_plan(made), plan_spreads(made), days=500)
    finish = minute_of(made, made.finish)
    assert 0.9 * finish < risk.done_by(0.1) < risk.done_by(0.5) < risk.done_by(0.9) < 1.5 * finish
    assert risk.criticality["day/cleanup"] == 1.0
