"""A second model of a scheduling problem, to confirm that limits clash.

Written from the constraints as DEVELOPERS.md states them. It shares the types of a problem with the
package and nothing else, and only ever asks for less than the problem does: units have no names,
so what it finds impossible is impossible.
"""

from __future__ import annotations

from collections.abc import Collection
from itertools import pairwise

from ortools.sat.python import cp_model

from batchcook.scheduling.problem import Condition, Occupancy, Problem, Resource, Span, Task
from batchcook.scheduling.relaxing import Reference

__all__ = ["clash"]

_Use = tuple[cp_model.IntervalVar, int]


def clash(
    problem: Problem,
    limits: Collection[Reference],
    tasks: Collection[str] | None = None,
    *,
    seconds: float = 20.0,
) -> str:
    """Whether some of a problem's limits alone cannot all be kept.

    Args:
        problem: The whole problem.
        limits: The limits that count; no other does. Durations and the least time from one task
            to another always do.
        tasks: The tasks that there are; all, where None.
        seconds: Wall-clock time to prove it.

    Returns:
        ``impossible``, ``possible`` or ``unknown``.
    """
    there = set(problem.tasks if tasks is None else tasks)
    model = _Model(problem, {(each.kind, each.id) for each in limits}, there)
    model.state()
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 4
    solver.parameters.random_seed = 7
    solver.parameters.max_time_in_seconds = seconds
    status = solver.solve(model.cp)
    if status == cp_model.INFEASIBLE:
        return "impossible"
    return "possible" if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else "unknown"


