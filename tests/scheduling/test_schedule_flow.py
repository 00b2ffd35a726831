"""Random days, listed, then lived through with other durations than planned."""

from __future__ import annotations

import random
from dataclasses import replace
from functools import cache

import pytest

from batchcook.scheduling.check import check
from batchcook.scheduling.flownetwork import Arc, FlowNetwork
from batchcook.scheduling.handovers import Draft, connect
from batchcook.scheduling.listing import list_schedule
from batchcook.scheduling.problem import (
    Absence,
    Budget,
    Family,
    Lag,
    Mode,
    Occupancy,
    Problem,
    Resource,
    Span,
    Task,
)
from batchcook.scheduling.retiming import Times, retime
from batchcook.scheduling.schedule import Schedule, WarmUp
from batchcook.scheduling.scheduleflow import clean_down_of, network_of, warm_up_of
from batchcook.scheduling.watching import watch

_SEEDS = range(40)
_HORIZON = 400
_USES = {"capacities", "units", "settings"}


def _rng(seed: int) -> random.Random:
    return random.Random(seed)  # noqa: S311 - variety, not secrecy


def _resources(rng: random.Random, *, away: bool) -> list[Resource]:
    start = rng.randint(20, 60)
    cooks = Resource("cooks", 2, units=("ann", "bo"))
    burners = Resource("burner", 3)
    if away:
        gone = (Absence(start, start + 25, 1),)
        cooks = replace(cooks, absences=gone, absence_units=(("bo",),))
        burners = replace(burners, absences=(Absence(start + 10, start + 30, 2),))
    return [cooks, burners, Resource("pot", 2), Resource("oven", 2, warm_up=9, keeps=5)]


def _problem(seed: int, *, away: bool) -> Problem:
    """Runs of cutting, pots kept from the first filling to the washing, bakes, tight lags."""
    rng = _rng(seed)
    tasks: list[Task] = []
    lags: list[Lag] = []
    occupancies: list[Occupancy] = []
    budgets: list[Budget] = []

    def add(name: str, minutes: int, family: str | None = None, **demands: int) -> str:
        settings = (350, 400)[: rng.randint(1, 2)][-1:] if "oven" in demands else ()
        tasks.append(Task(name, (Mode("hands", minutes, demands),), (), family, settings))
        return name

    for dish in range(rng.randint(2, 4)):
        cuts = [
            add(f"{dish}/cut {each}", rng.randint(3, 9), each, cooks=1)
            for each in rng.sample(["onion", "leek"], rng.randint(1, 2))
        ]
        ready = add(f"{dish}/ready", 0)
        fills = [add(f"{dish}/fill {n}", rng.randint(3, 8), cooks=1) for n in range(2)]
        cook = add(f"{dish}/cook", rng.randint(10, 30), burner=rng.randint(1, 2))
        bake = add(f"{dish}/bake", rng.randint(10, 30), oven=1)
        pack = add(f"{dish}/pack", rng.randint(4, 9), cooks=rng.randint(1, 2))
        wash = add(f"{dish}/wash", rng.randint(2, 5), cooks=1)
        lags += [Lag(cut, "end", ready, "start") for cut in cuts]
        lags += [Lag(ready, "end", fill, "start") for fill in fills]
        lags += [Lag(fill, "end", cook, "start", 0, 40) for fill in fills]
        lags += [
            Lag(cook, "end", bake, "start", 0, 45),
            Lag(bake, "end", pack, "start", rng.randint(0, 5), 60),
            Lag(pack, "end", wash, "start"),
            Lag(cook, "start", pack, "end", -3, None),
        ]
        occupancies.append(Occupancy(f"pot of {dish}", "pot", 1, tuple(fills), wash))
        spans = (Span(cook, "end", bake, "start"), Span(bake, "end", pack, "start"))
        budgets.append(Budget(f"out of heat {dish}", spans, 60))
    return Problem(
        resources={each.id: each for each in _resources(rng, away=away)},
        tasks={task.id: task for task in tasks},
        horizon=_HORIZON,
        lags=tuple(lags),
        budgets=tuple(budgets),
        occupancies=tuple(occupancies),
        families={name: Family(name, 2, 3) for name in ("onion", "leek")},
    )


@cache
def _days(away: bool) -> list[tuple[Problem, Schedule, FlowNetwork]]:
    days = []
    for seed in _SEEDS:
        problem = _problem(seed, away=away)
        schedule = list_schedule(problem, samples=2)
        if schedule is not None:
            days.append((problem, schedule, network_of(problem, schedule)))
    return days


def _lived(problem: Problem, schedule: Schedule, times: Times) -> tuple[Problem, Schedule]:
    """The day as it went: the problem with its real durations, the schedule with its times."""
    tasks = dict(problem.tasks)
    done = {}
    for name, planned in schedule.tasks.items():
        start, end = times[name]
        work = min(start + planned.work - planned.start, end)
        release = times.get(clean_down_of(name), (end, end))[1]
        done[name] = replace(planned, start=start, work=work, end=end, release=release)
        modes = tuple(replace(mode, duration=end - work) for mode in tasks[name].modes)
        tasks[name] = replace(tasks[name], modes=modes)
    warm_ups = tuple(
        WarmUp(each.resource, *times[warm_up_of(each)], each.setting, each.task)
        for each in schedule.warm_ups
    )
    return replace(problem, tasks=tasks), replace(schedule, tasks=done, warm_ups=warm_ups)


