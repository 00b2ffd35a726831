"""Longest paths through the lags: how long before and after each task the day must last."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from batchcook.scheduling.problem import Anchor, Condition, Problem, Span, Task

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
        consistent: False where lags of tasks that are always done contradict each other, so that
            there is no schedule.
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
        return self.reach(root).get((span.after, span.to))

    def reach(self, root: tuple[str, Anchor]) -> Mapping[tuple[str, Anchor], int]:
        """Minutes from an anchor to every other that it holds back, at least."""
        return _longest(self.leaving, self.sure | {root[0]}, root)[0]

    def reach_back(self, root: tuple[str, Anchor]) -> Mapping[tuple[str, Anchor], int]:
        """Minutes to an anchor from every other that holds it back, at least."""
        return _longest(_turned(self.leaving), self.sure | {root[0]}, root)[0]


def network(problem: Problem) -> Network:
    """Longest paths over the lags that always bind (Neumann, Schwindt and Zimmermann, 2003).

    A path to or from a task runs through tasks that are done whenever it is. Where a choice
    decides which tasks are done, the shortest of the longest paths by its options counts.
    """
    arcs = _arcs(problem)
    sure = frozenset(task.id for task in problem.tasks.values() if not task.when) | {""}
    leaving, entering = _grouped(arcs)
    heads, consistent = _longest(leaving, sure, _SOURCE)
    tails: Mapping[_Node, int] = {}
    if consistent:
        tails, _ = _longest(entering, sure, _SINK)
        # Tasks that need not be done may contradict each other; then what is sure has to do.
        chosen, settled = _through(problem, entering, _SOURCE)
        if settled:
            heads, tails = chosen, _through(problem, leaving, _SINK)[0]
    return Network(
        heads={name: max(heads.get((name, "start"), 0), 0) for name in problem.tasks},
        tails={name: max(tails.get((name, "end"), 0), 0) for name in problem.tasks},
        length=heads.get(_SINK, 0),
        consistent=consistent,
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


def _turned(leaving: _Arcs) -> _Arcs:
    """The same arcs, each from where it led to."""
    entering: dict[_Node, list[tuple[_Node, int]]] = {}
    for before, arcs in leaving.items():
        for after, length in arcs:
            entering.setdefault(after, []).append((before, length))
    return entering


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


@dataclass(frozen=True)
class _Ways:
    """The arcs of a node to the next nodes: those there always, and those by option of a choice."""

    always: tuple[tuple[_Node, int], ...]
    options: tuple[tuple[tuple[tuple[_Node, int], ...], ...], ...]

    def longest(self, known: Mapping[_Node, int]) -> int | None:
        """The longest way over known nodes, whatever is chosen; None if there is no way."""
        lengths = [known[node] + length for node, length in self.always if node in known]
        for options in self.options:
            ways = [
                max((known[node] + length for node, length in arcs if node in known), default=None)
                for arcs in options
            ]
            found = [way for way in ways if way is not None]
            if len(found) == len(ways):
                lengths.append(min(found))
        return max(lengths, default=None)


def _through(problem: Problem, arcs: _Arcs, root: _Node) -> tuple[dict[_Node, int], bool]:
    """The longest way between each node and a root, and whether no cycle is of positive length."""
    ways = {node: _ways(problem, node, nexts) for node, nexts in arcs.items() if node != root}
    known = {root: 0}
    for _ in range(len(ways) + 2):
        moved = False
        for node, way in ways.items():
            length = way.longest(known)
            if length is not None and (node not in known or length > known[node]):
                known[node] = length
                moved = True
        if not moved:
            return known, True
    return known, False


def _ways(problem: Problem, node: _Node, nexts: list[tuple[_Node, int]]) -> _Ways:
    """Sort the arcs of a node by what is known to be done when it is."""
    own = problem.tasks[node[0]].when if node[0] else ()
    always: list[tuple[_Node, int]] = []
    chosen: dict[str, dict[str, list[tuple[_Node, int]]]] = {}
    for after, length in nexts:
        when = problem.tasks[after[0]].when if after[0] else ()
        left = [condition for condition in when if not _implied(condition, own)]
        if not left:
            always.append((after, length))
        elif len(left) == 1:
            options = chosen.setdefault(left[0].choice, {})
            for option in left[0].options:
                options.setdefault(option, []).append((after, length))
    return _Ways(
        tuple(always),
        tuple(
            tuple(tuple(options.get(option, ())) for option in _open(problem, choice, own))
            for choice, options in chosen.items()
        ),
    )


def _implied(condition: Condition, own: tuple[Condition, ...]) -> bool:
    """Whether a condition holds wherever a task's own do."""
    return any(
        other.choice == condition.choice and other.options <= condition.options for other in own
    )


def _open(problem: Problem, choice: str, own: tuple[Condition, ...]) -> list[str]:
    """The options of a choice that a task's own conditions leave open."""
    return [
        option
        for option in problem.choices[choice].options
        if all(option in item.options for item in own if item.choice == choice)
    ]
