"""What is wrong with a plan, read off ``plan.json`` alone, minute by minute.

Written from the promise that a plan makes, not from the program: plain Python over the JSON, with
own copies of the published storage times and own figures for the limits. It shares no code with
the package, so that a rule forgotten there is missed here.
"""

from __future__ import annotations

import calendar
import csv
import datetime as dt
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise
from pathlib import Path
from typing import Any

__all__ = ["RULES", "breaches"]

Plan = Mapping[str, Any]

_DATA = Path(__file__).parent / "published" / "data"
_CHARTS = ("cold_food_storage_chart.csv", "freezing_and_food_safety.csv", "cooked_fish.csv")
_ROWS = {
    row["row"]: row
    for name in _CHARTS
    for row in csv.DictReader((_DATA / name).read_text(encoding="utf-8").splitlines())
}
_OUT_OF_COLD = 120
_STRAIGHT_ON = 10
_IN_THE_COLD = {"refrigerated", "frozen"}
_ON_HEAT = {"on-heat", "held-hot"}
_MAY_PRECEDE_SET_UP = {"preheat"}


def breaches(plan: Plan, minutes_out: int = _OUT_OF_COLD) -> list[str]:
    """Everything that is wrong with a plan, each with the name of its rule in front.

    Args:
        plan: The parsed ``plan.json``.
        minutes_out: How long food may be between 40 and 140 degF in all; 60 in a hot room.
    """
    found = [f"names: {each}" for each in _names(plan)]
    if found:
        return found
    found = [f"clock: {each}" for each in _clock(plan, minutes_out)]
    return found + [f"{name}: {each}" for name, rule in RULES.items() for each in rule(plan)]


# ---- reading ------------------------------------------------------------------------------------


def _at(text: str) -> int:
    """An instant as a count of minutes."""
    at = dt.datetime.fromisoformat(text)
    return (at.toordinal() * 24 + at.hour) * 60 + at.minute


def _start(task: Mapping[str, Any]) -> int:
    return _at(task["start"])


def _end(task: Mapping[str, Any]) -> int:
    return _at(task["end"])


def _by_id(plan: Plan) -> dict[str, Any]:
    return {task["id"]: task for task in plan["tasks"]}


def _tracks(plan: Plan) -> Iterable[tuple[str, list[Any]]]:
    """Each food of each dish with its events; the list keeps those of one minute in order."""
    tracks: dict[str, list[Any]] = defaultdict(list)
    for event in plan["events"]:
        tracks[f"{event['food']} of {event['dish']}"].append(event)
    return tracks.items()


# ---- the rules ----------------------------------------------------------------------------------


def _names(plan: Plan) -> Iterator[str]:
    """Ids are unique, and everything that is referred to is there."""
    tasks, resources = _by_id(plan), {each["id"] for each in plan["resources"]}
    dishes, cooks = ({each["id"] for each in plan[part]} for part in ("dishes", "cooks"))
    if len(tasks) != len(plan["tasks"]):
        yield "two tasks have one id"
    for task in plan["tasks"]:
        yield from (
            f"{task['id']} uses no known {use}" for use in task["uses"] if use not in resources
        )
        yield from (
            f"{task['id']} serves no known {each}" for each in task["dishes"] if each not in dishes
        )
        if task["cook"] is not None and task["cook"] not in cooks:
            yield f"{task['id']} is done by no known {task['cook']}"
    named = [
        *(lag[end] for lag in plan["lags"] for end in ("before", "after")),
        *(each[end] for each in plan["occupancies"] for end in ("from_task", "to_task")),
        *(each["task"] for part in ("settings", "events", "deadlines") for each in plan[part]),
        *(bowl["task"] for run in plan["shared"] for bowl in run["bowls"]),
    ]
    yield from (f"{name} is no task" for name in named if name not in tasks)
    for part in ("occupancies", "settings"):
        yield from (
            f"no {each['resource']}" for each in plan[part] if each["resource"] not in resources
        )


