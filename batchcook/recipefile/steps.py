"""The steps of a recipe must use everything once, go one way, and end in one dish."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Any

import networkx as nx

from batchcook.complaints import Complaint
from batchcook.recipefile.names import ingredient_names, meant
from batchcook.recipefile.sheet import Draft

__all__ = ["step_faults"]


def step_faults(draft: Draft) -> Iterator[Complaint]:
    """Every fault in how ingredients and steps hang together."""
    yield from _names_used_twice(draft)
    yield from _ingredients_not_used_once(draft)
    yield from _steps_of_nothing(draft)
    yield from _circles(draft)
    yield from _outcomes_never_used(draft)
    yield from _vessels_never_used(draft)


def _names_used_twice(draft: Draft) -> Iterator[Complaint]:
    """No two ingredients and no two steps are called the same."""
    for at, name in _repeated(ingredient_names(draft)):
        yield Complaint(
            draft.places.at("ingredients", at),
            f"a second ingredient is called {name!r}",
            'a name of its own for each, such as name = "oil for the pot"',
        )
    for at, name in _repeated(_named(draft.steps)):
        yield Complaint(
            draft.places.at("steps", at, "name"),
            f"a second step is called {name!r}",
            "a name of its own",
        )


def _ingredients_not_used_once(draft: Draft) -> Iterator[Complaint]:
    """Each ingredient goes in at exactly one step."""
    names = {name for _, name in ingredient_names(draft)}
    uses = Counter(
        meant(name, names) for at, _ in draft.steps for name in draft.texts("steps", at, "takes")
    )
    if any(entry.get("takes", []) is None for _, entry in draft.steps):
        return
    for name, at in {name: at for at, name in ingredient_names(draft)}.items():
        if uses[name] == 0:
            yield Complaint(
                draft.places.at("ingredients", at),
                f"{name!r} is not used by any step",
                "a step that takes it",
            )
        if uses[name] > 1:
            yield Complaint(
                draft.places.at("ingredients", at),
                f"{name!r} is taken {uses[name]} times",
                "two ingredients with names of their own where it is used twice",
            )


def _steps_of_nothing(draft: Draft) -> Iterator[Complaint]:
    """Each step takes something: ingredients, or what an earlier step made."""
    for at, entry in draft.steps:
        if entry.get("takes", []) == [] and entry.get("after", []) == []:
            yield Complaint(
                draft.places.at("steps", at),
                f"step {entry.get('name')!r} takes nothing",
                "ingredients in takes, or earlier steps in after",
            )


def _circles(draft: Draft) -> Iterator[Complaint]:
    """No step waits for itself, however far round."""
    graph = _order(draft)
    places = {name: at for at, name in reversed(_named(draft.steps))}
    for tangle in nx.strongly_connected_components(graph):
        first = min(tangle, key=lambda name: places[name])
        if len(tangle) == 1 and not graph.has_edge(first, first):
            continue
        around = [edge[0] for edge in nx.find_cycle(graph.subgraph(tangle), first)]
        at = places[around[0]]
        yield Complaint(
            draft.places.at("steps", at, "after"),
            _circle_in_words(around),
            "steps that follow one another, each after the ones it needs",
        )


def _circle_in_words(around: list[str]) -> str:
    """A ring of steps, each of which needs the one before it."""
    if len(around) == 1:
        return f"{around[0]!r} waits for itself"
    waits = [
        f"{name!r} waits for {earlier!r}"
        for name, earlier in zip(around, [around[-1], *around[:-1]], strict=True)
    ]
    return f"the steps go round in a circle, so none can be first: {', '.join(waits)}"


def _outcomes_never_used(draft: Draft) -> Iterator[Complaint]:
    """The dish is what the last step makes; every other step's outcome goes into a later one."""
    named = _named(draft.steps)
    order = _order(draft)
    used = {name for name in order if order.out_degree(name)}
    for at, name in named[:-1]:
        if name not in used:
            yield Complaint(
                draft.places.at("steps", at),
                f"what {name!r} makes is never used",
                f"a later step with {name!r} in its after; the last step makes the dish",
            )
    if named and named[-1][1] in used and nx.is_directed_acyclic_graph(order):
        yield Complaint(
            draft.places.at("steps", named[-1][0]),
            f"the last step, {named[-1][1]!r}, is not the end",
            "the step that finishes the dish, written last",
        )


def _vessels_never_used(draft: Draft) -> Iterator[Complaint]:
    """Each vessel is filled by some step."""
    used = {meant(str(entry.get("in")), draft.vessels) for _, entry in draft.steps}
    for name in draft.vessels:
        if name not in used:
            yield Complaint(
                draft.places.at("vessels", name),
                f"the vessel {name!r} is never filled",
                f'a step with in = "{name}", or no such vessel',
            )


def _order(draft: Draft) -> nx.DiGraph[str]:
    """An edge from each step to each that takes its outcome, in the order of the file."""
    graph: nx.DiGraph[str] = nx.DiGraph()
    graph.add_nodes_from(name for _, name in _named(draft.steps))
    for at, name in _named(draft.steps):
        for written in draft.texts("steps", at, "after"):
            earlier = meant(written, graph)
            if earlier in graph:
                graph.add_edge(earlier, name)
    return graph


def _named(entries: list[tuple[int, dict[str, Any]]]) -> list[tuple[int, str]]:
    return [(at, entry["name"]) for at, entry in entries if isinstance(entry.get("name"), str)]


def _repeated(named: list[tuple[int, str]]) -> list[tuple[int, str]]:
    """Those whose name was there before."""
    seen: set[str] = set()
    again = []
    for at, name in named:
        if name in seen:
            again.append((at, name))
        seen.add(name)
    return again
