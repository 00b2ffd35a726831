"""Why a day cannot be done, in kitchen words, and the smallest changes that would do."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

import networkx as nx

from batchcook.day.formulation import Formulation
from batchcook.day.prepday import PrepDay
from batchcook.day.whatif import PANS, changed_by, kinds_held
from batchcook.kitchens.pans import Pans, pan_id
from batchcook.lengths import hours
from batchcook.scheduling.conflict import Conflict, Repair, explain, repairs
from batchcook.scheduling.relaxing import Reference

__all__ = ["Clash", "find_clash"]

_MAY_GIVE_WAY = frozenset({"horizon", "window", "absence", "capacity"})
"""What a cook may change. Limits of food safety are never offered."""

_MOST_CHANGES = 5

_MOST_PANS = 2
"""More than this many pans are not borrowed for a day."""

_HALVES = 2
"""Ovens are counted in half shelves."""


@dataclass(frozen=True)
class Clash:
    """Limits that cannot all be kept, and changes of which each alone is enough.

    Attributes:
        limits: What clashes, a sentence each.
        changes: What would work, each verified by finding a day that does it.
        minimal: Whether every limit named is known to be needed.
    """

    limits: tuple[str, ...]
    changes: tuple[str, ...]
    minimal: bool

    def __str__(self) -> str:
        """Both as lines of text."""
        lines = ["These cannot all be:" if len(self.limits) > 1 else "This cannot be:"]
        lines += [f"- {each}" for each in self.limits]
        if self.changes:
            lines.append("Any one of these would do:")
            lines += [f"- {each}" for each in self.changes]
        else:
            lines.append("No single small change was found that would do.")
        return "\n".join(lines)


def find_clash(
    formulation: Formulation,
    day: PrepDay,
    possible: Callable[[PrepDay], bool],
    *,
    seconds: float,
) -> Clash:
    """What clashes in a day that is proved impossible.

    Args:
        formulation: The day as it was put.
        day: The order it came from.
        possible: Whether a changed order can be done; solves it.
        seconds: Wall-clock time for the search of the conflict, and again for the changes.
    """
    conflict = explain(formulation.problem, seconds=seconds)
    open_to_change = [each for each in conflict.references if each.kind in _MAY_GIVE_WAY]
    each_seconds = max(1.0, seconds / (len(open_to_change) or 1))
    found = repairs(formulation.problem, open_to_change, seconds=each_seconds)
    changes = [words for each in found if (words := _repair_words(each, formulation))]
    changes += [*_more_pans(formulation, day, possible), *_smaller_orders(day, possible)]
    return Clash(
        tuple(dict.fromkeys(_limit_words(conflict, formulation))),
        tuple(dict.fromkeys(changes))[:_MOST_CHANGES],
        conflict.minimal,
    )


def _more_pans(
    formulation: Formulation, day: PrepDay, possible: Callable[[PrepDay], bool]
) -> list[str]:
    """Pans that would do: with more, dishes are laid out in fewer goes, which is other work."""
    held = kinds_held(formulation.work)
    words = []
    for kind, key in PANS.items():
        there: tuple[Pans, ...] = getattr(day.kitchen, key)
        for number in range(1, _MOST_PANS + 1) if kind in held and there else ():
            more: dict[str, Any] = {key: changed_by(there, number)}
            if possible(replace(day, kitchen=replace(day.kitchen, **more))):
                words.append(f"{_thing(pan_id(kind, there[0]), number)} more")
                break
    return words


def _smaller_orders(day: PrepDay, possible: Callable[[PrepDay], bool]) -> list[str]:
    """Orders with a batch less that can be done."""
    words = []
    for dish, batches in day.orders.items():
        if batches > 1:
            fewer = replace(day, orders={**day.orders, dish: batches - 1})
            change = f"{batches - 1} of {_dish(dish)} instead of {batches}"
        elif len(day.orders) > 1:
            fewer = replace(day, orders={k: v for k, v in day.orders.items() if k != dish})
            change = f"leave out {_dish(dish)}"
        else:
            continue
        if possible(fewer):
            words.append(change)
    return words


# ---- words -------------------------------------------------------------------------------------


def _limit_words(conflict: Conflict, formulation: Formulation) -> Iterable[str]:
    """Each limit of a conflict as a sentence."""
    if not conflict.references:
        yield "a dish takes longer, done as it must be, than its food may wait"
    for reference in conflict.references:
        yield from _WORDS[reference.kind](reference, formulation)


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
    yield task.reason or f"{_title(reference.id, formulation)} has a set time"


def _lag_words(reference: Reference, formulation: Formulation) -> Iterable[str]:
    lag = formulation.problem.lags[int(reference.id)]
    before, after = _title(lag.before, formulation), _title(lag.after, formulation)
    within = f"at most {lag.high} min between '{before}' and '{after}'"
    yield f"{within} ({lag.reason})" if lag.reason else within


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
    yield (
        f"{_who(name, formulation)} away from {clock.instant(away.start):%H:%M} "
        f"to {clock.instant(away.end):%H:%M}"
    )


def _occupancy_words(reference: Reference, formulation: Formulation) -> Iterable[str]:
    kept = next(each for each in formulation.problem.occupancies if each.id == reference.id)
    yield (
        f"{_thing(kept.resource, kept.amount)} {'is' if kept.amount == 1 else 'are'} in use "
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
        name = reference.id.rpartition("#")[0]
        return f"{_who(name, formulation)} back {hours(amount)} earlier, or away so much later"
    if reference.id.startswith("cooks:"):
        return f"{amount} more cook{'s' if amount > 1 else ''}"
    return f"{_thing(reference.id, amount)} more"


def _title(job: str, formulation: Formulation) -> str:
    found = next((each for each in formulation.work.jobs if each.id == job), None)
    if found is None:
        return job
    dish = next(iter(found.dishes), "")
    return f"{found.title} ({_dish(dish)})" if dish else found.title


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
    if names:
        return f"{' and '.join(names)} {'is' if len(names) == 1 else 'are'}"
    return f"{resource} is"


def _counted(resource: str, formulation: Formulation) -> str:
    """So many of something; cooks by name."""
    count = formulation.problem.resources[resource].capacity
    names = _names(resource, formulation)
    if names:
        return f"{count} cook{'s' if count > 1 else ''} for some of the work: {', '.join(names)}"
    return _thing(resource, count)
