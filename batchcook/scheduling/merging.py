"""A smaller problem whose schedules are schedules of the whole: each family done in one run.

Choices that decide which parts a family has are settled by least work, and the parts that are
left follow each other in a fixed order as one task. What is found for the smaller problem is a
start for the whole one, no bound of it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import partial
from itertools import pairwise

from batchcook.scheduling.energy import shortest_day
from batchcook.scheduling.network import Network, network
from batchcook.scheduling.problem import (
    Anchor,
    Budget,
    Condition,
    Family,
    Lag,
    Mode,
    Occupancy,
    Problem,
    Span,
    Task,
)
from batchcook.scheduling.schedule import Done, Schedule

__all__ = ["Merged", "merge", "settle"]

_DIVISIONS = 12  # of runs, at most, one after the other


@dataclass(frozen=True)
class _Part:
    """Where a part lies in its block, in minutes from the block's start."""

    block: str
    start: int
    work: int
    end: int
    release: int
    follows: str | None

    def at(self, anchor: Anchor) -> int:
        return self.start if anchor == "start" else self.end


@dataclass(frozen=True)
class Merged:
    """The smaller problem, and the way back.

    Attributes:
        problem: The problem with one task for each run.
        parts: Where each merged part lies.
        settled: The choices that were taken to come to it.
    """

    problem: Problem
    parts: Mapping[str, _Part]
    settled: Mapping[str, str]

    def expand(self, schedule: Schedule) -> Schedule:
        """The schedule of the whole problem, without named units."""
        blocks = {part.block for part in self.parts.values()}
        tasks = {name: done for name, done in schedule.tasks.items() if name not in blocks}
        for name, part in self.parts.items():
            block = schedule.tasks[part.block]
            first = block.start
            tasks[name] = Done(
                first + part.start,
                first + part.work,
                first + part.end,
                first + part.release,
                block.mode,
                part.follows,
            )
        return replace(schedule, tasks=tasks, choices={**schedule.choices, **self.settled})


def merge(problem: Problem) -> Merged:
    """Settle which parts there are and put the parts of each family into as few runs as serve.

    A run is divided where it alone would make the day longer than its bound.
    """
    settled = _decided(problem)
    smaller = settle(problem, settled)
    bounds = network(smaller)
    least = shortest_day(smaller, bounds)
    runs = _in_time(smaller, _runs(smaller, bounds.tails), settled, bounds.tails)
    merged = _merged(smaller, runs, settled)
    for _ in range(_DIVISIONS):
        reach = network(merged.problem)
        work = shortest_day(merged.problem, replace(reach, length=0))
        if reach.length <= max(least, work):
            break
        long = {name for name in _critical(merged.problem, reach) if len(runs.get(name, ())) > 1}
        if not long:
            break
        for name in sorted(long):
            _divide(runs, name, bounds.tails)
        merged = _merged(smaller, runs, settled)
    return merged


def _runs(problem: Problem, tails: Mapping[str, int]) -> dict[str, list[Task]]:
    """The parts of each family that can be merged, the most urgent first.

    Parts that something must follow soon are merged within their group only: a run for several
    groups would tie all of these to one time.
    """
    hurried = {span.before for budget in problem.budgets for span in budget.spans}
    hurried |= {lag.before for lag in problem.lags if lag.high is not None}
    runs: dict[str, list[Task]] = {}
    for task in problem.tasks.values():
        if task.family is not None:
            own = f" for {task.group}" if task.id in hurried else ""
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
    if network(_merged(problem, runs, settled).problem).consistent:
        return runs
    sound: dict[str, list[Task]] = {}
    left = dict(runs)
    while left:
        name, members = next(iter(left.items()))
        alone = _merged(problem, {name: members}, settled)
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


def _merged(problem: Problem, runs: Mapping[str, list[Task]], settled: Mapping[str, str]) -> Merged:
    """Put the parts of each run into one task."""
    parts: dict[str, _Part] = {}
    blocks: dict[str, Task] = {}
    for name, members in runs.items():
        family = problem.families[members[0].family or ""]
        modes = _common_modes(problem, members)
        laid = _laid(name, family, members, modes[0].id) if modes else {}
        if modes and _lags_hold(problem.lags, laid):
            blocks[name] = _block(name, family, members, modes, laid)
            parts.update(laid)
    return Merged(_replaced(problem, blocks, parts), parts, settled)


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


