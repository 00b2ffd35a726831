"""Parts of a problem whose tasks are tied to each other, looked at apart from the day.

Where food may wait for so long and no longer, its tasks are tied both ways: none can be put off
without the others. Such a part is as possible or impossible at one time as at another, so one of
its tasks may be given a time, which leaves the others little room; whether they fit into it is
then soon known, where the same question asked of a whole day takes a hundred times as long.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace

from batchcook.scheduling.network import Network, network
from batchcook.scheduling.problem import Budget, Lag, Mode, Problem, Resource, Task

__all__ = ["Group", "alone", "anchored", "tied", "tightened", "with_budgets"]

_TRIED = 24  # tasks of a group, at most, that are tried as its anchor


def tightened(problem: Problem) -> Problem:
    """The problem with what its budgets leave each of their spans, stated as maximal lags."""
    bounds = network(problem)
    implied = [lag for budget in problem.budgets for lag in _left(budget, bounds)]
    return replace(problem, lags=(*problem.lags, *dict.fromkeys(implied)))


def _left(budget: Budget, bounds: Network) -> Iterator[Lag]:
    """What the other spans at their shortest leave each span of a budget."""
    least: list[int | None] = []
    for span in budget.spans:
        length = bounds.apart(span)
        sure = {span.before, span.after} <= bounds.sure
        least.append(length if sure or length is None else min(length, 0))
    for place, span in enumerate(budget.spans):
        others = [each for at, each in enumerate(least) if at != place]
        known = [each for each in others if each is not None]
        if len(known) == len(others):
            most = budget.limit - sum(known)
            yield Lag(span.before, span.origin, span.after, span.to, None, most)


@dataclass(frozen=True)
class Group:
    """Tasks that are tied both ways.

    Attributes:
        anchor: One that is always done.
        windows: For each task, if it is done, its earliest start and the latest end of its work,
            in minutes from the anchor's start.
    """

    anchor: str
    windows: Mapping[str, tuple[int, int]]


def tied(problem: Problem, bounds: Network) -> list[Group]:
    """The groups of tasks that are tied both ways, the smallest first.

    The anchor of each is the task that the others keep nearest to.

    Args:
        problem: The whole.
        bounds: Its network.
    """
    groups: list[Group] = []
    seen: set[str] = set()
    for name in problem.tasks:
        if name in seen or name not in bounds.sure:
            continue
        sure = sorted(_windows(problem, bounds, name).keys() & bounds.sure)
        seen |= set(sure)
        tried = sure[:: -(-len(sure) // _TRIED)]
        found = [Group(each, _windows(problem, bounds, each)) for each in tried]
        nearest = min(found, key=_room)
        if len(nearest.windows) > 1:
            groups.append(nearest)
    return sorted(groups, key=lambda group: len(group.windows))


def _windows(problem: Problem, bounds: Network, anchor: str) -> dict[str, tuple[int, int]]:
    """Earliest start and latest end of each task tied to an anchor, from the anchor's start."""
    after = bounds.reach((anchor, "start"))
    before = bounds.reach_back((anchor, "start"))
    return {
        name: (after[name, "start"], -before[name, "end"])
        for name in problem.tasks
        if (name, "start") in after and (name, "end") in before
    }


def _room(group: Group) -> int:
    """Minutes that the tasks of a group may be moved by, added up."""
    return sum(end - start for start, end in group.windows.values())


def with_budgets(problem: Problem, members: Collection[str]) -> frozenset[str]:
    """Some of the tasks, and those that with them spend the same budgets.

    What is tied by what a budget leaves it is impossible only beside what takes the rest.
    """
    bounds = network(problem)
    found = set(members)
    for budget in problem.budgets:
        if any({span.before, span.after} <= found for span in budget.spans):
            for span in budget.spans:
                after = bounds.reach((span.before, span.origin))
                before = bounds.reach_back((span.after, span.to))
                found |= {span.before, span.after}
                found |= {name for name, _ in after.keys() & before.keys() if name}
    return frozenset(found)


def alone(problem: Problem, members: Collection[str]) -> Problem:
    """Some of the tasks, with the limits that concern them only.

    Whatever schedule the problem has, that of these tasks is one of what is left. Times of day are
    left out, a set-up is free where a part may have continued one that is not here, and an oven is
    warm where something else may have warmed it.
    """
    whole = {
        name
        for name in problem.families
        if all(task.id in members for task in problem.tasks.values() if task.family == name)
    }
    warmed = {
        name: resource
        for name, resource in problem.resources.items()
        if resource.warm_up is not None
        and all(
            task.id in members
            for task in problem.tasks.values()
            if any(mode.demands.get(name) for mode in task.modes)
        )
    }
    return replace(
        problem,
        tasks={
            task.id: _by_itself(problem, task, whole, warmed)
            for task in problem.tasks.values()
            if task.id in members
        },
        lags=tuple(lag for lag in problem.lags if lag.before in members and lag.after in members),
        budgets=tuple(
            budget
            for budget in problem.budgets
            if all(span.before in members and span.after in members for span in budget.spans)
        ),
        occupancies=tuple(
            replace(item, fillers=tuple(name for name in item.fillers if name in members))
            for item in problem.occupancies
            if item.until in members and any(name in members for name in item.fillers)
        ),
        resources={
            name: _all_day(each, warm=name in warmed) for name, each in problem.resources.items()
        },
        families={name: problem.families[name] for name in sorted(whole)},
        free_origin=False,
    )


def _all_day(resource: Resource, *, warm: bool) -> Resource:
    if warm or resource.warm_up is None:
        return replace(resource, absences=(), absence_units=())
    return replace(resource, absences=(), absence_units=(), warm_up=None, keeps=0)


def _by_itself(
    problem: Problem, task: Task, whole: Collection[str], warmed: Collection[str]
) -> Task:
    """A task without its times of day, and without what others may do for it."""
    modes = task.modes
    family = task.family
    if family is not None and family not in whole:
        set_up = problem.families[family].set_up
        modes += tuple(
            Mode(f"{each.id}, set up", each.duration + set_up, each.demands, each.when)
            for each in task.modes
            if set_up
        )
        family = None
    ovens = {name for mode in modes for name in mode.demands} & set(warmed)
    return replace(
        task,
        modes=modes,
        family=family,
        settings=task.settings if ovens else (),
        earliest=None,
        latest=None,
    )


def anchored(problem: Problem, group: Group) -> Problem:
    """A group of tasks alone, its anchor at a time that leaves room for all that is tied to it.

    Whatever schedule the problem has, that of these tasks is one of what is left, moved as a whole.
    """
    part = alone(problem, group.windows)
    clear = max((each.set_up for each in part.families.values()), default=0)
    clear += max((each.warm_up or 0 for each in part.resources.values()), default=0)
    at = clear + max(-min(start for start, _ in group.windows.values()), 0)
    tasks = {
        name: replace(
            task, earliest=at + group.windows[name][0], latest=at + group.windows[name][1]
        )
        for name, task in part.tasks.items()
    }
    after = max((each.clean_down for each in part.families.values()), default=0)
    last = at + max(end for _, end in group.windows.values()) + after
    return replace(part, tasks=tasks, horizon=last)
