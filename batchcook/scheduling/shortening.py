"""Shortens a schedule by turns: less work by hand in a day as long, then a shorter day.

Which parts follow each other in a run decides how much work by hand there is, and with few hands
that decides how long the day is; but a search for the shortest day sees a better run only where
it pays at once. So the work is lowered with the day's length held, then the day is shortened with
the runs held, which is a much smaller problem, and then all is let loose again. Between the turns
more of the cases that the day could be are left behind.
"""

from __future__ import annotations

import time
from dataclasses import dataclass, replace

from ortools.sat.python import cp_model

from batchcook.scheduling.cases import Cases
from batchcook.scheduling.hints import keep_solution
from batchcook.scheduling.searching import (
    BOTH_ENDS,
    DECIDING,
    FINDING,
    FOUND,
    Effort,
    Kind,
    search,
)
from batchcook.scheduling.variables import Expression, Variables

__all__ = ["Shortening"]

_OF_HANDS, _OF_RUNS, _OF_ALL = 0.08, 0.22, 0.12  # of the whole time, for one turn of each
_TO_DECIDE = 0.5  # of the time left: a proof that is not found in a second may be found in five
_DECIDABLE = 80  # tasks; with more of them that is in vain
_OF_CASES, _A_CASE = 0.2, 0.03  # the same, for the cases and for one of them
_SHORTEST_TURN, _A_TASK = 0.3, 0.004  # seconds; less goes by before a search is under way


@dataclass
class Shortening:
    """A schedule on its way down.

    Attributes:
        model: Every rule of the problem, and what is known of its bounds.
        variables: Its variables.
        hands: The busy minutes of the hands, or None where nobody's are counted.
        best: The solution to start from, and in the end the best one found.
        floor: A proved lower bound of the makespan; it may be raised on the way.
        cases: The cases that the day could be.
    """

    model: cp_model.CpModel
    variables: Variables
    hands: Expression | None
    best: cp_model.CpSolver
    floor: int
    cases: Cases

    @property
    def length(self) -> int:
        """The makespan of the best solution."""
        return int(self.best.value(self.variables.makespan))

    @property
    def decidable(self) -> bool:
        """Whether there are few enough tasks to ask for any day that is shorter."""
        return len(self.variables.tasks) <= _DECIDABLE

    def shorten(self, name: str, effort: Effort) -> None:
        """Take turns until the floor is reached or the time is up."""
        whole = effort.left
        turn, stalled = 0, 0
        self._fewer_cases(whole, effort)
        while effort.left > 0 and self.length > self.floor:
            turn += 1
            before = self.length
            if stalled % 2 == 0:
                held = self._less_work(turn, self._turn(_OF_HANDS, whole, effort), effort.workers)
                self._same_runs(held, turn, self._turn(_OF_RUNS, whole, effort), effort.workers)
            if self.length == before:
                # Where no turn helps any more, the bound is what may still move.
                if stalled % 2 == 0 and self.decidable:
                    self.decide(_TO_DECIDE * effort.left, turn)
                else:
                    kind = BOTH_ENDS if stalled % 2 else FINDING
                    seconds = self._turn(_OF_ALL * 2 ** (stalled // 2), whole, effort)
                    self._anew(kind, turn, seconds, effort.workers)
            stalled = stalled + 1 if self.length == before else 0
            self._fewer_cases(whole, effort)
            if self.length < before and effort.progress is not None:
                effort.progress(name, self.length, self.floor)

    def decide(self, seconds: float, seed: int = 1) -> None:
        """Look for any day that is shorter, or prove that there is none."""
        shorter = self.model.clone()
        shorter.proto.clear_objective()
        shorter.proto.clear_solution_hint()
        shorter.add(self.variables.makespan <= self.length - 1)
        solver, status = search(shorter, DECIDING, seconds=seconds, workers=2, seed=seed)
        if status in FOUND:
            self.best = solver
        elif status == cp_model.INFEASIBLE:
            self.floor = self.length

    def _fewer_cases(self, whole: float, effort: Effort) -> None:
        """Leave cases behind that are no shorter than the best, which raises the floor."""
        ends = time.monotonic() + self._turn(_OF_CASES, whole, effort)
        one_case = self._turn(_A_CASE, whole, effort)
        floor = self.cases.raise_floor(self.length, one_case, replace(effort, ends=ends))
        self.floor = max(self.floor, floor)

    def _less_work(self, seed: int, seconds: float, workers: int) -> cp_model.CpSolver:
        """A solution as short as the best with less work by hand; the best where there is none."""
        if self.hands is None or not self.variables.links:
            return self.best
        as_short = self._from(self.best)
        as_short.add(self.variables.makespan <= self.length)
        as_short.minimize(self.hands)
        solver, status = search(as_short, BOTH_ENDS, seconds=seconds, workers=workers, seed=seed)
        return solver if status in FOUND else self.best

    def _same_runs(self, held: cp_model.CpSolver, seed: int, seconds: float, workers: int) -> None:
        """Shorten the day with the parts following each other as they do in a solution."""
        fixed = self._from(held)
        for link in self.variables.links.values():
            if held.boolean_value(link):
                fixed.add_bool_and(link)
        self._shorter(fixed, FINDING, seconds, workers, seed)

    def _anew(self, kind: Kind, seed: int, seconds: float, workers: int) -> None:
        """Shorten the day in the likeliest case with all else free, which raises the floor too."""
        case = self.cases.likeliest
        all_else = self.cases.within(case)
        keep_solution(all_else, self.best)
        solver = self._shorter(all_else, kind, seconds, workers, seed)
        self.floor = max(self.floor, self.cases.note(case, round(solver.best_objective_bound)))

    def _shorter(
        self, model: cp_model.CpModel, kind: Kind, seconds: float, workers: int, seed: int
    ) -> cp_model.CpSolver:
        """Search for a shorter day and keep it."""
        model.minimize(self.variables.makespan)
        solver, status = search(model, kind, seconds=seconds, workers=workers, seed=seed)
        if status in FOUND and solver.value(self.variables.makespan) <= self.length:
            self.best = solver
        return solver

    def _turn(self, share: float, whole: float, effort: Effort) -> float:
        """Seconds for one turn."""
        shortest = max(_SHORTEST_TURN, _A_TASK * len(self.variables.tasks))
        return min(max(share * whole, shortest), effort.ends - time.monotonic())

    def _from(self, solution: cp_model.CpSolver) -> cp_model.CpModel:
        model = self.model.clone()
        keep_solution(model, solution)
        return model
