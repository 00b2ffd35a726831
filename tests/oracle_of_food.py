"""The rules of a plan that keep food safe, with own figures for the limits."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from oracle_reading import IN_THE_COLD, ON_HEAT, Plan, by_id, end_of, minute_of, start_of, tracks

__all__ = ["clock", "events", "freezing", "raw_boards", "raw_hands", "straight_on"]

_STRAIGHT_ON = 10


def clock(plan: Plan, limit: int) -> Iterator[str]:
    """Each food's time between cold and hot adds up to the limit at most, and ends in the cold."""
    for food, events in tracks(plan):
        since, total = None, 0
        for event in events:
            if since is not None:
                total += minute_of(event["at"]) - since
            since = minute_of(event["at"]) if event["event"] in {"out", "off-heat"} else None
        if total > limit:
            yield f"{food} is out for {total} min"
        if events[-1]["event"] not in IN_THE_COLD:
            yield f"{food} is never put away"


def events(plan: Plan) -> Iterator[str]:
    """Events happen in order, at the start or end of their tasks, or when the freezer is due."""
    tasks = by_id(plan)
    later = {(each["dish"], each["at"]) for each in plan.get("freezing", ())}
    for food, events in tracks(plan):
        last = 0
        for event in events:
            task, at = tasks[event["task"]], minute_of(event["at"])
            # Food that joins a vessel already hot is on heat from when it gets there.
            joins = event["event"] in ON_HEAT and at == last and start_of(task) <= at
            put_by = event["event"] == "frozen" and (event["dish"], event["at"]) in later
            if at not in {start_of(task), end_of(task)} and not joins and not put_by:
                yield f"{food}: {event['event']} is not when {event['task']} begins or ends"
            last = at


def freezing(plan: Plan) -> Iterator[str]:
    """What has been hot is refrigerated, and cold through, before it is frozen; all of it is."""
    for food, events in tracks(plan):
        heated = False
        for before, event in pairwise(events):
            heated = heated or before["event"] in ON_HEAT
            if event["event"] == "frozen" and heated and before["event"] != "refrigerated":
                yield f"{food} is frozen hot"
    cold = {each["dish"]: minute_of(each["cold_at"]) for each in plan.get("cooling", ())}
    when: dict[str, str] = {}
    for each in plan.get("freezing", ()):
        if minute_of(each["at"]) < cold.get(each["dish"], 0):
            yield f"{each['dish']} is frozen before it is cold"
        when |= dict.fromkeys(each["containers"], each["at"][:10])
    for each in plan["containers"] if when else ():
        if when.get(each["code"]) != each["frozen_on"]:
            yield f"{each['code']} is not frozen on the day that its label says"


def straight_on(plan: Plan) -> Iterator[str]:
    """What leaves the heat half raw is back on heat within minutes."""
    for food, events in tracks(plan):
        for event, after in zip(events, [*events[1:], None], strict=True):
            if event["event"] != "off-heat" or not event["kind"].startswith("raw-"):
                continue
            if after is None or after["event"] != "on-heat":
                yield f"{food} is browned and left"
            elif minute_of(after["at"]) - minute_of(event["at"]) > _STRAIGHT_ON:
                yield f"{food} waits half raw from {event['at']} to {after['at']}"


def raw_boards(plan: Plan) -> Iterator[str]:
    """A board that had raw meat on it is washed by the same hands before anything else."""
    for task in plan["tasks"]:
        if "board:raw" not in task["uses"] or task["technique"] == "clean-down":
            continue
        then = [
            other
            for other in plan["tasks"]
            if other["cook"] == task["cook"]
            and "board:raw" in other["uses"]
            and start_of(other) == end_of(task)
            and (
                other["technique"] == "clean-down" or (other["run"] and other["run"] == task["run"])
            )
        ]
        if not then:
            yield f"the board is not washed after {task['id']}"
    raw = {
        e["task"] for e in plan["events"] if e["event"] == "out" and e["kind"].startswith("raw-")
    }
    for name in raw:
        if "board:produce" in by_id(plan)[name]["uses"]:
            yield f"{name} has raw meat on a board for vegetables"


def _raw_in_hand(plan: Plan) -> list[str]:
    """The tasks at which raw meat, poultry or fish leaves the cold and is touched.

    What was shaped before goes into the oven in its pans.
    """
    tasks = by_id(plan)
    return [
        event["task"]
        for event in plan["events"]
        if event["event"] == "out"
        and event["kind"].startswith("raw-")
        and (tasks[event["task"]]["station"] != "oven" or tasks[event["task"]]["amounts"])
    ]


_GOES_ON = {"mix", "shape", "fill", "marinate", "portion"}
"""Work in which the same raw food stays in the same hands."""


def raw_hands(plan: Plan) -> Iterator[str]:
    """Hands that took raw meat out are washed before they do anything else."""
    tasks = by_id(plan)
    for name in dict.fromkeys(_raw_in_hand(plan)):
        task = tasks[name]
        then = min(
            (t for t in plan["tasks"] if t["cook"] == task["cook"] and start_of(t) >= end_of(task)),
            key=start_of,
            default=None,
        )
        if then is None:  # the cook has left the kitchen, and somebody else cleans up
            continue
        same_run = task["run"] is not None and then["run"] == task["run"]
        same_food = set(then["dishes"]) == set(task["dishes"]) and then["technique"] in _GOES_ON
        if then["technique"] != "clean-down" and not same_run and not same_food:
            yield f"after {name} the cook goes on to {then['id']} with raw hands"
