"""Times over the network behind a schedule, from how long the steps really take.

Where a function is generic, times are numbers for one day, or arrays with an entry a day, so that
one pass serves ten thousand days. NumPy comes with OR-Tools.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import reduce
from typing import Generic, TypeVar

import numpy as np
import numpy.typing as npt

from batchcook.scheduling.flownetwork import Arc, FlowNetwork, Limit

__all__ = ["Minutes", "Times", "earliest", "entering", "floats", "retime"]

Minutes = npt.NDArray[np.float64]
Times = Mapping[str, tuple[int, int]]

_ENOUGH = 8  # rounds of the same limits pushing each other

_M = TypeVar("_M", float, Minutes)


def retime(
    network: FlowNetwork,
    durations: Mapping[str, int],
    *,
    fixed: Mapping[str, tuple[int, int | None]] | None = None,
    now: int = 0,
    as_scheduled: bool = False,
) -> dict[str, tuple[int, int]]:
    """When everything starts and ends, as early as the network lets it.

    A step that starts a limited time waits, where that keeps the limit and does not push its end:
    food is not taken out early for a pan that is late. With the durations of the schedule nothing
    is later than there, and every limit kept there is kept. Limits that cannot be kept are broken
    here, and :func:`batchcook.scheduling.watching.watch` tells of them.

    Args:
        network: From :func:`batchcook.scheduling.scheduleflow.network_of`, say.
        durations: Minutes of steps that last longer or shorter than in the schedule.
        fixed: Steps begun, with their start and, where they are done, their end. A step that is
            done before one that should hand something to it passes that claim on.
        now: What has not begun starts no earlier, and what has not ended ends no earlier.
        as_scheduled: Nothing starts before its minute in the schedule, so that a day on which all
            goes as planned is the one that was printed.
    """
    lasting = {name: step.minutes for name, step in network.steps.items()} | dict(durations)
    begun = {
        name: (float(start), float(max(start + lasting[name], now) if end is None else end))
        for name, (start, end) in (fixed or {}).items()
    }
    lengths = {name: float(lasting[name]) for name in network.steps}
    floors = {
        name: float(max(step.floor, now, step.start if as_scheduled else 0))
        for name, step in network.steps.items()
    }
    held = [
        limit
        for limit in network.limits
        if limit.before is not None
        and limit.before not in begun
        and _least(network, limit, lasting) <= limit.most
    ]
    times = _holding(network, lengths, floors, begun, held)
    return {name: (round(start), round(end)) for name, (start, end) in times.items()}


def _holding(
    network: FlowNetwork,
    lengths: Mapping[str, float],
    floors: Mapping[str, float],
    begun: Mapping[str, tuple[float, float]],
    held: list[Limit],
) -> dict[str, tuple[float, float]]:
    """The earliest times that keep the limits; of those that clash the least is given up.

    Longest paths with the limits as arcs that lead back: they settle within as many rounds as
    there are limits, or never, and then the same limits push each other on round after round.
    """
    raised = dict(floors)
    pushing: list[Limit] = []
    repeats = 0
    for _ in range(len(held) + 2):
        times = earliest(network, lengths, raised, begun)
        broken = [limit for limit in held if _over(limit, times) > 0]
        if not broken:
            return times
        repeats = repeats + 1 if broken == pushing else 0
        pushing = broken
        if repeats == _ENOUGH:
            break
        for limit in broken:
            if limit.before is not None:
                start = times[limit.before][0] + _over(limit, times)
                raised[limit.before] = max(raised[limit.before], start)
    least = min(pushing, key=lambda limit: (limit.told, bool(limit.reason), -_over(limit, times)))
    kept = [limit for limit in held if limit is not least]
    return _holding(network, lengths, floors, begun, kept)


def _over(limit: Limit, times: Mapping[str, tuple[float, float]]) -> float:
    """By how many minutes a limit is broken."""
    origin = 0.0 if limit.before is None else times[limit.before][limit.origin == "end"]
    return times[limit.after][limit.to == "end"] - origin - limit.most


def earliest(
    network: FlowNetwork,
    lengths: Mapping[str, _M],
    floors: Mapping[str, float],
    begun: Mapping[str, tuple[_M, _M]] | None = None,
) -> dict[str, tuple[_M, _M]]:
    """Start and end of each step as early as arcs, floors and times away allow.

    Args:
        network: The network.
        lengths: Minutes of each step.
        floors: Each step's earliest start.
        begun: Start and end of steps that have begun.
    """
    into = entering(network)
    claims: _Claims[_M] = _Claims(network)
    times: dict[str, tuple[_M, _M]] = {}
    for name, step in network.steps.items():
        length = lengths[name]
        if begun is not None and name in begun:
            times[name] = begun[name]
            claims.pass_on(name, into[name], times)
            continue
        start = 0.0 * length + floors[name]
        for arc in into[name]:
            bound = claims.bound(arc, times)
            start = _later(start, bound - length if arc.to == "end" else bound)
        for away in step.away:
            start = _unless_away(start, length, away, away[1] + 0.0 * length)
        times[name] = (start, start + length)
    return times


def _later(one: _M, other: _M) -> _M:
    """The later of two times."""
    if isinstance(one, float):
        return max(one, other)
    return np.maximum(one, other)


def _unless_away(start: _M, length: _M, away: tuple[int, int], instead: _M) -> _M:
    """A start, or another in its place where the step would run into a time away."""
    leaves, returns = away
    if isinstance(start, float):
        return instead if start < returns and start + length > leaves else start
    return np.where((start < returns) & (start + length > leaves), instead, start)


class _Claims(Generic[_M]):
    """Who still has a claim on what a step that began out of turn holds.

    Where a step began before another that should have handed it something, whoever gets that
    thing next comes after both.
    """

    def __init__(self, network: FlowNetwork) -> None:
        self._claims: dict[tuple[str, str], _M] = {}
        self._closers: dict[tuple[str, str], list[str]] = {}
        for hold in network.holds:
            for opener in hold.openers:
                self._closers.setdefault((opener, hold.resource), []).append(hold.closer)

    def pass_on(self, name: str, arcs: list[Arc], times: Mapping[str, tuple[_M, _M]]) -> None:
        for arc in arcs:
            bound = self.bound(arc, times)
            for resource in arc.resources:
                for closer in self._closers.get((name, resource), [name]):
                    known = self._claims.get((closer, resource), bound)
                    self._claims[closer, resource] = _later(known, bound)

    def bound(self, arc: Arc, times: Mapping[str, tuple[_M, _M]]) -> _M:
        bound = times[arc.before][arc.origin == "end"] + arc.least
        for resource in arc.resources:
            claim = self._claims.get((arc.before, resource))
            if claim is not None:
                bound = _later(bound, claim)
        return bound


def entering(network: FlowNetwork) -> dict[str, list[Arc]]:
    """The arcs into each step."""
    into: dict[str, list[Arc]] = {name: [] for name in network.steps}
    for arc in network.arcs:
        into[arc.after].append(arc)
    return into


def _least(network: FlowNetwork, limit: Limit, lasting: Mapping[str, int]) -> float:
    """The fewest minutes that a limited time takes, by the arcs between its ends alone."""
    if limit.before is None:
        return -np.inf
    reached = {limit.before: 0 if limit.origin == "start" else -lasting[limit.before]}
    into = entering(network)
    for name in network.steps:
        bounds = [
            reached[arc.before]
            + (lasting[arc.before] if arc.origin == "end" else 0)
            + arc.least
            - (lasting[name] if arc.to == "end" else 0)
            for arc in into[name]
            if arc.before in reached
        ]
        if bounds and name != limit.before:
            reached[name] = max(bounds)
    if limit.after not in reached:
        return -np.inf
    return reached[limit.after] + (lasting[limit.after] if limit.to == "end" else 0)


def _latest_start(arc: Arc, latest: Mapping[str, _M], lengths: Mapping[str, _M]) -> _M:
    """The latest start of the step that an arc leaves, given that of the step it enters."""
    bound = latest[arc.after] - arc.least
    if arc.to == "end":
        bound = bound + lengths[arc.after]
    return bound - lengths[arc.before] if arc.origin == "end" else bound


def floats(
    network: FlowNetwork,
    lengths: Mapping[str, _M],
    floors: Mapping[str, float] | None = None,
    begun: Mapping[str, tuple[_M, _M]] | None = None,
) -> dict[str, _M]:
    """Total float of each step: how much later it may start without a later finish, in minutes.

    Over arcs, floors and times away, not over limits (the critical-path method). The critical
    steps are those with none.

    Args:
        network: The network.
        lengths: Minutes of each step.
        floors: Each step's earliest start; those of the network where None.
        begun: Start and end of steps that have begun.
    """
    own = {name: step.floor for name, step in network.steps.items()}
    times = earliest(network, lengths, own if floors is None else floors, begun)
    finish = reduce(_later, (end for _, end in times.values()))
    leaving: dict[str, list[Arc]] = {name: [] for name in network.steps}
    for arc in network.arcs:
        leaving[arc.before].append(arc)
    latest: dict[str, _M] = {}
    for name in reversed(list(network.steps)):
        start = finish - lengths[name]
        for arc in leaving[name]:
            start = -_later(-start, -_latest_start(arc, latest, lengths))
        for away in reversed(network.steps[name].away):
            start = _unless_away(start, lengths[name], away, away[0] - lengths[name])
        latest[name] = start
    return {name: latest[name] - times[name][0] for name in network.steps}