def _times(plan: Plan) -> Iterator[str]:
    """Every task lasts, and lies within the day's own start and finish."""
    for task in plan["tasks"]:
        if _start(task) >= _end(task):
            yield f"{task['id']} ends when it begins or before"
        if not _at(plan["start"]) <= _start(task) < _end(task) <= _at(plan["finish"]):
            yield f"{task['id']} lies outside the day"


def _capacities(plan: Plan) -> Iterator[str]:
    """At no minute is more of anything in use, kept or away than there is."""
    tasks = _by_id(plan)
    for resource in plan["resources"]:
        name = resource["id"]
        use: dict[int, int] = defaultdict(int)
        spans = [(_start(task), _end(task), task["uses"].get(name, 0)) for task in plan["tasks"]]
        spans += [
            (_start(tasks[each["from_task"]]), _end(tasks[each["to_task"]]), each["amount"])
            for each in plan["occupancies"]
            if each["resource"] == name
        ]
        for start, end, amount in spans:
            for minute in range(start, end) if amount else ():
                use[minute] += amount
        away = [(_at(each["from"]), _at(each["to"]), each["amount"]) for each in resource["away"]]
        for minute, used in use.items():
            gone = sum(amount for start, end, amount in away if start <= minute < end)
            if used > max(0, resource["capacity"] - gone):
                yield f"{used} of {name} at {minute // 60 % 24:02}:{minute % 60:02}"
                break


def _cooks(plan: Plan) -> Iterator[str]:
    """A cook does one thing at a time, and holds it in the tasks' uses."""
    busy: dict[str, list[tuple[int, int, str]]] = defaultdict(list)
    for task in plan["tasks"]:
        held = {use.removeprefix("cook:") for use in task["uses"] if use.startswith("cook:")}
        if held != ({task["cook"]} if task["cook"] else set()):
            yield f"{task['id']} names {task['cook']} but holds {sorted(held)}"
        if task["cook"]:
            busy[task["cook"]].append((_start(task), _end(task), task["id"]))
    for cook, spells in busy.items():
        spells.sort()
        for (_, until, one), (since, _, other) in pairwise(spells):
            if since < until:
                yield f"{cook} does {one} and {other} at once"


def _lags(plan: Plan) -> Iterator[str]:
    """The time between two anchors is within its limits."""
    tasks = _by_id(plan)
    for lag in plan["lags"]:
        gap = _at(tasks[lag["after"]][lag["to"]]) - _at(tasks[lag["before"]][lag["from"]])
        low, high = lag["min_minutes"], lag["max_minutes"]
        if (low is not None and gap < low) or (high is not None and gap > high):
            yield f"{gap} min from {lag['before']} to {lag['after']}, not {low} to {high}"


def _settings(plan: Plan) -> Iterator[str]:
    """What is in an oven together is baked at one temperature, in an oven brought to it."""
    tasks = _by_id(plan)
    bakes = [(each, tasks[each["task"]]) for each in plan["settings"]]
    for number, (one, bake) in enumerate(bakes):
        for other, second in bakes[number + 1 :]:
            together = max(_start(bake), _start(second)) < min(_end(bake), _end(second))
            if one["resource"] == other["resource"] and together and one["degF"] != other["degF"]:
                yield f"{one['task']} and {other['task']} share an oven at different temperatures"
        heated = any(
            task["technique"] == "preheat"
            and one["resource"] in task["uses"]
            and str(one["degF"]) in task["title"]
            and _end(task) <= _start(bake)
            for task in plan["tasks"]
        )
        if not heated:
            yield f"nothing brings the oven to {one['degF']} for {one['task']}"


def _clock(plan: Plan, limit: int) -> Iterator[str]:
    """Each food's time between cold and hot adds up to the limit at most, and ends in the cold."""
    for food, events in _tracks(plan):
        since, total = None, 0
        for event in events:
            if since is not None:
                total += _at(event["at"]) - since
            since = _at(event["at"]) if event["event"] in {"out", "off-heat"} else None
        if total > limit:
            yield f"{food} is out for {total} min"
        if events[-1]["event"] not in _IN_THE_COLD:
            yield f"{food} is never put away"


