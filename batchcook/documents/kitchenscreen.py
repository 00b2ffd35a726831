"""The kitchen screen: the day on a tablet or phone on the counter, in one file that needs no other.

The page carries the day as JSON, and the network behind it, so that it can time the rest again
whenever something is done early or late.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from typing import Any

from batchcook.documents.amounts import is_batches
from batchcook.documents.aside import asides
from batchcook.documents.dishkeys import dish_keys
from batchcook.documents.environment import render
from batchcook.documents.foodclocks import FoodClock, Track, food_clocks
from batchcook.foodsafety.clock import THROW_OUT
from batchcook.foodsafety.limits import HOT_HOLDING
from batchcook.metricwords import metric_words
from batchcook.pacing.spreads import pace_in_plan, plan_spreads
from batchcook.pacing.surewords import often_lost_lines, sure_lines
from batchcook.plan import Plan, Task, write_plan
from batchcook.plans.network import minute_of, network_of_plan
from batchcook.scheduling.flownetwork import FlowNetwork
from batchcook.scheduling.risk import Lognormal, Spread, begin_limited_times
from batchcook.wording import bound, day, degrees

__all__ = ["kitchen_screen_html", "screen_day"]

_ANCHORS = {"start": 0, "end": 1}
_CLEAN_DOWN = "clean-down"


def kitchen_screen_html(plan: Plan) -> str:
    """The kitchen screen of a plan as one page of HTML that loads nothing.

    Raises:
        InputFault: The plan names a task or resource that it does not list.
    """
    text = json.dumps(screen_day(plan), ensure_ascii=False, separators=(",", ":"))
    return render(
        "kitchen-screen.html",
        plan=plan,
        sure=sure_lines(plan),
        often_lost=often_lost_lines(plan),
        day=_inside_a_script(text),
    )


def screen_day(plan: Plan) -> Mapping[str, Any]:
    """What the page knows of the day; tasks, cooks, dishes and resources are numbers in it.

    The tasks stand in an order in which each comes after all that it waits for; times are minutes
    from the start of the plan.

    Raises:
        InputFault: The plan names a task or resource that it does not list.
    """
    network = network_of_plan(plan)
    place = {name: number for number, name in enumerate(network.steps)}
    keys = dish_keys(plan.dishes)
    start = plan.start
    spreads = {task: _numbers(each) for task, each in plan_spreads(plan).items()}
    kinds = list(dict.fromkeys(spreads[name] for name in network.steps))
    vary = {name: kinds.index(spreads[name]) for name in network.steps}
    mark = hashlib.sha256(write_plan(plan).encode()).hexdigest()[:16]
    return {
        "key": f"batchcook-{plan.date}-{mark}",
        "date": str(plan.date),
        "day": day(plan.date),
        "start": [start.year, start.month, start.day, start.hour, start.minute],
        "finish": minute_of(plan, plan.finish),
        "since": 0 if plan.replanned is None else minute_of(plan, plan.replanned.at),
        "past": _past(plan, place),
        "cooks": [cook.name for cook in plan.cooks],
        "dishes": [
            {
                "id": each.id,
                "letter": keys[each.id].letter,
                "title": each.title,
                "containers": sum(box.dish == each.id for box in plan.containers),
            }
            for each in plan.dishes
        ],
        "spreads": kinds,
        "tasks": _tasks(plan, network, vary),
        "network": _packed(network, place),
        "clocks": [_clock(plan, each, place) for each in food_clocks(plan)],
        "throwOut": THROW_OUT,
        "hot": degrees(_hot(plan)),
    }


def _past(plan: Plan, place: Mapping[str, int]) -> list[tuple[int, int, int | None]]:
    """What had begun when the rest was planned anew: its start, and its end where it was over."""
    if plan.replanned is None:
        return []
    at = plan.replanned.at
    return [
        (
            place[task.id],
            minute_of(plan, task.start),
            minute_of(plan, task.end) if task.end <= at else None,
        )
        for task in plan.tasks
        if task.start < at
    ]


def _hot(plan: Plan) -> str:
    """At which temperature food may wait, in the plan's own units."""
    said = f"{float(HOT_HOLDING.to('degF').magnitude):.0f} degF"
    return metric_words(said) if plan.system == "metric" else said


