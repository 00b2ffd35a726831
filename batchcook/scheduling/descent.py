"""The way down: level after level, each minimised and held at the value reached."""

from __future__ import annotations

import time
from dataclasses import dataclass, field, replace

from ortools.sat.python import cp_model

from batchcook.scheduling.cases import Cases
from batchcook.scheduling.floors import least_hands, raised_floor
from batchcook.scheduling.hints import keep_solution, suggest
from batchcook.scheduling.listing import list_schedule
from batchcook.scheduling.problem import Problem
from batchcook.scheduling.schedule import Answer, Level
from batchcook.scheduling.searching import (
    BOTH_ENDS,
    FINDING,
    FOUND,
    IMPROVING,
    OWN,
    Effort,
    Kind,
    search,
    teller,
)
from batchcook.scheduling.shortening import Shortening
from batchcook.scheduling.variables import Expression, Variables
from batchcook.scheduling.wholeruns import WholeRuns
from batchcook.withheld import Withheld

__all__ = ["SMALL", "Descent"]

# Of the time left, what the makespan may take, and what any level after it but the last.
_MAKESPAN_SHARE, _SHARE = 0.7, 0.6
_PLAIN_TURNS = ((OWN, 1.0),)
_LEVEL_TURNS = ((BOTH_ENDS, 0.04), (FINDING, 0.5), (BOTH_ENDS, 1.0))  # of a level's time, at most
_FOUND_BY_ONE = Kind(linear=0, turns=15.0)  # deterministic; a limit by the clock varies
_FOUND_AT_ONCE = replace(_FOUND_BY_ONE, presolve=False)
_REPEATED_SHARE = 0.003  # deterministic seconds a second given, for a search that must repeat
_TAKING_TURNS = 4  # fixed, as the searches that take turns are part of what repeats
_LISTS = 3  # tried where the searches have found nothing
_TO_TAKE_IT = 1.0  # seconds at the least for a search to make a list's schedule its own
SMALL = 40
"""Tasks up to which the search is done before a schedule to start from is found."""
_RUNS_LATER = 0.5  # of that time, for those that come after a plain search
_TO_TAKE_RUNS = 0.05  # of the time, for the whole problem to take over such a schedule
# Of the time, for a proof by plain search, less of it where there are many tasks.
_AT_ONCE_TASKS, _AT_ONCE_AT_MOST = 30, 0.08
_FINDS = 2.0  # times as long, for a search without the relaxation
_LEAST_WORK, _FLOOR = 0.04, 0.1  # of the time for the bound by work and the one by refutation
_CASES, _A_CASE = 0.15, 0.02  # of the time for cases, and for one of them
_DECIDED = 3.0  # times as long as a plain search, to look for any day that is shorter