def _events(plan: Plan) -> Iterator[str]:
    """Events happen in order, at the start or end of their tasks."""
    tasks = _by_id(plan)
    for food, events in _tracks(plan):
        last = 0
        for event in events:
            task, at = tasks[event["task"]], _at(event["at"])
            if at < last:
                yield f"{food}: {event['event']} comes too early"
            # Food that joins a vessel already hot is on heat from when it gets there.
            joins = event["event"] in _ON_HEAT and at == last and _start(task) <= at
            if at not in {_start(task), _end(task)} and not joins:
                yield f"{food}: {event['event']} is not when {event['task']} begins or ends"
            last = at


def _freezing(plan: Plan) -> Iterator[str]:
    """What has been hot is refrigerated before it is frozen."""
    for food, events in _tracks(plan):
        for before, event in pairwise(events):
            hot = any(each["event"] in _ON_HEAT for each in events[: events.index(event)])
            if event["event"] == "frozen" and hot and before["event"] != "refrigerated":
                yield f"{food} is frozen hot"


def _straight_on(plan: Plan) -> Iterator[str]:
    """What leaves the heat half raw is back on heat within minutes."""
    for food, events in _tracks(plan):
        for event, after in zip(events, [*events[1:], None], strict=True):
            if event["event"] != "off-heat" or not event["kind"].startswith("raw-"):
                continue
            if after is None or after["event"] != "on-heat":
                yield f"{food} is browned and left"
            elif _at(after["at"]) - _at(event["at"]) > _STRAIGHT_ON:
                yield f"{food} waits half raw for {_at(after['at']) - _at(event['at'])} min"


