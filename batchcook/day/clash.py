"""Why a day cannot be done, in kitchen words, and the smallest changes that would do."""

from __future__ import annotations

import re
import time
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

import networkx as nx

from batchcook.day.formulation import SOMEBODY, Formulation
from batchcook.day.moretime import Shortest, more_time
from batchcook.day.prepday import PrepDay
from batchcook.day.whatif import PANS, changed_by, kinds_held
from batchcook.kitchens.pans import Pans, pan_id
from batchcook.lengths import hours
from batchcook.scheduling.conflict import Conflict, Repair, explain, repairs
from batchcook.scheduling.relaxing import Reference
from batchcook.scheduling.schedule import Schedule

__all__ = ["Change", "Clash", "find_clash"]

_MAY_GIVE_WAY = frozenset({"horizon", "window", "absence", "capacity"})
"""What a cook may change. Limits of food safety are never offered."""

_MOST_CHANGES = 5

_CHANGES_TRIED = 4
"""Into so many parts the time for finding changes is divided; most are found or refuted at once."""

_MORE_TIME = 2.5
"""So many times as long each for a later finish and an earlier start: they are told with how long
the day takes, so the shorter the better."""

_MOST_LIMITS = 8
"""More than this many are not told where some of them may have nothing to do with it."""

_MOST_PANS = 2
"""More than this many pans are not borrowed for a day."""

_ONE_LOAD = re.compile(r", load \d+ of \d+$")
"""What holds for one load holds for all of them."""

_HALVES = 2
"""Ovens are counted in half shelves."""


Possible = Callable[[PrepDay, float], Schedule | None]
"""A schedule of a changed day, found within so many seconds; None where none was."""


@dataclass(frozen=True)
class Change:
    """What would do, in kitchen words, and the day that shows it.

    Attributes:
        words: The change.
        repair: The limit that gives way, where the work stays as it is.
        day: The changed order or kitchen, where it does not.
        schedule: A schedule of the day so changed.
    """

    words: str
    schedule: Schedule
    repair: Repair | None = None
    day: PrepDay | None = None


@dataclass(frozen=True)
class Clash:
    """Limits that cannot all be kept, and changes of which each alone is enough.

    Attributes:
        limits: What clashes, a sentence each.
        changes: What would work, each verified by finding a day that does it.
        conflict: The limits in terms of the formulation.
        formulation: The day that they are of.
    """

    limits: tuple[str, ...]
    changes: tuple[Change, ...]
    conflict: Conflict
    formulation: Formulation

    def __str__(self) -> str:
        """Both as lines of text."""
        lines = ["These cannot all be:" if len(self.limits) > 1 else "This cannot be:"]
        lines += [f"- {each}" for each in self.limits]
        if self.changes:
            lines.append("Any one of these would do:")
            lines += [f"- {each.words}" for each in self.changes]
        else:
            lines.append("No single small change was found that would do.")
        return "\n".join(lines)


def find_clash(
    formulation: Formulation,
    day: PrepDay,
    possible: Possible,
    *,
    seconds: float,
    part: frozenset[str] | None = None,
    shortest: Shortest = lambda *_: None,
) -> Clash:
    """What clashes in a day that is proved impossible.

    Args:
        formulation: The day as it was put.
        day: The order it came from.
        possible: Whether a changed order can be done; solves it.
        seconds: Wall-clock time for the search of the conflict, and again for the changes.
        part: Jobs known to be impossible by themselves.
        shortest: How short a changed order can be; solves it.
    """
    conflict = explain(formulation.problem, seconds=seconds, part=part)
    changes: dict[str, Change] = {}
    for change in _changes(formulation, day, conflict, (possible, shortest), seconds):
        changes.setdefault(change.words, change)
        if len(changes) == _MOST_CHANGES:
            break
    return Clash(
        tuple(dict.fromkeys(_limit_words(conflict, formulation))),
        tuple(changes.values()),
        conflict,
        formulation,
    )


