"""Lags as arcs of the network behind a schedule."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence

import networkx as nx

from batchcook.scheduling.flownetwork import Arc, Limit
from batchcook.scheduling.problem import Lag

__all__ = ["begun_together", "lags_in_order"]


def lags_in_order(
    times: Mapping[str, tuple[int, int]], lags: Sequence[Lag]
) -> tuple[list[Arc], list[Limit]]:
    """What of the lags leads forward, and what must be watched.

    Args:
        times: Start and end of each step in the schedule.
        lags: Lags that bind.
    """
    arcs: list[Arc] = []
    limits: list[Limit] = []
    tied: nx.DiGraph[str] = nx.DiGraph()
    tied.add_nodes_from(times)

    def promised(arc: Arc) -> bool:
        first, second = times[arc.before][0], times[arc.after][0]
        if first > second or arc.before == arc.after:
            return False
        if first == second and nx.has_path(tied, arc.after, arc.before):
            return False
        if first == second:
            tied.add_edge(arc.before, arc.after)
        arcs.append(arc)
        return True

    for lag in lags:
        if lag.low is not None:
            arc = Arc(lag.before, lag.origin, lag.after, lag.to, lag.low)
            if not promised(arc):
                limits.append(_turned(arc, lag.reason))
        if lag.high is not None:
            arc = Arc(lag.after, lag.to, lag.before, lag.origin, -lag.high)
            promised(arc)
            # Told even so: a cook may have begun out of turn.
            limits.append(_turned(arc, lag.reason))
    return arcs, limits


def _turned(arc: Arc, reason: str) -> Limit:
    """An arc as a limit on the way back."""
    return Limit(arc.after, arc.to, arc.before, arc.origin, -arc.least, reason)


def begun_together(lags: Sequence[Lag], order: Sequence[str], arcs: Sequence[Arc]) -> list[Arc]:
    """Where one start is a fixed time after another, the first waits for what the second needs.

    Only for what comes before both; the limit tells of the rest.

    Args:
        lags: Lags that bind.
        order: The steps in topological order.
        arcs: All that binds them so far.
    """
    ranks = {name: rank for rank, name in enumerate(order)}
    entering: dict[str, list[Arc]] = defaultdict(list)
    for arc in arcs:
        entering[arc.after].append(arc)
    rigid = [
        (lag.before, lag.after, lag.low)
        for lag in lags
        if lag.low is not None and lag.low == lag.high and lag.origin == lag.to == "start"
    ]
    found = []
    for first, second, gap in sorted(rigid, key=lambda pair: -ranks[pair[0]]):
        for arc in tuple(entering[second]):
            if arc.to == "start" and ranks[arc.before] < ranks[first]:
                earlier = Arc(arc.before, arc.origin, first, "start", arc.least - gap)
                entering[first].append(earlier)
                found.append(earlier)
    return found
