"""The rules of a plan that times, hands and means have to keep."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from itertools import pairwise

from oracle_reading import Plan, by_id, end_of, minute_of, start_of

__all__ = [
    "capacities",
    "cooks",
    "frame",
    "lags",
    "names",
    "on_the_heat",
    "runs",
    "settings",
    "summary",
    "times",
]

_MAY_PRECEDE_SET_UP = {"preheat"}


def names(plan: Plan) -> Iterator[str]:
    """Ids are unique, and everything that is referred to is there."""
    tasks, resources = by_id(plan), {each["id"] for each in plan["resources"]}
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


def times(plan: Plan) -> Iterator[str]:
    """Every task lasts, and lies within the day's own start and finish."""
    for task in plan["tasks"]:
        if start_of(task) >= end_of(task):
            yield f"{task['id']} ends when it begins or before"
        if (
            not minute_of(plan["start"])
            <= start_of(task)
            < end_of(task)
            <= minute_of(plan["finish"])
        ):
            yield f"{task['id']} lies outside the day"


def capacities(plan: Plan) -> Iterator[str]:
    """At no minute is more of anything in use, kept or away than there is."""
    tasks = by_id(plan)
    for resource in plan["resources"]:
        name = resource["id"]
        use: dict[int, int] = defaultdict(int)
        spans = [
            (start_of(task), end_of(task), task["uses"].get(name, 0)) for task in plan["tasks"]
        ]
        spans += [
            (start_of(tasks[each["from_task"]]), end_of(tasks[each["to_task"]]), each["amount"])
            for each in plan["occupancies"]
            if each["resource"] == name
        ]
        for start, end, amount in spans:
            for minute in range(start, end) if amount else ():
                use[minute] += amount
        away = [
            (minute_of(each["from"]), minute_of(each["to"]), each["amount"])
            for each in resource["away"]
        ]
        for minute, used in use.items():
            gone = sum(amount for start, end, amount in away if start <= minute < end)
            if used > max(0, resource["capacity"] - gone):
                yield f"{used} of {name} at {minute // 60 % 24:02}:{minute % 60:02}"
                break


def cooks(plan: Plan) -> Iterator[str]:
    """A cook does one thing at a time, and holds it in the tasks' uses."""
    busy: dict[str, list[tuple[int, int, str]]] = defaultdict(list)
    for task in plan["tasks"]:
        held = {use.removeprefix("cook:") for use in task["uses"] if use.startswith("cook:")}
        if held != ({task["cook"]} if task["cook"] else set()):
            yield f"{task['id']} names {task['cook']} but holds {sorted(held)}"
        if task["cook"]:
            busy[task["cook"]].append((start_of(task), end_of(task), task["id"]))
    for cook, spells in busy.items():
        spells.sort()
        for (_, until, one), (since, _, other) in pairwise(spells):
            if since < until:
                yield f"{cook} does {one} and {other} at once"


def lags(plan: Plan) -> Iterator[str]:
    """The time between two anchors is within its limits."""
    tasks = by_id(plan)
    for lag in plan["lags"]:
        gap = minute_of(tasks[lag["after"]][lag["to"]]) - minute_of(
            tasks[lag["before"]][lag["from"]]
        )
        low, high = lag["min_minutes"], lag["max_minutes"]
        if (low is not None and gap < low) or (high is not None and gap > high):
            yield f"{gap} min from {lag['before']} to {lag['after']}, not {low} to {high}"


def settings(plan: Plan) -> Iterator[str]:
    """What is in an oven together is baked at one temperature, in an oven brought to it."""
    tasks = by_id(plan)
    bakes = [(each, tasks[each["task"]]) for each in plan["settings"]]
    for number, (one, bake) in enumerate(bakes):
        for other, second in bakes[number + 1 :]:
            together = max(start_of(bake), start_of(second)) < min(end_of(bake), end_of(second))
            if one["resource"] == other["resource"] and together and one["degF"] != other["degF"]:
                yield f"{one['task']} and {other['task']} share an oven at different temperatures"
        heated = any(
            task["technique"] == "preheat"
            and one["resource"] in task["uses"]
            and _setting(plan, one["degF"]) in task["title"]
            and end_of(task) <= start_of(bake)
            for task in plan["tasks"]
        )
        if not heated:
            yield f"nothing brings the oven to {one['degF']} for {one['task']}"


def _setting(plan: Plan, fahrenheit: int) -> str:
    """What the oven's knob shows; knobs in degC go by fives."""
    metric = plan["system"] == "metric"
    return f"{5 * round((fahrenheit - 32) / 9)}" if metric else f"{fahrenheit}"


