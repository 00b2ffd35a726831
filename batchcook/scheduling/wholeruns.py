"""Searches the smaller problems in which the parts of families are merged into whole runs.

Such a problem is solved in a fraction of the time, but its best schedule is no better than the
merging. So several are searched in turn: all hurried parts within their groups, all across them,
and from the better of the two on one family after the other the other way.
"""

from __future__ import annotations

import time
from collections.abc import Iterator
from dataclasses import dataclass, field

from ortools.sat.python import cp_model

from batchcook.scheduling.constraints import constrain
from batchcook.scheduling.energy import shortest_day
from batchcook.scheduling.extraction import extract
from batchcook.scheduling.hints import suggest
from batchcook.scheduling.listing import list_schedule, makespan
from batchcook.scheduling.merged import Merged
from batchcook.scheduling.merging import hurried_families, merge
from batchcook.scheduling.network import network
from batchcook.scheduling.problem import Problem
from batchcook.scheduling.schedule import Schedule
from batchcook.scheduling.searching import FINDING, FOUND, search
from batchcook.scheduling.variables import declare

__all__ = ["WholeRuns"]

_FIRST_TURN, _TURN = 0.3, 0.2  # of the time, for each of the first two mergings, and the others
_SHORTEST_TURN = 0.3  # seconds; less goes by before a search is under way
_ROUNDS = 4
_LISTED = 200  # runs placed in all, over the lists tried


@dataclass
class WholeRuns:
    """The search, and the best schedule it has found.

    Attributes:
        problem: The whole problem.
        workers: Searches run side by side.
        best: The best schedule of the whole so far, without named units.
        length: Its makespan.
    """

    problem: Problem
    workers: int
    best: Schedule | None = None
    length: int = 0
    _way: frozenset[str] = frozenset()
    _mergings: dict[frozenset[str], Merged] = field(default_factory=dict)
    _exhausted: set[frozenset[str]] = field(default_factory=set)

    def search(self, seconds: float) -> Schedule | None:
        """The best schedule found in so many seconds, or sooner if no merging gives a better."""
        ends = time.monotonic() + seconds
        floor = shortest_day(self.problem, network(self.problem))
        for turn, (across, share) in enumerate(self._ways()):
            left = ends - time.monotonic()
            if left <= 0 or (self.best is not None and self.length <= floor):
                break
            if across not in self._exhausted:
                self._try(across, floor, min(max(share * seconds, _SHORTEST_TURN), left), turn)
        return self.best

    def _ways(self) -> Iterator[tuple[frozenset[str], float]]:
        """The families to merge across groups and the share of the time, one way after the other.

        It goes on from whichever way the best schedule was found.
        """
        families = hurried_families(self.problem)
        if not families:
            yield frozenset(), 1.0
            return
        yield frozenset(), _FIRST_TURN
        yield frozenset(families), _FIRST_TURN
        for _ in range(_ROUNDS):
            yield self._way, _FIRST_TURN
            for family in families:
                yield self._way ^ {family}, _TURN

    def _try(self, across: frozenset[str], floor: int, seconds: float, turn: int) -> None:
        """Search one merging, and keep what is found if it is better."""
        if across not in self._mergings:
            self._mergings[across] = merge(self.problem, across)
        merged = self._mergings[across]
        smaller = merged.problem
        floor = max(floor, shortest_day(smaller, network(smaller)))
        if self.best is not None and floor >= self.length:
            self._exhausted.add(across)
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
            self._exhausted.add(across)
        if status in FOUND:
            found = merged.expand(extract(solver, smaller, variables))
            length = makespan(self.problem, found)
            if self.best is None or length < self.length:
                self.best, self.length, self._way = found, length, across

    def _start(self, merged: Merged) -> Schedule | None:
        if self.best is not None:
            return merged.compress(self.best)
        samples = max(1, min(8, _LISTED // max(len(merged.problem.tasks), 1)))
        return list_schedule(merged.problem, samples=samples, by_group=True)
