"""Searches the smaller problems in which the parts of families are merged into whole runs.

Such a problem is solved in a fraction of the time, but its best schedule is no better than the
merging. So several are searched in turn: all hurried parts within their groups, all across them,
and from the better of the two on one family after the other the other way, or its run divided.
"""

from __future__ import annotations

import time
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from itertools import islice

from ortools.sat.python import cp_model

from batchcook.scheduling.constraints import constrain
from batchcook.scheduling.energy import shortest_day
from batchcook.scheduling.extraction import extract
from batchcook.scheduling.hints import suggest
from batchcook.scheduling.listing import list_schedule, makespan
from batchcook.scheduling.merged import Merged
from batchcook.scheduling.merging import Way, divisible_families, hurried_families, merge
from batchcook.scheduling.network import network
from batchcook.scheduling.problem import Lag, Problem
from batchcook.scheduling.schedule import Schedule
from batchcook.scheduling.searching import FINDING, FOUND, search
from batchcook.scheduling.variables import declare

__all__ = ["WholeRuns"]

# Of the time, for each of the first two mergings, for the better one again, and for the others.
_FIRST_TURN, _ONLY_TURN, _AGAIN, _TURN = 0.3, 0.5, 0.3, 0.2
_SHORTEST_TURN = 0.3  # seconds; less goes by before a search is under way
_ROUNDS = 4
_LISTED = 200  # runs placed in all, over the lists tried


@dataclass
class WholeRuns:
    """The search, which may be gone on with, and the best schedule it has found.

    Attributes:
        problem: The whole problem.
        workers: Searches run side by side.
        seconds: Wall-clock time for all of it.
        floor: A makespan that is known not to be beaten.
        best: The best schedule of the whole so far, without named units.
        length: Its makespan.
    """

    problem: Problem
    workers: int
    seconds: float
    floor: int
    best: Schedule | None = None
    length: int = 0
    _way: Way = field(default_factory=Way)
    _mergings: dict[Way, Merged] = field(default_factory=dict)
    _exhausted: set[Way] = field(default_factory=set)

    def __post_init__(self) -> None:
        """Nothing is searched yet."""
        self._hurried = hurried_families(self.problem)
        self._turns = enumerate(self._ways())

    def begin(self) -> Schedule | None:
        """The best schedule of the first ways to merge: two where some parts are hurried."""
        ends = time.monotonic() + self.seconds
        for turn, (way, share) in islice(self._turns, 2 if self._hurried else 1):
            self._take_turn(turn, way, share, ends)
        return self.best

    def go_on(self, seconds: float, floor: int) -> Schedule | None:
        """The best schedule after so many seconds more, or sooner if no merging gives a better.

        Args:
            seconds: Wall-clock time.
            floor: A makespan that is known by now not to be beaten.
        """
        self.floor = max(self.floor, floor)
        ends = time.monotonic() + seconds
        while ends > time.monotonic() and (turn := next(self._turns, None)) is not None:
            self._take_turn(turn[0], *turn[1], ends)
        return self.best

    def narrow(self, lags: tuple[Lag, ...]) -> None:
        """Search from here on only the days in which some more lags hold."""
        if lags:
            self.problem = replace(self.problem, lags=(*self.problem.lags, *lags))
            self._mergings.clear()

    def _take_turn(self, turn: int, way: Way, share: float, ends: float) -> None:
        """Search one way for its share of the time, unless that cannot help."""
        left = ends - time.monotonic()
        reached = self.best is not None and self.length <= self.floor
        if left > 0 and not reached and way not in self._exhausted:
            self._try(way, min(max(share * self.seconds, _SHORTEST_TURN), left), turn)

    def _ways(self) -> Iterator[tuple[Way, float]]:
        """The ways to merge and the share of the time of each, one after the other.

        It goes on from whichever way the best schedule was found.
        """
        divisible = divisible_families(self.problem)
        yield Way(), _FIRST_TURN if self._hurried else _ONLY_TURN
        if self._hurried:
            yield Way(across=frozenset(self._hurried)), _FIRST_TURN
        for _ in range(_ROUNDS):
            if self._hurried:
                yield self._way, _AGAIN
            for family in self._hurried:
                yield replace(self._way, across=self._way.across ^ {family}), _TURN
            for family in divisible:
                yield replace(self._way, divided=self._way.divided ^ {family}), _TURN

    def _try(self, way: Way, seconds: float, turn: int) -> None:
        """Search one merging, and keep what is found if it is better."""
        if way not in self._mergings:
            self._mergings[way] = merge(self.problem, way)
        merged = self._mergings[way]
        smaller = merged.problem
        floor = max(self.floor, shortest_day(smaller, network(smaller)))
        if self.best is not None and floor >= self.length:
            self._exhausted.add(way)
            return
        model = cp_model.CpModel()
        variables = declare(model, smaller)
        constrain(model, smaller, variables)
        model.add(variables.makespan >= floor)
        start = self._start(merged)
        if start is not None:
            suggest(model, smaller, variables, start)
        model.minimize(variables.makespan)
        solver, status = search(
            model, FINDING, seconds=seconds, workers=self.workers, seed=turn + 1
        )
        if status in (cp_model.OPTIMAL, cp_model.INFEASIBLE):
            self._exhausted.add(way)
        if status in FOUND:
            found = merged.expand(extract(solver, smaller, variables))
            length = makespan(self.problem, found)
            if self.best is None or length < self.length:
                self.best, self.length, self._way = found, length, way

    def _start(self, merged: Merged) -> Schedule | None:
        if self.best is not None:
            return merged.compress(self.best)
        samples = max(1, min(8, _LISTED // max(len(merged.problem.tasks), 1)))
        return list_schedule(merged.problem, samples=samples, by_group=True)
