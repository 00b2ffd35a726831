"""Reading ``plan.json`` without the program: instants, tasks, and what happens to each food."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from typing import Any

__all__ = ["IN_THE_COLD", "ON_HEAT", "Plan", "by_id", "end_of", "minute_of", "start_of", "tracks"]

Plan = Mapping[str, Any]

IN_THE_COLD = {"refrigerated", "frozen"}
ON_HEAT = {"on-heat", "held-hot"}


def minute_of(text: str) -> int:
    """An instant as a count of minutes."""
    at = dt.datetime.fromisoformat(text)
    return (at.toordinal() * 24 + at.hour) * 60 + at.minute


def start_of(task: Mapping[str, Any]) -> int:
    return minute_of(task["start"])


def end_of(task: Mapping[str, Any]) -> int:
    return minute_of(task["end"])


def by_id(plan: Plan) -> dict[str, Any]:
    return {task["id"]: task for task in plan["tasks"]}


def tracks(plan: Plan) -> Iterator[tuple[str, list[Any]]]:
    """Each food of each dish with its events and those of its dish, in order of time."""
    events = sorted(plan["events"], key=lambda event: minute_of(event["at"]))
    for dish in plan["dishes"]:
        mine = [event for event in events if event["dish"] == dish["id"]]
        for food in dict.fromkeys(event["food"] for event in mine if event["food"] != dish["id"]):
            track = [event for event in mine if event["food"] in {food, dish["id"]}]
            yield f"{food} of {dish['id']}", track