def _durations(network: FlowNetwork, rng: random.Random, most: float) -> dict[str, int]:
    return {
        name: max(1, round(step.minutes * rng.uniform(0.5, most)))
        for name, step in network.steps.items()
        if step.minutes > 0
    }


def _overuse(problem: Problem, schedule: Schedule, times: Times) -> list[str]:
    return [
        str(breach)
        for breach in check(*_lived(problem, schedule, times))
        if breach.rule in _USES or (breach.rule == "lags" and "less than" in breach.message)
    ]


@pytest.mark.parametrize("away", [False, True])
def test_most_random_days_can_be_listed_at_all(away: bool) -> None:
    assert len(_days(away)) > len(_SEEDS) / 2


@pytest.mark.parametrize("away", [False, True])
def test_planned_durations_give_a_day_no_later_than_planned_that_breaks_nothing(
    away: bool,
) -> None:
    for problem, schedule, network in _days(away):
        times = retime(network, {})
        assert all(times[name][0] <= step.start for name, step in network.steps.items())
        assert watch(network, times) == []
        rules = {breach.rule for breach in check(*_lived(problem, schedule, times))}
        # A part may start later than the one it continues ends; a setting is kept for longer.
        assert rules <= {"runs", "warm-ups"}


@pytest.mark.parametrize("away", [False, True])
def test_a_day_on_which_all_goes_as_scheduled_is_the_scheduled_one(away: bool) -> None:
    for _, _, network in _days(away):
        times = retime(network, {}, as_scheduled=True)
        assert times == {name: (step.start, step.end) for name, step in network.steps.items()}


def test_whatever_the_durations_nothing_is_used_twice() -> None:
    for seed, (problem, schedule, network) in enumerate(_days(away=False)):
        rng = _rng(seed)
        for _ in range(10):
            times = retime(network, _durations(network, rng, 3.0))
            assert _overuse(problem, schedule, times) == []


def test_nothing_is_used_while_it_is_away_without_an_alarm() -> None:
    silent = announced = 0
    for seed, (problem, schedule, network) in enumerate(_days(away=True)):
        rng = _rng(seed)
        for _ in range(10):
            times = retime(network, _durations(network, rng, 2.0))
            if any(alarm.kind == "away" for alarm in watch(network, times)):
                announced += 1
                continue
            silent += 1
            assert _overuse(problem, schedule, times) == []
    assert silent > announced


def test_a_day_retimed_half_way_uses_nothing_twice_and_leaves_the_past_alone() -> None:
    for seed, (problem, schedule, network) in enumerate(_days(away=False)):
        rng = _rng(seed)
        before = retime(network, _durations(network, rng, 2.0))
        now = rng.randint(10, 100)
        fixed = {
            name: (start, end if end <= now else None)
            for name, (start, end) in before.items()
            if start < now
        }
        after = retime(network, _durations(network, rng, 2.0), fixed=fixed, now=now)
        assert _overuse(problem, schedule, after) == []
        for name, (start, end) in after.items():
            if name not in fixed:
                assert start >= now
            elif fixed[name][1] is not None:
                assert (start, end) == before[name]
            else:
                assert end >= now


def test_every_broken_limit_of_a_lived_day_is_announced() -> None:
    broken = 0
    for seed, (problem, schedule, network) in enumerate(_days(away=False)):
        rng = _rng(seed)
        times = retime(network, _durations(network, rng, 3.0))
        alarms = watch(network, times)
        told = {alarm.ids for alarm in alarms if alarm.kind == "lag"}
        breaches = check(*_lived(problem, schedule, times))
        assert {each.ids for each in breaches if each.rule == "lags"} == told
        over_budget = [each for each in breaches if each.rule == "budgets"]
        assert len(over_budget) == sum(alarm.kind == "budget" for alarm in alarms)
        broken += len(breaches)
    assert broken > 0


def test_the_hand_overs_are_few() -> None:
    for _, _, network in _days(away=False):
        handed = [arc for arc in network.arcs if arc.resources]
        assert len(handed) <= 4 * len(network.steps)


def test_a_maximal_lag_whose_end_comes_first_is_kept_by_the_order() -> None:
    """What is prepared by the time the oven is hot is waited for by the oven, not told too late."""
    ready = Lag("heat", "end", "layer", "end", None, 0, reason="it goes in while it is hot")
    draft = Draft({"layer": (0, 10), "heat": (2, 12)}, lags=[ready])
    assert Arc("layer", "end", "heat", "end", 0) in connect(draft).arcs
    forward = Draft(
        {"layer": (0, 10), "heat": (2, 12)},
        lags=[replace(ready, before="layer", after="heat", high=5)],
    )
    assert connect(forward).arcs == ()