class _Model:
    """The constraints, one method a kind."""

    def __init__(self, problem: Problem, limits: set[tuple[str, str]], there: set[str]) -> None:
        self.problem, self.limits = problem, limits
        self.tasks = [each for each in problem.tasks.values() if each.id in there]
        self.cp = cp_model.CpModel()
        timed = any(kind in {"horizon", "window", "absence"} for kind, _ in limits)
        self.last = problem.horizon if ("horizon", "") in limits else 2 * self._ample()
        self.options = {
            (name, option): self.cp.new_bool_var("")
            for name, choice in problem.choices.items()
            for option in choice.options
        }
        for name, choice in problem.choices.items():
            self.cp.add_exactly_one(self.options[name, option] for option in choice.options)
        self.around: dict[str, cp_model.LinearExprT] = {}
        self.apart: dict[tuple[str, str], cp_model.IntVar] = {}
        self.start, self.end, self.free, self.done, self.modes = {}, {}, {}, {}, {}
        for task in self.tasks:
            self.start[task.id] = self.cp.new_int_var(0, self.last, "")
            self.end[task.id] = self.cp.new_int_var(0, self.last, "")
            self.free[task.id] = self.cp.new_int_var(0, self.last, "")
            self.done[task.id] = self._all(task.when)
            for mode in task.modes:
                self.modes[task.id, mode.id] = self.cp.new_bool_var("")
        if not timed:
            self._one_in_the_middle()

    def state(self) -> None:
        self._work()
        self._windows()
        self._lags()
        self._budgets()
        self._capacities()

    def _ample(self) -> int:
        """Time enough for everything one after another."""
        lags = sum(abs(lag.low or 0) + abs(lag.high or 0) for lag in self.problem.lags)
        return lags + sum(
            max(mode.duration for mode in task.modes) + self._around(task) for task in self.tasks
        )

    def _around(self, task: Task) -> int:
        family = self.problem.families.get(task.family or "")
        return 0 if family is None else family.set_up + family.clean_down

    def _one_in_the_middle(self) -> None:
        """Without times of day all may be moved together, so one task may have any time."""
        named = [
            lag.before
            for place, lag in enumerate(self.problem.lags)
            if ("lag", str(place)) in self.limits
        ]
        named += [
            span.before
            for budget in self.problem.budgets
            if ("budget", budget.id) in self.limits
            for span in budget.spans
        ]
        sure = [each for each in named if each in self.start and not self.problem.tasks[each].when]
        if sure:
            self.cp.add(self.start[sure[0]] == self.last // 2)

    def _all(self, conditions: tuple[Condition, ...]) -> cp_model.IntVar:
        """One literal for conditions that all hold."""
        both = self.cp.new_bool_var("")
        for each in conditions:
            literals = [self.options[each.choice, option] for option in each.options]
            self.cp.add_bool_or([*literals, ~both])
        wants = [
            self.options[each.choice, option]
            for each in conditions
            for option in self.problem.choices[each.choice].options
            if option not in each.options
        ]
        self.cp.add_bool_or([both, *wants])
        return both

    def _work(self) -> None:
        """A mode a task; how long it takes; the set-ups and clean-downs of runs."""
        before, after = self._links()
        for task in self.tasks:
            name, done = task.id, self.done[task.id]
            self.cp.add(sum(self.modes[name, mode.id] for mode in task.modes) == done)
            for mode in task.modes:
                for condition in mode.when:
                    literals = [self.options[condition.choice, each] for each in condition.options]
                    self.cp.add_bool_or([*literals, ~self.modes[name, mode.id]])
            work = sum(self.modes[name, mode.id] * mode.duration for mode in task.modes)
            family = self.problem.families.get(task.family or "")
            if family is None:
                self.cp.add(self.end[name] == self.start[name] + work).only_enforce_if(done)
                self.cp.add(self.free[name] == self.end[name])
                continue
            opens, closes = self.cp.new_bool_var(""), self.cp.new_bool_var("")
            if self._is_whole(family.id):
                self.cp.add(sum(before.get(name, [])) + opens == done)
                self.cp.add(sum(after.get(name, [])) + closes == done)
            lasts = work + family.set_up * opens
            self.around[name] = family.set_up * opens + family.clean_down * closes
            self.cp.add(self.end[name] == self.start[name] + lasts).only_enforce_if(done)
            self.cp.add(self.free[name] == self.end[name] + family.clean_down * closes)

    def _is_whole(self, family: str) -> bool:
        parts = [each for each in self.problem.tasks.values() if each.family == family]
        return all(each.id in self.start for each in parts)

    def _links(self) -> tuple[dict[str, list[cp_model.IntVar]], dict[str, list[cp_model.IntVar]]]:
        before: dict[str, list[cp_model.IntVar]] = {}
        after: dict[str, list[cp_model.IntVar]] = {}
        for one in self.tasks:
            for other in self.tasks:
                if one is other or one.family is None or one.family != other.family:
                    continue
                link = self.cp.new_bool_var("")
                self.cp.add_implication(link, self.done[one.id])
                self.cp.add_implication(link, self.done[other.id])
                self.cp.add(self.end[one.id] == self.start[other.id]).only_enforce_if(link)
                for mode in one.modes:
                    same = self.modes.get((other.id, mode.id))
                    taken = self.modes[one.id, mode.id]
                    self.cp.add_bool_or([~link, ~taken, *([same] if same is not None else [])])
                after.setdefault(one.id, []).append(link)
                before.setdefault(other.id, []).append(link)
        return before, after

    def _windows(self) -> None:
        for task in self.tasks:
            if ("window", task.id) in self.limits:
                if task.earliest is not None:
                    self.cp.add(self.start[task.id] >= task.earliest).only_enforce_if(
                        self.done[task.id]
                    )
                if task.latest is not None:
                    self.cp.add(self.end[task.id] <= task.latest).only_enforce_if(
                        self.done[task.id]
                    )

    def _at(self, task: str, anchor: str) -> cp_model.IntVar:
        return self.start[task] if anchor == "start" else self.end[task]

    def _gap(self, span: Span) -> cp_model.LinearExpr:
        return self._at(span.after, span.to) - self._at(span.before, span.origin)

    def _lags(self) -> None:
        for place, lag in enumerate(self.problem.lags):
            if lag.before not in self.start or lag.after not in self.start:
                continue
            gap = self._gap(Span(lag.before, lag.origin, lag.after, lag.to))
            binds = [self.done[lag.before], self.done[lag.after], self._all(lag.when)]
            if lag.low is not None:
                self.cp.add(gap >= lag.low).only_enforce_if(binds)
            if lag.high is not None and ("lag", str(place)) in self.limits:
                self.cp.add(gap <= lag.high).only_enforce_if(binds)

    def _budgets(self) -> None:
        for budget in self.problem.budgets:
            if ("budget", budget.id) not in self.limits:
                continue
            counted = []
            for span in budget.spans:
                length = self.cp.new_int_var(-self.last, self.last, "")
                binds = [self.done[span.before], self.done[span.after]]
                self.cp.add(length >= self._gap(span)).only_enforce_if(binds)
                for literal in binds:
                    self.cp.add(length >= 0).only_enforce_if(~literal)
                counted.append(length)
            self.cp.add(sum(counted) <= budget.limit)

    def _capacities(self) -> None:
        uses: dict[str, list[_Use]] = {name: [] for name in self.problem.resources}
        for task in self.tasks:
            for mode in task.modes:
                interval = self._interval(
                    self.start[task.id], self.free[task.id], self.modes[task.id, mode.id]
                )
                for name, amount in mode.demands.items():
                    uses[name].append((interval, amount))
        for each in self.problem.occupancies:
            if ("occupancy", each.id) in self.limits and each.until in self.start:
                uses[each.resource].append((self._kept(each), each.amount))
        for resource in self.problem.resources.values():
            named = ("capacity", resource.id) in self.limits
            most = resource.capacity if named else sum(amount for _, amount in uses[resource.id])
            taken = [*uses[resource.id], *(self._away(resource) if named else ())]
            taken += [(interval, most) for interval in self._warm_ups(resource)]
            if named:
                self._work_fits(resource)
            self.cp.add_cumulative(
                [interval for interval, _ in taken], [amount for _, amount in taken], most
            )

    def _warm_ups(self, resource: Resource) -> list[cp_model.IntervalVar]:
        """An oven is warmed for each task, or still warm from another; both at one temperature."""
        users = {
            task.id: [mode.id for mode in task.modes if mode.demands.get(resource.id)]
            for task in self.problem.tasks.values()
        }
        users = {name: modes for name, modes in users.items() if modes}
        if resource.warm_up is None or not users.keys() <= self.start.keys():
            return []
        there = {}
        setting = {}
        for name, modes in users.items():
            there[name] = self.cp.new_bool_var("")
            self.cp.add(there[name] == sum(self.modes[name, mode] for mode in modes))
            domain = cp_model.Domain.from_values(self.problem.tasks[name].settings)
            setting[name] = self.cp.new_int_var_from_domain(domain, "")
        found = []
        for place, one in enumerate(users):
            own = self.cp.new_bool_var("")
            ways = [own, ~there[one]]
            begins = self.cp.new_int_var(0, self.last, "")
            self.cp.add(begins == self.start[one] - resource.warm_up).only_enforce_if(own)
            found.append(self._interval(begins, self.start[one], own))
            for at, other in enumerate(users):
                if other == one:
                    continue
                join = self.cp.new_bool_var("")
                self.cp.add_implication(join, there[other])
                self.cp.add(setting[one] == setting[other]).only_enforce_if(join)
                sooner = self.start[other] + int(at > place)
                self.cp.add(sooner <= self.start[one]).only_enforce_if(join)
                warm = self.end[other] + resource.keeps
                self.cp.add(warm >= self.start[one]).only_enforce_if(join)
                ways.append(join)
                same, apart = self.cp.new_bool_var(""), self.cp.new_bool_var("")
                self.cp.add(setting[one] == setting[other]).only_enforce_if(same)
                self.cp.add(self.free[other] <= self.start[one]).only_enforce_if(apart)
                self.apart[other, one] = apart
                if (one, other) in self.apart:
                    ends = [self.apart[one, other], apart]
                    self.cp.add_bool_or([same, *ends, ~there[one], ~there[other]])
            self.cp.add_bool_or(ways)
        return found

    def _work_fits(self, resource: Resource) -> None:
        """All the work on a resource fits into the day; it follows, and is soon seen."""
        work: list[cp_model.LinearExprT] = [
            self.modes[task.id, mode.id] * mode.duration * mode.demands[resource.id]
            for task in self.tasks
            for mode in task.modes
            if mode.demands.get(resource.id)
        ]
        for task in self.tasks:
            least = min(mode.demands.get(resource.id, 0) for mode in task.modes)
            if task.id in self.around:
                work.append(self.around[task.id] * least)
        missing = sum((end - start) * gone for start, end, gone in self._missing(resource))
        self.cp.add(sum(work) + missing <= resource.capacity * self.last)

    def _kept(self, each: Occupancy) -> cp_model.IntervalVar:
        """From the first filler that is done to the end of the last task."""
        holds = self._all(each.when)
        present, first = self.cp.new_bool_var(""), self.cp.new_int_var(0, self.last, "")
        for filler in each.fillers:
            if filler in self.start:
                done = self.done[filler]
                self.cp.add_bool_or([~done, ~holds, self.done[each.until]])
                self.cp.add_bool_or([~done, ~holds, present])
                self.cp.add(first <= self.start[filler]).only_enforce_if([done, present])
        return self._interval(first, self.end[each.until], present)

    def _away(self, resource: Resource) -> list[_Use]:
        return [
            (self.cp.new_fixed_size_interval_var(start, end - start, ""), gone)
            for start, end, gone in self._missing(resource)
        ]

    def _missing(self, resource: Resource) -> list[tuple[int, int, int]]:
        """What is missing between one change and the next; never more than there is."""
        named = [
            away
            for place, away in enumerate(resource.absences)
            if ("absence", f"{resource.id}#{place}") in self.limits
        ]
        marks = sorted({minute for away in named for minute in (away.start, away.end)})
        found = []
        for start, end in pairwise(marks):
            gone = sum(away.amount for away in named if away.start <= start < away.end)
            if gone:
                found.append((start, min(end, self.last), min(gone, resource.capacity)))
        return [each for each in found if each[0] < each[1]]

    def _interval(
        self, start: cp_model.IntVar, end: cp_model.IntVar, present: cp_model.IntVar
    ) -> cp_model.IntervalVar:
        size = self.cp.new_int_var(0, self.last, "")
        return self.cp.new_optional_interval_var(start, size, end, present, "")
