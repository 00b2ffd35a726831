"""A smaller problem in which the parts of a run are one task, and the way back to the whole."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from batchcook.scheduling.problem import (
    Anchor,
    Budget,
    Family,
    Lag,
    Mode,
    Occupancy,
    Problem,
    Span,
    Task,
)
from batchcook.scheduling.schedule import Done, Schedule

__all__ = ["Merged", "merged"]


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

    def compress(self, schedule: Schedule) -> Schedule:
        """A schedule of the whole as one of the smaller problem, which need not be sound.

        A run starts where the first of its parts does.
        """
        tasks = {name: done for name, done in schedule.tasks.items() if name in self.problem.tasks}
        for name, part in self.parts.items():
            done = schedule.tasks.get(name)
            if done is None or (part.block in tasks and tasks[part.block].start <= done.start):
                continue
            modes = self.problem.tasks[part.block].modes
            mode = next((mode for mode in modes if mode.id == done.mode), modes[0])
            end = done.start + mode.duration
            tasks[part.block] = Done(done.start, done.start, end, end, mode.id)
        return replace(schedule, tasks=tasks)


def merged(problem: Problem, runs: Mapping[str, list[Task]], settled: Mapping[str, str]) -> Merged:
    """Put the parts of each run into one task.

    Args:
        problem: The whole, with the choices that decide about parts taken.
        runs: Parts of one family in the order in which they are done, by a name for each run.
        settled: The choices that were taken.
    """
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


def _common_modes(problem: Problem, members: list[Task]) -> list[Mode]:
    """The modes that all parts have, equal in units, each part as long as in the first of them."""
    named = [item.id for item in problem.resources.values() if item.units]
    found: list[Mode] = []
    lasting: list[int] = []
    for mode in members[0].modes:
        same = [other for task in members for other in task.modes if other.id == mode.id]
        alike = len({tuple(other.demands.get(name, 0) for name in named) for other in same}) == 1
        if len(same) < len(members) or not alike or any(other.when for other in same):
            continue
        demands: dict[str, int] = {}
        for other in same:
            for name, amount in other.demands.items():
                demands[name] = max(amount, demands.get(name, 0))
        durations = [other.duration for other in same]
        lasting = lasting or durations
        if durations == lasting:
            found.append(Mode(mode.id, sum(durations), demands))
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