@dataclass
class Descent:
    """Takes level after level, each held at the value reached.

    What is learned on the way is added to the model; the rules stay as they were stated, for a
    search that must not depend on it.

    Attributes:
        problem: The problem.
        model: Its rules, and what is learned.
        variables: Its variables in the model.
        effort: How long to go on, with how many workers.
        seconds: Wall-clock time for all levels; turns are shares of it.
        first_by: The instant by which a first schedule is to be found.
        floor: A proved lower bound of the makespan.
        plain: Whether CP-SAT does best when left alone.
        runs: The search over whole runs, where there is one.
        best: The solution of the last level taken; None where nothing was found.
        reached: The levels taken.
        refusal: What it means that nothing was found.
        repeats: Whether the last level was taken in a way that repeats.
        least: By level, a bound that is known before its turn.
    """

    problem: Problem
    model: cp_model.CpModel
    variables: Variables
    effort: Effort
    seconds: float
    first_by: float
    floor: int
    plain: bool
    runs: WholeRuns | None
    best: cp_model.CpSolver | None = None
    reached: list[Level] = field(default_factory=list)
    refusal: Answer = Answer.UNKNOWN
    repeats: bool = False
    least: dict[str, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Nothing is learned yet."""
        self._rules = self.model.clone()

    def shorten(self, name: str, work: tuple[str, Expression | None], *, last: bool) -> None:
        """Minimise the first level, the makespan.

        A plain search comes first. What it does not prove in a little time is bounded by work
        and by refutation, and shortened by turns.
        """
        makespan = self.variables.makespan
        whole = self.effort.left * (1 if last else _MAKESPAN_SHARE)
        until = replace(self.effort, ends=time.monotonic() + whole)
        at_once = whole if self.plain else self._at_once()
        solver, status, bound = self._both_ways(name, makespan, min(at_once, whole))
        bound = max(self.floor, bound)
        left = self.first_by - time.monotonic()
        if status not in FOUND and status != cp_model.INFEASIBLE and left > 0:
            # Without any schedule there is no level below to keep time for. What was suggested did
            # not lead to one; a list's schedule keeps every rule.
            listed = list_schedule(self.problem, samples=_LISTS, by_group=True)
            if listed is not None:
                suggest(self.model, self.problem, self.variables, listed)
                left = max(self.first_by - time.monotonic(), _TO_TAKE_IT)
            solver, status = self._minimize(name, makespan, left)
            bound = max(bound, _bound(solver, status))
        if status not in FOUND:
            impossible = status == cp_model.INFEASIBLE
            self.refusal = Answer.IMPOSSIBLE if impossible else Answer.UNKNOWN
            return
        if status == cp_model.FEASIBLE and solver.value(makespan) > bound and until.left > 0:
            solver, bound = self._further(name, work, solver, bound, until)
        self.best = solver
        self._hold(name, makespan, bound)

    def _both_ways(
        self, name: str, expression: Expression, seconds: float
    ) -> tuple[cp_model.CpSolver, cp_model.CpSolverStatus, int]:
        """A plain search, and a longer one without the relaxation, which keeps it from finding."""
        solver, status = self._minimize(name, expression, seconds)
        bound = _bound(solver, status)
        if status == cp_model.FEASIBLE and not self.plain:
            keep_solution(self.model, solver)
            left = min(_FINDS * seconds, self.effort.left)
            other, found = self._minimize(name, expression, left, FINDING)
            bound = max(bound, _bound(other, found))
            if found in FOUND:
                solver, status = other, found
        return solver, status, bound

    def _at_once(self) -> float:
        """Seconds for the plain search that comes first."""
        share = (_AT_ONCE_TASKS / max(len(self.variables.tasks), 1)) ** 2
        return min(share, _AT_ONCE_AT_MOST) * self.seconds

    def _further(
        self,
        name: str,
        work: tuple[str, Expression | None],
        best: cp_model.CpSolver,
        bound: int,
        effort: Effort,
    ) -> tuple[cp_model.CpSolver, int]:
        """A shorter day or a better bound than a plain search finds, in the time that is left."""
        makespan = self.variables.makespan
        level, hands = work
        self.model.add(makespan >= bound)
        if hands is not None:
            least = least_hands(self.model, hands, self._for(_LEAST_WORK, effort))
            if least is not None:
                self.model.add(hands >= least)
                self.least[level] = least
        cases = Cases(self.model, self.problem, self.variables, bound)
        day = Shortening(self.model, self.variables, hands, best, bound, cases)
        if day.decidable:
            day.decide(seconds=min(_DECIDED * self._at_once(), effort.left))
        if day.length > day.floor:
            one_case = _A_CASE * self.seconds
            day.floor = cases.raise_floor(day.length, one_case, self._for(_CASES, effort))
            day.best = self._by_whole_runs(day.best, cases, effort)
            share = self._for(_FLOOR, effort)
            day.floor = raised_floor(self.model, makespan, day.floor, day.length, share)
            self.model.add(makespan >= day.floor)
            day.shorten(name, effort)
        return day.best, day.floor

    def _by_whole_runs(
        self, best: cp_model.CpSolver, cases: Cases, effort: Effort
    ) -> cp_model.CpSolver:
        """A shorter solution by more mergings into whole runs; the best if there is none."""
        makespan = self.variables.makespan
        if self.runs is None:
            return best
        self.runs.narrow(cases.likeliest)
        found = self.runs.go_on(min(_RUNS_LATER * self.runs.seconds, effort.left), cases.floor)
        if found is None or self.runs.length >= best.value(makespan):
            return best
        suggest(self.model, self.problem, self.variables, found)
        self.model.minimize(makespan)
        seconds = max(_TO_TAKE_RUNS * self.seconds, _TO_TAKE_IT)
        solver, status = search(self.model, FINDING, seconds=seconds, workers=effort.workers)
        better = status in FOUND and solver.value(makespan) < best.value(makespan)
        return solver if better else best

    def _for(self, share: float, effort: Effort) -> Effort:
        """An effort for a share of all the seconds, within another."""
        return replace(effort, ends=min(time.monotonic() + share * self.seconds, effort.ends))

    def take(self, name: str, expression: Expression | None, *, last: bool, repeat: bool) -> None:
        """Minimise one level, in a way that repeats where asked and the levels above are proved."""
        if expression is None:
            self.reached.append(Level(name, 0, 0))
            return
        repeated = self._repeatably(name, expression) if repeat and self._proved() else None
        self.repeats = repeated is not None
        if repeated is not None:
            self.best, bound = repeated
        else:
            if self.best is not None:
                keep_solution(self.model, self.best)
            if last and not self.plain:
                self._with_runs_held(expression)
            left = self.effort.left
            bound = self._lower(name, expression, left if last else left * _SHARE)
            bound = max(bound, self.least.get(name, 0))
        self._hold(name, expression, bound)

    def _lower(self, name: str, expression: Expression, seconds: float) -> int:
        """Minimise a level from the best solution on; the bound that is proved.

        Either the linear relaxation proves a level at once, or it keeps the search from the
        schedule that is looked for; so each kind of search has its turn.
        """
        ends = time.monotonic() + seconds
        bound = 0
        for kind, share in _PLAIN_TURNS if self.plain else _LEVEL_TURNS:
            left = min(share * seconds, ends - time.monotonic())
            solver, status = self._minimize(name, expression, left, kind)
            bound = max(bound, _bound(solver, status))
            if status in FOUND:
                self.best = solver
                keep_solution(self.model, solver)
            if status == cp_model.OPTIMAL:
                break
        return bound

    def _minimize(
        self, name: str, expression: Expression, seconds: float, kind: Kind | None = None
    ) -> tuple[cp_model.CpSolver, cp_model.CpSolverStatus]:
        """Search for the least value of a level, side by side."""
        self.model.minimize(expression)
        return search(
            self.model,
            kind or (OWN if self.plain else BOTH_ENDS),
            seconds=seconds,
            workers=self.effort.workers,
            told=teller(name, self.effort.progress),
        )

    def _hold(self, name: str, expression: Expression, bound: int) -> None:
        """Note what a level came to, and let it not be lost below."""
        if self.best is None:
            raise Withheld("a level is held once there is a schedule")
        value = self.best.value(expression)
        self.reached.append(Level(name, value, min(bound, value)))
        self.model.add(expression <= value)
        self._rules.add(expression <= value)
        keep_solution(self.model, self.best)

    def _with_runs_held(self, expression: Expression) -> None:
        """Minimise with the parts following each other as they do, which is sooner done."""
        if self.best is None:
            return
        held = self.model.clone()
        for link in self.variables.links.values():
            if self.best.boolean_value(link):
                held.add_bool_and(link)
        held.minimize(expression)
        seconds = self.effort.left * _SHARE
        workers = self.effort.workers
        solver, status = search(held, IMPROVING, seconds=seconds, workers=workers)
        if status in FOUND:
            self.best = solver
            keep_solution(self.model, solver)

    def _repeatably(
        self, name: str, expression: Expression
    ) -> tuple[cp_model.CpSolver, int] | None:
        """Search for the least value of the last level in a way that repeats, if one is found so.

        One worker finds where to start, as what the searches before came to does not repeat. On
        a small day a search from both ends then proves the level; on others there is no hope of
        that in the time, and all of it goes into improving.

        Returns:
            The best solution and the bound of the level, or None where no solution is found so.
        """
        start = self._found_by_one()
        if start is None:
            return None
        keep_solution(self._rules, start)
        self._rules.minimize(expression)
        small = len(self.problem.tasks) <= SMALL
        kind = replace(BOTH_ENDS if small else IMPROVING, turns=_REPEATED_SHARE * self.seconds)
        told = teller(name, self.effort.progress)
        solver, status = search(self._rules, kind, seconds=0, workers=_TAKING_TURNS, told=told)
        return (solver if status in FOUND else start), _bound(solver, status)

    def settled(self) -> cp_model.CpSolver | None:
        """The best solution, found anew in a way that repeats where all values are proved."""
        if self.best is None or self.repeats or not self._proved():
            return self.best
        return self._found_by_one() or self.best

    def _found_by_one(self) -> cp_model.CpSolver | None:
        """A solution with the values held, the same one every time."""
        self._rules.proto.clear_objective()
        self._rules.proto.clear_solution_hint()
        kind = _FOUND_AT_ONCE if self.plain else _FOUND_BY_ONE
        solver, status = search(self._rules, kind, seconds=0, workers=1)
        return solver if status in FOUND else None

    def _proved(self) -> bool:
        return all(level.proved for level in self.reached)


def _bound(solver: cp_model.CpSolver, status: cp_model.CpSolverStatus) -> int:
    """The bound that a search came to, in time or not; of no use where there is no schedule."""
    return 0 if status == cp_model.INFEASIBLE else round(solver.best_objective_bound)