def _changes(
    formulation: Formulation,
    day: PrepDay,
    conflict: Conflict,
    solving: tuple[Possible, Shortest],
    seconds: float,
) -> Iterator[Change]:
    """Every change that was found to be enough, those that leave the order as it is first."""
    possible, shortest = solving
    ends = time.monotonic() + seconds
    each_seconds = seconds / _CHANGES_TRIED
    open_to_change = [each for each in conflict.references if each.kind in _MAY_GIVE_WAY]
    found = False
    if any(each.kind == "horizon" for each in conflict.references):
        for more in more_time(day, shortest, _MORE_TIME * each_seconds):
            found = True
            yield Change(more.words, more.schedule, day=more.day)
            if more.later:
                open_to_change = [each for each in open_to_change if each.kind != "horizon"]
        # The time for changes of the order counts from here.
        ends = time.monotonic() + seconds
    for repair in repairs(formulation.problem, open_to_change, seconds=each_seconds):
        found = True
        yield Change(_repair_words(repair, formulation), repair.schedule, repair)
    for tries in (*_more_pans(formulation, day), *_smaller_orders(day)):
        for words, changed in tries:
            schedule = possible(changed, min(each_seconds, ends - time.monotonic()))
            if schedule is not None:
                found = True
                yield Change(words, schedule, day=changed)
                break
    if not found and len(day.orders) > 1:
        yield from _without_impossible(day, possible, each_seconds)


def _without_impossible(day: PrepDay, possible: Possible, seconds: float) -> Iterator[Change]:
    """The order without every dish that cannot be made even by itself."""
    alone = {dish: {dish: batches} for dish, batches in day.orders.items()}
    left = {
        dish: batches
        for dish, batches in day.orders.items()
        if possible(replace(day, orders=alone[dish]), seconds) is not None
    }
    fewer = replace(day, orders=left)
    schedule = possible(fewer, seconds) if 0 < len(left) < len(day.orders) else None
    if schedule is not None:
        *others, last = (_dish(dish) for dish in day.orders if dish not in left)
        named = f"{', '.join(others)} and {last}" if others else last
        yield Change(f"leave out {named}", schedule, day=fewer)


def _more_pans(formulation: Formulation, day: PrepDay) -> Iterator[list[tuple[str, PrepDay]]]:
    """Pans that may do: with more, dishes are laid out in fewer goes, which is other work."""
    held = kinds_held(formulation.work)
    for kind, key in PANS.items():
        there: tuple[Pans, ...] = getattr(day.kitchen, key)
        if kind not in held or not there:
            continue
        tries = []
        for number in range(1, _MOST_PANS + 1):
            more: dict[str, Any] = {key: changed_by(there, number)}
            words = f"{_thing(pan_id(kind, there[0]), number)} more"
            tries.append((words, replace(day, kitchen=replace(day.kitchen, **more))))
        yield tries


def _smaller_orders(day: PrepDay) -> Iterator[list[tuple[str, PrepDay]]]:
    """Orders with fewer batches of a dish, the most that may do first."""
    for dish, batches in day.orders.items():
        tries = [
            (
                f"{number} of {_dish(dish)} instead of {batches}",
                replace(day, orders={**day.orders, dish: number}),
            )
            for number in range(batches - 1, 0, -1)
        ]
        if len(day.orders) > 1:
            fewer = {name: number for name, number in day.orders.items() if name != dish}
            tries.append((f"leave out {_dish(dish)}", replace(day, orders=fewer)))
        yield tries


# ---- words -------------------------------------------------------------------------------------


def _limit_words(conflict: Conflict, formulation: Formulation) -> Iterable[str]:
    """Each limit of a conflict as a sentence; what nobody could be late for is not told."""
    said = [
        words
        for reference in conflict.references
        for words in _WORDS[reference.kind](reference, formulation)
    ]
    if not conflict.proved or (not conflict.minimal and len(set(said)) > _MOST_LIMITS):
        yield _all_limits_words(conflict, formulation)
        return
    yield from said or ["a dish takes longer, done as it must be, than its food may wait"]


