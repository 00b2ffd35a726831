"""Builds the network behind a schedule: lags in their order, resources from hand to hand."""

from __future__ import annotations

import heapq
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import networkx as nx

from batchcook.scheduling.classes import missing
from batchcook.scheduling.flownetwork import Arc, Away, FlowNetwork, Hold, Limit, Step
from batchcook.scheduling.lagarcs import begun_together, lags_in_order
from batchcook.scheduling.problem import Absence, Anchor, Budget, Lag
from batchcook.scheduling.suppliers import Piece, Supply

__all__ = ["Draft", "connect"]


@dataclass(frozen=True)
class Draft:
    """What is known of a schedule before its order is: times, lags, and who holds what when.

    Attributes:
        times: Start and end of each step.
        lags: Minimal and maximal lags between steps; their conditions have been looked at.
        holds: Who holds what; those without length in the schedule take nothing.
        capacities: How much there is of each resource.
        away: When some of it is missing; such intervals may overlap.
        floors: Steps that start no earlier than a minute of their own.
        latest: Steps whose end has a latest minute.
        kept: Limits that are held where possible, and are not told.
        budgets: Spans that together have a limit.
        turns: Pairs of steps of which the first ends before the second starts, because they
            need a resource in different states, with that resource.
    """

    times: Mapping[str, tuple[int, int]]
    lags: Sequence[Lag] = ()
    holds: Sequence[Hold] = ()
    capacities: Mapping[str, int] = field(default_factory=dict)
    away: Sequence[Away] = ()
    floors: Mapping[str, int] = field(default_factory=dict)
    latest: Sequence[Limit] = ()
    kept: Sequence[Limit] = ()
    budgets: Sequence[Budget] = ()
    turns: Sequence[tuple[str, str, str]] = ()


def connect(draft: Draft) -> FlowNetwork:
    """The network of a schedule.

    A minimal lag that leads against the order of the schedule (it may, where it is less than 0
    or counts to an end) cannot be promised and becomes a limit; a maximal lag whose end comes
    first can be promised.

    Raises:
        ValueError: The schedule uses more of a resource than there is.
    """
    arcs, limits = lags_in_order(draft.times, draft.lags)
    order = _order(draft, arcs)
    flow = _Flow(draft, order, arcs)
    flow.run()
    every = [*arcs, *flow.handed()]
    every += begun_together(draft.lags, _order(draft, every), every)
    steps = {
        name: Step(
            name,
            *draft.times[name],
            floor=max(draft.floors.get(name, 0), flow.floors[name]),
            away=tuple(sorted(flow.away[name])),
        )
        for name in _order(draft, every)
    }
    return FlowNetwork(
        steps=steps,
        arcs=tuple(every),
        limits=(*limits, *draft.latest, *draft.kept, *_spans_as_scheduled(draft)),
        budgets=tuple(draft.budgets),
        holds=tuple(draft.holds),
        away=tuple(draft.away),
        capacities=dict(draft.capacities),
    )


def _spans_as_scheduled(draft: Draft) -> list[Limit]:
    """Spans no longer than in the schedule keep every budget that the schedule keeps."""
    return [
        Limit(
            span.before,
            span.origin,
            span.after,
            span.to,
            _minute(draft, span.after, span.to) - _minute(draft, span.before, span.origin),
            budget.reason,
            told=False,
        )
        for budget in draft.budgets
        for span in budget.spans
        if span.before in draft.times and span.after in draft.times
    ]


def _minute(draft: Draft, step: str, anchor: Anchor) -> int:
    return draft.times[step][0 if anchor == "start" else 1]


def _order(draft: Draft, arcs: Sequence[Arc]) -> list[str]:
    """The steps by start, ties so that every lag leads forward."""
    graph: nx.DiGraph[str] = nx.DiGraph()
    graph.add_nodes_from(draft.times)
    graph.add_edges_from((arc.before, arc.after) for arc in arcs)
    ranks = {name: rank for rank, name in enumerate(draft.times)}
    return list(
        nx.lexicographical_topological_sort(graph, lambda name: (*draft.times[name], ranks[name]))
    )


