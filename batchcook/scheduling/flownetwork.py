"""The network behind a schedule: an order that keeps precedence and capacities at any durations.

It holds the minimal lags and, for every resource, who hands how much of it to whom: a resource
flow network (Artigues, Michelon and Reusser, European Journal of Operational Research 149 (2003)
249-267; Leus and Herroelen, IIE Transactions 36 (2004) 667-682; both from memory). Whoever starts
only when all arcs into a step are kept never uses more of a resource than there is, however long
the steps before it took. Maximal lags, budgets and times away no order can promise: they are
listed as limits, to be watched. Times are integer minutes from the origin of the schedule.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import networkx as nx

from batchcook.scheduling.problem import Anchor, Budget

__all__ = ["Arc", "Away", "FlowNetwork", "Hold", "Limit", "Step"]


@dataclass(frozen=True)
class Step:
    """A piece of work: a task, the clean-down after it, or the warm-up before it.

    Attributes:
        id: Name.
        start: Start in the schedule.
        end: End in the schedule.
        floor: It starts no earlier than this.
        away: Half-open intervals in which something it holds is away; it lies before each of
            them in the schedule, and waits for their end where it would run into one.
    """

    id: str
    start: int
    end: int
    floor: int = 0
    away: tuple[tuple[int, int], ...] = ()

    @property
    def minutes(self) -> int:
        """How long it lasts in the schedule."""
        return self.end - self.start


@dataclass(frozen=True)
class Arc:
    """``to`` of ``after`` is at least ``least`` minutes after ``origin`` of ``before``.

    ``resources`` are those that ``before`` hands over to ``after``; none for a minimal lag.
    """

    before: str
    origin: Anchor
    after: str
    to: Anchor
    least: int = 0
    resources: tuple[str, ...] = ()


@dataclass(frozen=True)
class Limit:
    """``to`` of ``after`` should be at most ``most`` minutes after ``origin`` of ``before``.

    ``before`` is None where the minutes count from the origin of the schedule. A limit that is not
    ``told`` is held where that is possible, but its breach is no cause for alarm.
    """

    before: str | None
    origin: Anchor
    after: str
    to: Anchor
    most: int
    reason: str = ""
    told: bool = True


@dataclass(frozen=True)
class Hold:
    """``amount`` of a resource is held from the first start of ``openers`` to ``closer``'s end."""

    resource: str
    amount: int
    openers: tuple[str, ...]
    closer: str


@dataclass(frozen=True)
class Away:
    """``amount`` of a resource is missing in the half-open interval [start, end)."""

    resource: str
    start: int
    end: int
    amount: int


@dataclass(frozen=True)
class FlowNetwork:
    """Steps in an order in which every arc leads forward, with all that binds them.

    Attributes:
        steps: By id, in topological order.
        arcs: What is promised.
        limits: What is watched.
        budgets: Watched, too.
        holds: Who holds what from when to when.
        away: When something is missing.
        capacities: How much there is of each resource.
    """

    steps: Mapping[str, Step]
    arcs: tuple[Arc, ...] = ()
    limits: tuple[Limit, ...] = ()
    budgets: tuple[Budget, ...] = ()
    holds: tuple[Hold, ...] = ()
    away: tuple[Away, ...] = ()
    capacities: Mapping[str, int] = field(default_factory=dict)

    def graph(self, durations: Mapping[str, int] | None = None) -> nx.DiGraph[tuple[str, Anchor]]:
        """The arcs between the starts and ends of steps, with edge weights ``least``.

        The longest path to a node is its earliest time where there are no floors. An arc to an
        end leads to the start instead, earlier by the duration, since no step is interrupted.

        Args:
            durations: Minutes of steps that do not last as long as in the schedule.
        """
        lasting = {name: step.minutes for name, step in self.steps.items()} | dict(durations or {})
        graph: nx.DiGraph[tuple[str, Anchor]] = nx.DiGraph()
        for name in self.steps:
            graph.add_edge((name, "start"), (name, "end"), least=lasting[name])
        for arc in self.arcs:
            least = arc.least - (lasting[arc.after] if arc.to == "end" else 0)
            leaves, enters = (arc.before, arc.origin), _start_of(arc.after)
            known = graph.get_edge_data(leaves, enters, {"least": least})["least"]
            graph.add_edge(leaves, enters, least=max(least, known))
        return graph


def _start_of(step: str) -> tuple[str, Anchor]:
    return step, "start"