def _all_limits_words(conflict: Conflict, formulation: Formulation) -> str:
    """That something clashes, where it was not found what."""
    jobs = formulation.problem.tasks if conflict.tasks is None else conflict.tasks
    of = {dish for job in formulation.work.jobs if job.id in jobs for dish in job.dishes}
    named = ", ".join(_dish(dish) for dish in sorted(of))
    return f"all the limits of {named} together; which of them clash was not found in the time"


def _horizon_words(_: Reference, formulation: Formulation) -> Iterable[str]:
    """The longest dish against the time there is."""
    clock = formulation.clock
    dish, minutes = _longest_dish(formulation)
    start, end = clock.instant(0), clock.instant(clock.horizon)
    if minutes <= clock.horizon:
        yield f"all of it has to be done between {start:%H:%M} and {end:%H:%M}"
        return
    yield (
        f"{_dish(dish)} needs {hours(minutes)} by itself at the least; between {start:%H:%M} and "
        f"{end:%H:%M} there are {hours(clock.horizon)}"
    )


def _longest_dish(formulation: Formulation) -> tuple[str, int]:
    """The dish whose steps, setting up and closing down included, take longest in a row."""
    longest: tuple[str, int] = ("the day", 0)
    for dish in {dish for job in formulation.work.jobs for dish in job.dishes}:
        graph: nx.DiGraph[str] = nx.DiGraph()
        lasts = {
            job.id: min(mode.duration for mode in formulation.problem.tasks[job.id].modes)
            for job in formulation.work.jobs
            if (dish in job.dishes or not job.dishes) and not job.when
        }
        graph.add_nodes_from(lasts)
        for link in formulation.work.links:
            if link.low is None or link.before not in lasts or link.after not in lasts:
                continue
            span = link.low + (lasts[link.before] if link.origin == "end" else 0)
            graph.add_edge(link.before, link.after, minutes=span)
        path = nx.dag_longest_path(graph, weight="minutes")
        minutes = sum(graph.edges[step]["minutes"] for step in pairwise(path)) + lasts[path[-1]]
        longest = max(longest, (dish, minutes), key=lambda each: each[1])
    return longest


def _window_words(reference: Reference, formulation: Formulation) -> Iterable[str]:
    task = formulation.problem.tasks[reference.id]
    until = "" if task.latest is None else f" at {formulation.clock.instant(task.latest):%H:%M}"
    yield f"'{_title(reference.id, formulation)}' has to end{until}"


def _lag_words(reference: Reference, formulation: Formulation) -> Iterable[str]:
    lag = formulation.problem.lags[int(reference.id)]
    if lag.reason:
        before, after = _title(lag.before, formulation), _title(lag.after, formulation)
        yield f"at most {lag.high} min between '{before}' and '{after}' ({lag.reason})"


def _budget_words(reference: Reference, formulation: Formulation) -> Iterable[str]:
    budget = next(each for each in formulation.problem.budgets if each.id == reference.id)
    yield f"{_dish(budget.id.split(':')[0])}: {budget.reason}"


def _capacity_words(reference: Reference, formulation: Formulation) -> Iterable[str]:
    resource = formulation.problem.resources[reference.id]
    counted = _counted(resource.id, formulation)
    yield f"there {'is' if counted.startswith('1 ') else 'are'} {counted}"


def _absence_words(reference: Reference, formulation: Formulation) -> Iterable[str]:
    name, _, place = reference.id.rpartition("#")
    away = formulation.problem.resources[name].absences[int(place)]
    clock = formulation.clock
    times = f"from {clock.instant(away.start):%H:%M} to {clock.instant(away.end):%H:%M}"
    if name == SOMEBODY:
        yield f"nobody is in the kitchen to watch the heat {times}"
    elif formulation.problem.resources[name].units:
        yield f"{_who(name, formulation)} away {times}"
    else:
        yield f"{_thing(name, away.amount)} {_are(away.amount)} wanted elsewhere {times}"