def on_the_heat(plan: Plan) -> Iterator[str]:
    """Each potful that cooks by itself has a pot and a burner that no other has meanwhile."""
    cooking = [
        task
        for task in plan["tasks"]
        if task["technique"] in {"boil", "simmer"} and not task["cook"] and task["dishes"]
    ]
    for means in ("pot:", "burner"):
        kept = [each for each in plan["occupancies"] if each["resource"].startswith(means)]
        suits = [[n for n, each in enumerate(kept) if _keeps(plan, each, t)] for t in cooking]
        if not _given_out(cooking, suits, {}):
            yield f"a {means.rstrip(':')} is not kept for all of what boils or simmers"


def _keeps(plan: Plan, kept: Plan, task: Plan) -> bool:
    """Whether what is kept for a dish is kept throughout a task of it."""
    first, last = (by_id(plan)[kept[end]] for end in ("from_task", "to_task"))
    mine = set(first["dishes"]) | set(last["dishes"])
    inside = start_of(first) <= start_of(task) and end_of(task) <= end_of(last)
    return inside and bool(mine & set(task["dishes"]))


def _given_out(
    tasks: Sequence[Plan], suits: Sequence[Sequence[int]], taken: dict[int, tuple[Plan, ...]]
) -> bool:
    """Whether each task can have one of what suits it, no two that overlap the same."""
    if not tasks:
        return True
    task, *rest = tasks
    for number in suits[0]:
        others = taken.get(number, ())
        if all(
            end_of(other) <= start_of(task) or end_of(task) <= start_of(other) for other in others
        ) and _given_out(rest, suits[1:], {**taken, number: (*others, task)}):
            return True
    return False


def frame(plan: Plan) -> Iterator[str]:
    """Setting up comes before everything else, closing down after it."""
    for technique, before in (("clear", True), ("cleanup", False)):
        mine = [task for task in plan["tasks"] if task["technique"] == technique]
        if len(mine) != 1:
            yield f"{technique} is done {len(mine)} times"
            continue
        for task in plan["tasks"]:
            if task is mine[0] or task["technique"] in _MAY_PRECEDE_SET_UP:
                continue
            late = start_of(task) < end_of(mine[0]) if before else end_of(task) > start_of(mine[0])
            if late:
                yield f"{task['id']} is on the wrong side of {technique}"


def runs(plan: Plan) -> Iterator[str]:
    """The parts of a shared run follow each other without a gap, by one cook."""
    runs = {run["id"]: run for run in plan["shared"]}
    if {task["run"] for task in plan["tasks"] if task["run"]} != set(runs):
        yield "the runs of the tasks are not the runs that are told"
    for name, run in runs.items():
        parts = sorted((task for task in plan["tasks"] if task["run"] == name), key=start_of)
        if any(end_of(one) != start_of(other) for one, other in pairwise(parts)):
            yield f"{name} has a gap"
        if {task["cook"] for task in parts} != {run["cook"]}:
            yield f"{name} changes hands"
        if parts and (start_of(parts[0]), end_of(parts[-1])) != (
            minute_of(run["start"]),
            minute_of(run["end"]),
        ):
            yield f"{name} is told at another time"
        for bowl in run["bowls"]:
            task = by_id(plan)[bowl["task"]]
            if (
                minute_of(bowl["ready"]) != end_of(task)
                or task["dishes"].get(bowl["dish"]) != bowl["amount"]
            ):
                yield f"the bowl of {bowl['task']} is told otherwise than it is done"


def _begun(plan: Plan) -> int:
    """When the day begins: with its first task, or before where the order says when.

    It does too where nobody is there for the first task yet.
    """
    said, first = minute_of(plan["start"]), min(map(start_of, plan["tasks"]))
    asked = plan["order"]["day"]["start"] if plan.get("order") else None
    if asked and said == minute_of(f"{plan['date']}T{asked[:5]}") <= first:
        return said
    away = [
        {
            minute
            for each in resource["away"]
            for minute in range(minute_of(each["from"]), minute_of(each["to"]))
        }
        for resource in plan["resources"]
        if resource["id"].startswith("cook:")
    ]
    nobody = set.intersection(*away) if away else set()
    return said if nobody.issuperset(range(said, first)) else first


def summary(plan: Plan) -> Iterator[str]:
    """The figures are those of the tasks."""
    told = plan["summary"]
    first, last = _begun(plan), max(map(end_of, plan["tasks"]))
    hands: dict[str, int] = defaultdict(int)
    for task in plan["tasks"]:
        if task["cook"]:
            hands[task["cook"]] += end_of(task) - start_of(task)
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
    if (minute_of(plan["start"]), minute_of(plan["finish"])) != (first, last):
        yield "start and finish are not those of the tasks"
