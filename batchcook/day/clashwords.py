"""Limits that clash, and what would make them give way, in kitchen words."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from itertools import pairwise

import networkx as nx

from batchcook.day.formulation import Formulation
from batchcook.day.resources import SOMEBODY
from batchcook.lengths import hours
from batchcook.scheduling.conflict import Conflict, Repair
from batchcook.scheduling.relaxing import Reference

__all__ = ["dish_name", "limit_words", "repair_words", "thing"]

_MOST_LIMITS = 8
"""More than this many are not told where some of them may have nothing to do with it."""

_ONE_LOAD = re.compile(r", load \d+ of \d+$")
"""What holds for one load holds for all of them."""

_HALVES = 2
"""Ovens are counted in half shelves."""


def limit_words(conflict: Conflict, formulation: Formulation) -> Iterable[str]:
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
    named = ", ".join(dish_name(dish) for dish in sorted(of))
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
        f"{dish_name(dish)} needs {hours(minutes)} by itself at the least; between {start:%H:%M} "
        f"and {end:%H:%M} there are {hours(clock.horizon)}"
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
    yield f"{dish_name(budget.id.split(':')[0])}: {budget.reason}"


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
        yield f"{thing(name, away.amount)} {_are(away.amount)} wanted elsewhere {times}"


def _occupancy_words(reference: Reference, formulation: Formulation) -> Iterable[str]:
    kept = next(each for each in formulation.problem.occupancies if each.id == reference.id)
    yield (
        f"{thing(kept.resource, kept.amount)} {_are(kept.amount)} in use "
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


def repair_words(repair: Repair, formulation: Formulation) -> str:
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
    return f"{thing(reference.id, amount)} more"


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
    return f"{title} ({dish_name(dish)})" if dish else title


def dish_name(name: str) -> str:
    """A dish's id as its name."""
    return name.replace("-", " ").capitalize()


def thing(resource: str, count: int) -> str:
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
    return thing(resource, count)
