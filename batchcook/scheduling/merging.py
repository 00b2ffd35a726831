"""Which parts are merged into runs, for a smaller problem that is soon searched.

Choices that decide which parts a family has are settled by least work, and the parts that are
left follow each other in a fixed order as one task. What is found for the smaller problem is a
start for the whole one, no bound of it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from functools import partial
from itertools import pairwise

from batchcook.scheduling.energy import shortest_day
from batchcook.scheduling.merged import Merged, merged
from batchcook.scheduling.network import Network, network
from batchcook.scheduling.problem import Condition, Problem, Task

__all__ = ["Way", "divisible_families", "hurried_families", "merge", "settle"]


@dataclass(frozen=True)
class Way:
    """A way to merge.

    Attributes:
        across: The families whose hurried parts are merged across groups even so.
        divided: The families whose runs are divided once more.
    """

    across: frozenset[str] = frozenset()
    divided: frozenset[str] = frozenset()


_WHOLE = Way()
_DIVISIONS = 12  # of runs, at most, one after the other


def merge(problem: Problem, way: Way = _WHOLE) -> Merged:
    """Settle which parts there are and put the parts of each family into as few runs as serve.

    Parts that something must follow soon are merged within their group only, as a run for several
    groups ties all of these to one time. A run is divided where it alone would make the day
    longer than its bound.

    Args:
        problem: The whole.
        way: What is done otherwise.
    """
    settled = _decided(problem)
    smaller = settle(problem, settled)
    bounds = network(smaller)
    least = shortest_day(smaller, bounds)
    runs = _in_time(smaller, _runs(smaller, bounds.tails, way.across), settled, bounds.tails)
    for name, members in list(runs.items()):
        if members[0].family in way.divided and len(members) > 1:
            _divide(runs, name, bounds.tails)
    found = merged(smaller, runs, settled)
    for _ in range(_DIVISIONS):
        reach = network(found.problem)
        work = shortest_day(found.problem, replace(reach, length=0))
        if reach.length <= max(least, work):
            break
        long = {name for name in _critical(found.problem, reach) if len(runs.get(name, ())) > 1}
        if not long:
            break
        for name in sorted(long):
            _divide(runs, name, bounds.tails)
        found = merged(smaller, runs, settled)
    return found


def divisible_families(problem: Problem) -> list[str]:
    """The families of more groups than one, those of most groups first."""
    groups = {
        (task.family, task.group) for task in problem.tasks.values() if task.family is not None
    }
    families = Counter(family for family, _ in sorted(groups, key=str))
    return [family for family, number in families.most_common() if number > 1]


def hurried_families(problem: Problem) -> list[str]:
    """The families for which merging across groups makes a difference."""
    hurried = _hurried(problem)
    groups: dict[str, set[str | None]] = {}
    for task in problem.tasks.values():
        if task.family is not None and task.id in hurried:
            groups.setdefault(task.family, set()).add(task.group)
    return [family for family, apart in groups.items() if len(apart) > 1]


def _hurried(problem: Problem) -> set[str]:
    """The tasks that something must follow soon."""
    return {span.before for budget in problem.budgets for span in budget.spans} | {
        lag.before for lag in problem.lags if lag.high is not None
    }


def _runs(
    problem: Problem, tails: Mapping[str, int], across: Collection[str]
) -> dict[str, list[Task]]:
    """The parts of each family that can be merged, the most urgent first."""
    hurried = _hurried(problem)
    runs: dict[str, list[Task]] = {}
    for task in problem.tasks.values():
        if task.family is not None:
            apart = task.id in hurried and task.family not in across
            own = f" for {task.group}" if apart else ""
            runs.setdefault(f"run of {task.family}{own}", []).append(task)
    return {
        name: sorted(members, key=lambda task: -tails[task.id])
        for name, members in runs.items()
        if not any(task.when or task.settings for task in members)
    }


def _in_time(
    problem: Problem,
    runs: dict[str, list[Task]],
    settled: Mapping[str, str],
    tails: Mapping[str, int],
) -> dict[str, list[Task]]:
    """The runs, those divided whose last parts would come too late for what the first wait for."""
    if network(merged(problem, runs, settled).problem).consistent:
        return runs
    sound: dict[str, list[Task]] = {}
    left = dict(runs)
    while left:
        name, members = next(iter(left.items()))
        alone = merged(problem, {name: members}, settled)
        if len(members) == 1 or network(alone.problem).consistent:
            sound[name] = left.pop(name)
        else:
            _divide(left, name, tails)
    return sound


def _critical(problem: Problem, reach: Network) -> set[str]:
    """The tasks whose start decides how long the longest chain of the day is."""

    def through(name: str) -> int:
        shortest = min(mode.duration for mode in problem.tasks[name].modes)
        return reach.heads[name] + shortest + reach.tails[name]

    return {
        lag.before
        for lag in problem.lags
        if lag.low is not None
        and lag.origin == "start" == lag.to
        and not lag.when
        and reach.heads[lag.before] + lag.low == reach.heads[lag.after]
        and through(lag.after) >= reach.length
    } & problem.tasks.keys()


def _divide(runs: dict[str, list[Task]], name: str, tails: Mapping[str, int]) -> None:
    """Divide a run where its parts differ most in urgency."""
    members = runs.pop(name)
    gaps = [tails[one.id] - tails[other.id] for one, other in pairwise(members)]
    place = gaps.index(max(gaps)) + 1
    runs[f"{name}, first"] = members[:place]
    runs[f"{name}, then"] = members[place:]


def settle(problem: Problem, settled: Mapping[str, str]) -> Problem:
    """The problem that is left when some choices are taken."""

    def open_(conditions: Iterable[Condition]) -> bool:
        return all(
            settled.get(item.choice, next(iter(item.options))) in item.options
            for item in conditions
        )

    def left(conditions: Iterable[Condition]) -> tuple[Condition, ...]:
        return tuple(item for item in conditions if item.choice not in settled)

    tasks = {
        task.id: replace(
            task,
            when=left(task.when),
            modes=tuple(
                replace(mode, when=left(mode.when)) for mode in task.modes if open_(mode.when)
            ),
        )
        for task in problem.tasks.values()
        if open_(task.when)
    }
    return replace(
        problem,
        tasks=tasks,
        lags=tuple(
            replace(lag, when=left(lag.when))
            for lag in problem.lags
            if open_(lag.when) and lag.before in tasks and lag.after in tasks
        ),
        budgets=tuple(
            replace(
                budget,
                spans=tuple(
                    span for span in budget.spans if span.before in tasks and span.after in tasks
                ),
            )
            for budget in problem.budgets
        ),
        occupancies=tuple(
            replace(
                item,
                when=left(item.when),
                fillers=tuple(name for name in item.fillers if name in tasks),
            )
            for item in problem.occupancies
            if open_(item.when) and any(name in tasks for name in item.fillers)
        ),
        choices={name: item for name, item in problem.choices.items() if name not in settled},
    )


def _decided(problem: Problem) -> dict[str, str]:
    """The options of least work for the choices that decide which parts families have."""
    decided = dict.fromkeys(
        condition.choice
        for task in problem.tasks.values()
        if task.family is not None
        for condition in task.when
    )
    return {
        name: min(problem.choices[name].options, key=partial(_asked, problem, name))
        for name in decided
    }


def _asked(problem: Problem, choice: str, option: str) -> int:
    """The busy minutes of the hands in the tasks that an option asks for."""
    return sum(
        min(
            mode.duration * sum(mode.demands.get(hand, 0) for hand in problem.hands)
            for mode in task.modes
        )
        for task in problem.tasks.values()
        if any(item.choice == choice and option in item.options for item in task.when)
    )