def _occupancy_words(reference: Reference, formulation: Formulation) -> Iterable[str]:
    kept = next(each for each in formulation.problem.occupancies if each.id == reference.id)
    yield (
        f"{_thing(kept.resource, kept.amount)} {_are(kept.amount)} in use "
        f"from '{_title(kept.fillers[0], formulation)}' to '{_title(kept.until, formulation)}'"
    )


_WORDS: dict[str, Callable[[Reference, Formulation], Iterable[str]]] = {
    "horizon": _horizon_words,
    "window": _window_words,
    "lag": _lag_words,
    "budget": _budget_words,
    "capacity": _capacity_words,
    "absence": _absence_words,
    "occupancy": _occupancy_words,
}


def _repair_words(repair: Repair, formulation: Formulation) -> str:
    """A change as an instruction."""
    reference, amount = repair.reference, repair.amount
    clock = formulation.clock
    if reference.kind == "horizon":
        end = clock.instant(clock.horizon + amount)
        return f"finish by {end:%H:%M}, {hours(amount)} later"
    if reference.kind == "window":
        return f"{_title(reference.id, formulation)} {hours(amount)} later"
    if reference.kind == "absence":
        return _back_words(reference.id.rpartition("#")[0], hours(amount), formulation)
    if reference.id.startswith("cooks:"):
        return f"{amount} more cook{'s' if amount > 1 else ''}"
    return f"{_thing(reference.id, amount)} more"


def _back_words(resource: str, longer: str, formulation: Formulation) -> str:
    """That what is missing for a while is there so much longer."""
    if resource == SOMEBODY:
        return f"somebody is in the kitchen {longer} longer, or again so much earlier"
    if formulation.problem.resources[resource].units:
        return f"{_who(resource, formulation)} back {longer} earlier, or away so much later"
    what = resource.partition(":")[0].replace("-", " ")
    return f"{what} free {longer} earlier, or so much longer"


def _title(job: str, formulation: Formulation) -> str:
    found = next((each for each in formulation.work.jobs if each.id == job), None)
    if found is None:
        return job
    dish = next(iter(found.dishes), "")
    title = _ONE_LOAD.sub("", found.title)
    return f"{title} ({_dish(dish)})" if dish else title


def _dish(name: str) -> str:
    """A dish's id as its name."""
    return name.replace("-", " ").capitalize()


def _thing(resource: str, count: int) -> str:
    """So many of a kind of thing: "1 burner", "2 pots of 8 quart"."""
    kind, _, size = resource.partition(":")
    if kind == "oven":
        shelves = -(-count // _HALVES)
        return f"{shelves} oven shel{'f' if shelves == 1 else 'ves'}"
    kind = kind.replace("-", " ")
    if count > 1:
        kind += "es" if kind.endswith("dish") else "s"
    if kind.startswith("board"):
        return f"{count} {size} {kind}"
    return f"{count} {kind} of {size}" if size else f"{count} {kind}"


def _names(resource: str, formulation: Formulation) -> list[str]:
    units: Sequence[str] = formulation.problem.resources[resource].units
    return [each.removeprefix("cook:").replace("-", " ").capitalize() for each in units]


def _who(resource: str, formulation: Formulation) -> str:
    names = _names(resource, formulation)
    return f"{' and '.join(names)} {_are(len(names))}"


def _are(count: int) -> str:
    return "is" if count == 1 else "are"


def _counted(resource: str, formulation: Formulation) -> str:
    """So many of something; cooks by name."""
    count = formulation.problem.resources[resource].capacity
    names = _names(resource, formulation)
    if names:
        return f"{count} cook{'s' if count > 1 else ''} for some of the work: {', '.join(names)}"
    return _thing(resource, count)