def _common_modes(problem: Problem, members: list[Task]) -> list[Mode]:
    """The modes that all parts have, equal in units and as long as in the first of them."""
    named = [item.id for item in problem.resources.values() if item.units]
    found: list[Mode] = []
    for mode in members[0].modes:
        same = [other for task in members for other in task.modes if other.id == mode.id]
        alike = len({tuple(other.demands.get(name, 0) for name in named) for other in same}) == 1
        if len(same) < len(members) or not alike or any(other.when for other in same):
            continue
        demands: dict[str, int] = {}
        for other in same:
            for name, amount in other.demands.items():
                demands[name] = max(amount, demands.get(name, 0))
        merged = Mode(mode.id, sum(other.duration for other in same), demands)
        if not found or merged.duration == found[0].duration:
            found.append(merged)
    return found


def _laid(block: str, family: Family, members: list[Task], mode: str) -> dict[str, _Part]:
    """The parts one after the other, a set-up before them and a clean-down after."""
    laid: dict[str, _Part] = {}
    clock = family.set_up
    follows = None
    for task in members:
        end = clock + next(item.duration for item in task.modes if item.id == mode)
        start = clock if follows else 0
        release = end + (family.clean_down if task is members[-1] else 0)
        laid[task.id] = _Part(block, start, clock, end, release, follows)
        clock, follows = end, task.id
    return laid


def _lags_hold(lags: Iterable[Lag], laid: Mapping[str, _Part]) -> bool:
    """Whether the lags between the parts of a block hold in it."""
    for lag in lags:
        if lag.before in laid and lag.after in laid:
            gap = laid[lag.after].at(lag.to) - laid[lag.before].at(lag.origin)
            low, high = lag.low, lag.high
            if (low is not None and gap < low) or (high is not None and gap > high):
                return False
    return True


def _block(
    name: str, family: Family, members: list[Task], modes: list[Mode], laid: Mapping[str, _Part]
) -> Task:
    """One task for the parts of a family."""
    extra = family.set_up + family.clean_down
    length = extra + modes[0].duration
    earliest = [
        task.earliest - laid[task.id].start for task in members if task.earliest is not None
    ]
    latest = [
        task.latest + length - laid[task.id].end for task in members if task.latest is not None
    ]
    return Task(
        name,
        tuple(replace(mode, duration=mode.duration + extra) for mode in modes),
        earliest=max(earliest, default=None),
        latest=min(latest, default=None),
        group=members[0].group,
    )


def _replaced(problem: Problem, blocks: Mapping[str, Task], parts: Mapping[str, _Part]) -> Problem:
    """The problem with blocks in place of their parts."""

    def name(task: str) -> str:
        return parts[task].block if task in parts else task

    def anchor(task: str, at: Anchor) -> Anchor:
        return "start" if task in parts else at

    def offset(task: str, at: Anchor) -> int:
        return parts[task].at(at) if task in parts else 0

    def span(item: Span) -> Span:
        return Span(
            name(item.before),
            anchor(item.before, item.origin),
            name(item.after),
            anchor(item.after, item.to),
        )

    def lag(item: Lag) -> Lag:
        shift = offset(item.before, item.origin) - offset(item.after, item.to)
        return replace(
            item,
            before=name(item.before),
            origin=anchor(item.before, item.origin),
            after=name(item.after),
            to=anchor(item.after, item.to),
            low=None if item.low is None else item.low + shift,
            high=None if item.high is None else item.high + shift,
        )

    def budget(item: Budget) -> Budget:
        shift = sum(
            offset(part.before, part.origin) - offset(part.after, part.to) for part in item.spans
        )
        return replace(
            item, spans=tuple(span(part) for part in item.spans), limit=item.limit + shift
        )

    def occupancy(item: Occupancy) -> Occupancy:
        fillers = tuple(dict.fromkeys(name(filler) for filler in item.fillers))
        return replace(item, fillers=fillers, until=name(item.until))

    left = {task.id: task for task in problem.tasks.values() if task.id not in parts}
    return replace(
        problem,
        tasks={**left, **blocks},
        lags=tuple(
            dict.fromkeys(
                lag(item)
                for item in problem.lags
                if name(item.before) != name(item.after) or item.before not in parts
            )
        ),
        budgets=tuple(
            item for item in map(budget, problem.budgets) if item.spans or item.limit < 0
        ),
        occupancies=tuple(occupancy(item) for item in problem.occupancies),
        families={
            family: item
            for family, item in problem.families.items()
            if any(task.family == family for task in left.values())
        },
    )