class _Flow:
    """Hands every resource on, step by step, in the order of the schedule."""

    def __init__(self, draft: Draft, order: Sequence[str], arcs: Sequence[Arc]) -> None:
        self._draft = draft
        self._order = order
        self._ranks = {name: rank for rank, name in enumerate(order)}
        self._entering: dict[str, list[Arc]] = defaultdict(list)
        for arc in arcs:
            self._entering[arc.after].append(arc)
        self._supplies = {name: Supply(name, most) for name, most in draft.capacities.items()}
        self._hands: dict[tuple[str, str], list[str]] = {}
        self._ended: dict[str, int] = {}
        self.floors: dict[str, int] = defaultdict(int)
        self.away: dict[str, set[tuple[int, int]]] = defaultdict(set)

    def run(self) -> None:
        opened = self._opened()
        events = self._absences()
        for name in self._order:
            start = self._draft.times[name][0]
            while events and events[0].start <= start:
                self._leave(heapq.heappop(events))
            self._take_turns(name)
            self._ended[name] = self._surely_ended(name)
            for hold in opened.get(name, ()):
                self._take(name, start, hold)
        for away in sorted(events):
            self._leave(away)

    def handed(self) -> list[Arc]:
        """The hand-overs, one arc a pair of steps."""
        return [
            Arc(before, "end", after, "start", 0, tuple(sorted(set(resources))))
            for (before, after), resources in self._hands.items()
        ]

    def _opened(self) -> dict[str, list[Hold]]:
        """The holds of some length, by the opener that comes first."""
        opened: dict[str, list[Hold]] = defaultdict(list)
        for hold in self._draft.holds:
            first = min(hold.openers, key=self._ranks.__getitem__)
            if self._draft.times[first][0] < self._draft.times[hold.closer][1]:
                opened[first].append(hold)
        return opened

    def _absences(self) -> list[_Leaving]:
        """Times away as disjoint pieces in order of time."""
        events = []
        for name, most in self._draft.capacities.items():
            gaps = tuple(
                Absence(each.start, each.end, each.amount)
                for each in self._draft.away
                if each.resource == name
            )
            events += [
                _Leaving(each.start, each.end, name, each.amount) for each in missing(gaps, most)
            ]
        heapq.heapify(events)
        return events

    def _leave(self, leaving: _Leaving) -> None:
        """Part of a resource is missing until it comes back; those that held it come before."""
        supply = self._supplies[leaving.resource]
        pieces = supply.take(leaving.start, leaving.amount, lambda piece: piece.after is None)
        for piece in pieces:
            for name in piece.holders:
                self.away[name].add((leaving.start, leaving.end))
            supply.give(replace(piece, free=leaving.end, floor=leaving.end))

    def _take(self, name: str, start: int, hold: Hold) -> None:
        """A hold gets its amount from what is free, best from who is sure to have ended."""
        supply = self._supplies[hold.resource]
        pieces = supply.take(start, hold.amount, lambda piece: self._is_sure(piece, name))
        for opener in hold.openers:
            for piece in pieces:
                self._hand(piece, opener, hold.resource)
        holders = {holder for piece in pieces for holder in piece.holders}
        holders |= set(hold.openers)
        end = self._draft.times[hold.closer][1]
        supply.give(Piece(end, hold.amount, hold.closer, 0, frozenset(holders)))
        self._ended[name] = self._surely_ended(name)

    def _hand(self, piece: Piece, to: str, resource: str) -> None:
        self.floors[to] = max(self.floors[to], piece.floor)
        if piece.after is not None and piece.after != to:
            self._hands.setdefault((piece.after, to), []).append(resource)
            self._entering[to].append(Arc(piece.after, "end", to, "start"))

    def _take_turns(self, name: str) -> None:
        """Steps that need a resource in different states go one after the other."""
        for before, after, resource in self._draft.turns:
            if after == name:
                self._hands.setdefault((before, after), []).append(resource)
                self._entering[after].append(Arc(before, "end", after, "start"))

    def _is_sure(self, piece: Piece, name: str) -> bool:
        """Whether a piece comes without a new arc or floor."""
        if piece.floor > 0:
            return False
        return piece.after is None or bool(self._ended[name] >> self._ranks[piece.after] & 1)

    def _surely_ended(self, name: str) -> int:
        """The steps that arcs alone prove to have ended when this one starts, as bits."""
        found = 0
        for arc in self._entering[name]:
            if arc.to != "start" or arc.least < 0:
                continue
            found |= self._ended.get(arc.before, 0)
            if arc.origin == "end":
                found |= 1 << self._ranks[arc.before]
        return found


@dataclass(frozen=True, order=True)
class _Leaving:
    """Part of a resource goes away, in order of time."""

    start: int
    end: int
    resource: str
    amount: int