def _raw_boards(plan: Plan) -> Iterator[str]:
    """A board that had raw meat on it is washed by the same hands before anything else."""
    for task in plan["tasks"]:
        if "board:raw" not in task["uses"] or task["technique"] == "clean-down":
            continue
        then = [
            other
            for other in plan["tasks"]
            if other["cook"] == task["cook"]
            and "board:raw" in other["uses"]
            and _start(other) == _end(task)
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
        if "board:produce" in _by_id(plan)[name]["uses"]:
            yield f"{name} has raw meat on a board for vegetables"


def _frame(plan: Plan) -> Iterator[str]:
    """Setting up comes before everything else, closing down after it."""
    for technique, before in (("clear", True), ("cleanup", False)):
        mine = [task for task in plan["tasks"] if task["technique"] == technique]
        if len(mine) != 1:
            yield f"{technique} is done {len(mine)} times"
            continue
        for task in plan["tasks"]:
            if task is mine[0] or task["technique"] in _MAY_PRECEDE_SET_UP:
                continue
            late = _start(task) < _end(mine[0]) if before else _end(task) > _start(mine[0])
            if late:
                yield f"{task['id']} is on the wrong side of {technique}"


def _runs(plan: Plan) -> Iterator[str]:
    """The parts of a shared run follow each other without a gap, by one cook."""
    runs = {run["id"]: run for run in plan["shared"]}
    if {task["run"] for task in plan["tasks"] if task["run"]} != set(runs):
        yield "the runs of the tasks are not the runs that are told"
    for name, run in runs.items():
        parts = sorted((task for task in plan["tasks"] if task["run"] == name), key=_start)
        if any(_end(one) != _start(other) for one, other in pairwise(parts)):
            yield f"{name} has a gap"
        if {task["cook"] for task in parts} != {run["cook"]}:
            yield f"{name} changes hands"
        if parts and (_start(parts[0]), _end(parts[-1])) != (_at(run["start"]), _at(run["end"])):
            yield f"{name} is told at another time"
        for bowl in run["bowls"]:
            task = _by_id(plan)[bowl["task"]]
            if (
                _at(bowl["ready"]) != _end(task)
                or task["dishes"].get(bowl["dish"]) != bowl["amount"]
            ):
                yield f"the bowl of {bowl['task']} is told otherwise than it is done"


def _later(day: str, months: int) -> str:
    """So many calendar months on, the last day of a month that is too short."""
    date = dt.date.fromisoformat(day)
    year, month = divmod(date.year * 12 + date.month - 1 + months, 12)
    last = calendar.monthrange(year, month + 1)[1]
    return dt.date(year, month + 1, min(date.day, last)).isoformat()


def _dates(plan: Plan) -> Iterator[str]:
    """Best by is the shortest short end of the published rows, use by the shortest long end."""
    for each in plan["containers"]:
        rows = [_ROWS[name] for name in each["storage_rows"] if name in _ROWS]
        if not rows or len(rows) != len(each["storage_rows"]):
            yield f"{each['code']} names a row that is not published"
            continue
        best = _later(each["packed_on"], min(int(row["months_low"]) for row in rows))
        use = _later(each["packed_on"], min(int(row["months_high"]) for row in rows))
        days = [int(row["days_low"]) for row in rows if row["days_low"]]
        if (each["best_by"], each["use_by"]) != (best, use):
            yield f"{each['code']} says {each['best_by']}, {each['use_by']}, not {best}, {use}"
        if each["keeps_thawed_days"] > min(days):
            yield f"{each['code']} keeps too long once thawed"
        if (each["cook_to_degF"] is not None) != (each["state"] == "raw-kit"):
            yield f"{each['code']} is told wrongly to be cooked or reheated"


def _containers(plan: Plan) -> Iterator[str]:
    """Containers are numbered through, and hold every portion that was cooked."""
    codes = [each["code"] for each in plan["containers"]]
    if len(set(codes)) != len(codes):
        yield "two containers have one code"
    for dish in plan["dishes"]:
        mine = [each for each in plan["containers"] if each["dish"] == dish["id"]]
        if [(each["number"], each["of"]) for each in mine] != [
            (number, len(mine)) for number in range(1, len(mine) + 1)
        ]:
            yield f"the containers of {dish['id']} are numbered wrongly"
        if sum(each["portions"] for each in mine) != dish["servings"]:
            yield f"the containers of {dish['id']} hold {sum(each['portions'] for each in mine)}"


def _summary(plan: Plan) -> Iterator[str]:
    """The figures are those of the tasks."""
    told = plan["summary"]
    first, last = min(map(_start, plan["tasks"])), max(map(_end, plan["tasks"]))
    hands: dict[str, int] = defaultdict(int)
    for task in plan["tasks"]:
        if task["cook"]:
            hands[task["cook"]] += _end(task) - _start(task)
    due = {
        "makespan_minutes": last - first,
        "hands_on_minutes": sum(hands.values()),
        "hands_on_by_cook": dict(hands),
        "sharing_saved_minutes": sum(run["minutes_saved"] for run in plan["shared"]),
        "proved_shortest": told["best_bound_minutes"] == told["makespan_minutes"],
    }
    yield from (
        f"{name} is {told[name]}, not {value}" for name, value in due.items() if told[name] != value
    )
    if told["best_bound_minutes"] > told["makespan_minutes"]:
        yield "the bound lies above the length"
    if (_at(plan["start"]), _at(plan["finish"])) != (first, last):
        yield "start and finish are not those of the tasks"


RULES = {
    "times": _times,
    "capacities": _capacities,
    "cooks": _cooks,
    "lags": _lags,
    "settings": _settings,
    "events": _events,
    "freezing": _freezing,
    "straight-on": _straight_on,
    "raw boards": _raw_boards,
    "frame": _frame,
    "runs": _runs,
    "dates": _dates,
    "containers": _containers,
    "summary": _summary,
}
"""Every rule but ``names``, which the others rest on, and ``clock``, which needs a limit."""