def _numbers(spread: Spread) -> tuple[float, ...]:
    """Median and deviation of a lognormal spread; low, mode and high of a triangular one."""
    if isinstance(spread, Lognormal):
        return round(spread.median, 4), round(spread.sigma, 4)
    return round(spread.low, 4), round(spread.mode, 4), round(spread.high, 4)


def _tasks(plan: Plan, network: FlowNetwork, vary: Mapping[str, int]) -> list[Mapping[str, Any]]:
    tasks = {task.id: task for task in plan.tasks}
    cooks = {cook.id: number for number, cook in enumerate(plan.cooks)}
    letters = {dish.id: number for number, dish in enumerate(plan.dishes)}
    beside = {aside.task.id: aside for aside in asides(plan)}
    timed = begin_limited_times(network)
    found: list[Mapping[str, Any]] = []
    for name in network.steps:
        task = tasks[name]
        aside = beside.get(name)
        entry: dict[str, Any] = {
            "id": name,
            "title": degrees(task.title),
            "technique": task.technique,
            "cook": cooks.get(task.cook or ""),
            "dishes": [letters[dish] for dish in task.dishes if dish in letters],
            "amounts": _amounts(plan, task),
            "bowl": task.bowl,
            "words": degrees(task.words),
            "run": task.run,
            "vary": vary[name],
        }
        if name in timed:
            entry["timed"] = True
        pace = round(pace_in_plan(plan, task), 4)
        if pace != 1.0:
            entry["pace"] = pace
        if task.technique == _CLEAN_DOWN:
            entry["wash"] = True
        if aside:
            entry |= {"teller": cooks.get(aside.cook, 0), "switchOn": aside.to_switch_on}
            if early := int((task.end - aside.until).total_seconds() // 60):
                entry["early"] = early
        found.append({key: value for key, value in entry.items() if value not in ("", [], None)})
    return found


def _amounts(plan: Plan, task: Task) -> list[str]:
    """What goes in: the list, or else each dish's share, with its letter where there are more."""
    if task.amounts:
        return [degrees(bound(amount)) for amount in task.amounts]
    keys = dish_keys(plan.dishes)
    shares = [(dish, share) for dish, share in task.dishes.items() if not is_batches(share)]
    if len(shares) == 1:
        return [bound(shares[0][1])]
    return [f"{keys[dish].letter}: {bound(share)}" for dish, share in shares if dish in keys]


def _packed(network: FlowNetwork, place: Mapping[str, int]) -> Mapping[str, Any]:
    """The network in lists, as short as it goes."""
    resources = {name: number for number, name in enumerate(network.capacities)}
    return {
        "steps": [[each.start, each.end, each.floor, each.away] for each in network.steps.values()],
        "arcs": [
            [
                place[arc.before],
                _ANCHORS[arc.origin],
                place[arc.after],
                _ANCHORS[arc.to],
                arc.least,
                [resources[name] for name in arc.resources],
            ]
            for arc in network.arcs
        ],
        "limits": [
            [
                None if limit.before is None else place[limit.before],
                _ANCHORS[limit.origin],
                place[limit.after],
                _ANCHORS[limit.to],
                limit.most,
                limit.reason,
                limit.told,
            ]
            for limit in network.limits
        ],
        "holds": [
            [resources[hold.resource], [place[name] for name in hold.openers], place[hold.closer]]
            for hold in network.holds
        ],
    }


def _clock(plan: Plan, clock: FoodClock, place: Mapping[str, int]) -> Mapping[str, Any]:
    titles = {dish.id: dish.title for dish in plan.dishes}
    dishes = [dish.id for dish in plan.dishes]
    return {
        "what": clock.what or titles.get(clock.dish, clock.dish),
        "whole": clock.what in {"", titles.get(clock.dish)},
        "dish": dishes.index(clock.dish) if clock.dish in dishes else None,
        "task": place[clock.task],
        "where": clock.where,
        "state": clock.state,
        "at": minute_of(plan, clock.at),
        "tracks": [_track(each, place) for each in clock.tracks],
    }


def _track(track: Track, place: Mapping[str, int]) -> Mapping[str, Any]:
    return {
        "moments": [
            [place[each.task], _ANCHORS[each.anchor], each.offset] for each in track.moments
        ],
        "spells": track.spells,
        "budget": track.budget,
    }


def _inside_a_script(text: str) -> str:
    """JSON that cannot end the script it stands in."""
    return text.replace("<", "\\u003c").replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")
