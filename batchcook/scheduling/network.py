"""Longest paths through the lags: how long before and after each task the day must last."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from batchcook.scheduling.problem import Anchor, Problem, Span, Task

__all__ = ["Network", "network"]

_Node = tuple[str, Anchor]
_Arcs = Mapping[_Node, list[tuple[_Node, int]]]
_SOURCE: _Node = ("", "start")
_SINK: _Node = ("", "end")


@dataclass(frozen=True)
class Network:
    """Lower bounds from lags and durations alone, valid for each task if it is done.

    Attributes:
        heads: Minutes from the origin to the task's start, at least.
        tails: Minutes from the end of the task's work to the last release, at least.
        length: Minutes the whole needs, at least.
        consistent: False where lags contradict each other, so that there is no schedule.
        leaving: From a node to the nodes after it, each with the least difference.
        sure: The tasks that are always done.
    """

    heads: Mapping[str, int]
    tails: Mapping[str, int]
    length: int
    consistent: bool
    leaving: _Arcs
    sure: frozenset[str]

    def apart(self, span: Span) -> int | None:
        """Minutes from one anchor of a span to the other, at least; None where nothing binds."""
        root: _Node = (span.before, span.origin)
        reach, _ = _longest(self.leaving, self.sure | {span.before}, root)
        return reach.get((span.after, span.to))


def network(problem: Problem) -> Network:
    """Longest paths over the lags that always bind (Neumann, Schwindt and Zimmermann, 2003).

    A path to or from a task may run only through tasks that are always done.
    """
    arcs = _arcs(problem)
    sure = frozenset(task.id for task in problem.tasks.values() if not task.when) | {""}
    leaving, entering = _grouped(arcs)
    heads, acyclic = _longest(leaving, sure, _SOURCE)
    tails, _ = _longest(entering, sure, _SINK)
    return Network(
        heads={name: max(heads.get((name, "start"), 0), 0) for name in problem.tasks},
        tails={name: max(tails.get((name, "end"), 0), 0) for name in problem.tasks},
        length=heads.get(_SINK, 0),
        consistent=acyclic,
        leaving=leaving,
        sure=sure,
    )


def _arcs(problem: Problem) -> dict[tuple[_Node, _Node], int]:
    """Arcs with the least difference between the two nodes."""
    arcs: dict[tuple[_Node, _Node], int] = {}

    def at_least(before: _Node, after: _Node, length: int) -> None:
        key = (before, after)
        arcs[key] = max(length, arcs.get(key, length))

    for task in problem.tasks.values():
        start: _Node = (task.id, "start")
        end: _Node = (task.id, "end")
        shortest, longest = _lengths(problem, task)
        at_least(start, end, shortest)
        at_least(end, start, -longest)
        fixed = not problem.free_origin and task.earliest is not None
        at_least(_SOURCE, start, (task.earliest or 0) if fixed else 0)
        at_least(end, _SINK, 0)
    for lag in problem.lags:
        if lag.when:
            continue
        before, after = (lag.before, lag.origin), (lag.after, lag.to)
        if lag.low is not None:
            at_least(before, after, lag.low)
        if lag.high is not None:
            at_least(after, before, -lag.high)
    return arcs


def _lengths(problem: Problem, task: Task) -> tuple[int, int]:
    """The least and the most minutes from the start of a task to the end of its work."""
    durations = [mode.duration for mode in task.modes]
    family = problem.families.get(task.family or "")
    return min(durations), max(durations) + (family.set_up if family else 0)


def _grouped(arcs: Mapping[tuple[_Node, _Node], int]) -> tuple[_Arcs, _Arcs]:
    """The arcs by the node they leave, and turned round by the node they enter."""
    leaving: dict[_Node, list[tuple[_Node, int]]] = {}
    entering: dict[_Node, list[tuple[_Node, int]]] = {}
    for (before, after), length in arcs.items():
        leaving.setdefault(before, []).append((after, length))
        entering.setdefault(after, []).append((before, length))
    return leaving, entering


def _longest(leaving: _Arcs, sure: frozenset[str], root: _Node) -> tuple[dict[_Node, int], bool]:
    """Longest paths from a root through sure tasks, and whether no cycle is of positive length."""
    reach = {root: 0}
    fringe = [root]
    for _ in range(2 * len(leaving) + 2):
        moved: dict[_Node, None] = {}
        for node in fringe:
            for after, length in leaving.get(node, ()):
                if node[0] not in sure and node[0] != after[0]:
                    continue
                if after not in reach or reach[node] + length > reach[after]:
                    reach[after] = reach[node] + length
                    moved[after] = None
        fringe = list(moved)
        if not fringe:
            return reach, True
    return reach, False
