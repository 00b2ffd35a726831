"""The page times the rest as the program does."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from counter_day import at, counter_day
from pressed_screen import Screen

from batchcook.documents.kitchenscreen import screen_day
from batchcook.plan import Absence, Budget, Plan, Span, read_plan
from batchcook.plans.network import network_of_plan
from batchcook.scheduling.flownetwork import FlowNetwork
from batchcook.scheduling.retiming import retime

SAMPLE = Path(__file__).parents[2] / "output_samples" / "prep-day"

RETIME = """(cases) => cases.map(({ longer, fixed, now, asScheduled, lead }) =>
    kitchenScreen.retime(kitchenScreen.network, new Map(longer),
        { fixed: new Map(fixed), now, asScheduled, lead }))"""


def _with_a_cook_away() -> Plan:
    """The short day, Ben away for half an hour in which he has nothing to do."""
    day = counter_day()
    away = Absence.model_validate({"from": at(43), "to": at(71), "amount": 1})
    return day.model_copy(
        update={
            "resources": tuple(
                each.model_copy(update={"away": (away,)}) if each.id == "cook:ben" else each
                for each in day.resources
            )
        }
    )


def _with_a_clock() -> Plan:
    """The short day, its chicken out for half an hour in all at the most: cubing and portioning."""
    spans = [
        ("soup/chicken", "start", "soup/fill", "start"),
        ("soup/season", "end", "soup/portion", "end"),
    ]
    budget = Budget(
        dish="chicken-soup",
        food="chicken thigh",
        spans=tuple(
            Span.model_validate({"before": before, "from": origin, "after": after, "to": to})
            for before, origin, after, to in spans
        ),
        limit_minutes=40,
    )
    return counter_day().model_copy(update={"budgets": (budget,)})


def _disturbed(network: FlowNetwork, dice: random.Random) -> dict[str, Any]:
    """Some steps take longer or shorter, and all before some minute have begun at odd times."""
    longer = {
        name: max(0, round(step.minutes * dice.choice((0.3, 0.8, 1.3, 2.5))))
        for name, step in network.steps.items()
        if dice.random() < 0.4
    }
    finish = max(step.end for step in network.steps.values())
    now = dice.choice((0, dice.randrange(finish)))
    fixed: dict[str, tuple[int, int | None]] = {}
    for name, step in network.steps.items():
        if step.end <= now and dice.random() < 0.9:
            start = max(0, step.start + dice.randint(-5, 15))
            fixed[name] = (start, max(start, step.end + dice.randint(-5, 20)))
        elif step.start < now and dice.random() < 0.7:
            fixed[name] = (step.start, None)
    return {"longer": longer, "fixed": fixed, "now": now, "as_scheduled": dice.random() < 0.5}


def _by_the_page(
    screen: Screen, network: FlowNetwork, cases: list[dict[str, Any]]
) -> list[list[list[int]]]:
    place = {name: number for number, name in enumerate(network.steps)}
    found: list[list[list[int]]] = screen.page.evaluate(
        RETIME,
        [
            {
                "longer": [[place[name], minutes] for name, minutes in case["longer"].items()],
                "fixed": [[place[name], list(times)] for name, times in case["fixed"].items()],
                "now": case["now"],
                "asScheduled": case["as_scheduled"],
                "lead": case.get("lead", 0),
            }
            for case in cases
        ],
    )
    return found


@pytest.mark.parametrize(
    "plan",
    [counter_day(), _with_a_cook_away(), _with_a_clock(), read_plan(SAMPLE)],
    ids=["short day", "a cook away", "food that may not wait", "sample day"],
)
def test_disturbed_days_are_timed_in_the_page_as_by_the_program(
    shown: Callable[..., Screen], plan: Plan
) -> None:
    network = network_of_plan(plan)
    dice = random.Random(16)  # noqa: S311 - the same disturbances every time, nothing secret
    cases = [_disturbed(network, dice) for _ in range(60)]
    by_the_page = _by_the_page(shown(plan), network, cases)
    moved = 0
    for case, found in zip(cases, by_the_page, strict=True):
        expected = retime(
            network,
            case["longer"],
            fixed=case["fixed"],
            now=case["now"],
            as_scheduled=case["as_scheduled"],
        )
        assert dict(zip(network.steps, map(tuple, found), strict=True)) == expected
        moved += any(
            expected[name] != (step.start, step.end) for name, step in network.steps.items()
        )
    assert moved > 50


def test_a_lead_is_the_plan_so_many_minutes_earlier(shown: Callable[..., Screen]) -> None:
    network = network_of_plan(counter_day())
    earlier = replace(
        network,
        steps={
            name: replace(step, start=step.start - 7, end=step.end - 7)
            for name, step in network.steps.items()
        },
    )
    case = {"longer": {"day/clear": 2}, "fixed": {}, "now": 0, "as_scheduled": True, "lead": 7}
    [found] = _by_the_page(shown(), network, [case])
    expected = retime(earlier, {"day/clear": 2}, as_scheduled=True)
    assert dict(zip(network.steps, map(tuple, found), strict=True)) == expected


def test_the_network_in_the_page_is_the_whole_network_of_the_plan() -> None:
    plan = read_plan(SAMPLE)
    network, packed = network_of_plan(plan), screen_day(plan)["network"]
    assert len(packed["steps"]) == len(network.steps)
    assert len(packed["arcs"]) == len(network.arcs)
    assert len(packed["limits"]) == len(network.limits)
    assert len(packed["holds"]) == len(network.holds)


def test_done_late_moves_what_waits_for_it_and_done_early_brings_it_forward(
    screen: Screen,
) -> None:
    network = network_of_plan(counter_day())
    screen.wait(14)
    screen.done("Ann")
    fixed: dict[str, tuple[int, int | None]] = {
        "day/clear": (0, 14),
        "soup/chicken": (14, None),
        "soup/onion": (0, None),
    }
    expected = retime(network, {}, fixed=fixed, now=14, as_scheduled=True)
    assert screen.times() == {name: list(times) for name, times in expected.items()}
    assert screen.times()["soup/portion"][1] == 94
    screen.wait(5)
    screen.done("Ann")
    assert screen.times()["soup/chicken"] == [14, 19]
    assert screen.times()["soup/fill"][0] == 24


def test_with_nothing_begun_early_the_lead_is_left_alone_when_told_so(screen: Screen) -> None:
    screen.wait(4)
    screen.done("Ann")
    assert screen.times()["soup/fill"][0] == 24
    screen.page.get_by_label("When a cook is ahead").uncheck()
    assert screen.times()["soup/fill"][0] == 30
