"""What stands or cooks where and how long: the burners, ovens, slow cookers, ice baths."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from batchcook.plan import Occupancy, Plan, Task

__all__ = ["Row", "Stay", "rows"]


@dataclass(frozen=True)
class Stay:
    """A resource kept for a while.

    Attributes:
        lanes: Which of its places, counted from 0.
        dishes: Ids of the dishes it serves; empty for the day's own work.
        inside: What goes on in it: start, end and a few words.
        away: True where nobody can use it.
    """

    start: datetime
    end: datetime
    lanes: tuple[int, ...]
    label: str
    dishes: tuple[str, ...]
    inside: tuple[tuple[datetime, datetime, str], ...] = ()
    away: bool = False


@dataclass(frozen=True)
class Row:
    """One kind of heat with its places."""

    name: str
    places: int
    stays: tuple[Stay, ...]


_NAMES = {"burner": "Burners", "oven": "Oven", "slow-cooker": "Slow cooker", "ice bath": "Ice bath"}


def rows(plan: Plan) -> tuple[Row, ...]:
    """What of them the day uses, each place with its stays."""
    return tuple(
        row
        for resource in plan.resources
        if (name := _name(plan, resource.id)) and (row := _row(plan, resource.id, name)).stays
    )


def _name(plan: Plan, resource: str) -> str:
    """What it is called on paper, by its size where there are several of its kind."""
    kind, _, rest = resource.partition(":")
    alike = sum(each.id.partition(":")[0] == kind for each in plan.resources)
    name = _NAMES.get(kind, "")
    return f"{name} {rest}" if name and rest and alike > 1 else name


def _row(plan: Plan, resource: str, name: str) -> Row:
    capacity = next(each.capacity for each in plan.resources if each.id == resource)
    wanted = [*_kept(plan, resource), *_used(plan, resource), *_away(plan, resource)]
    placed = _placed(wanted, capacity)
    places = 1 + max((lane for stay in placed for lane in stay.lanes), default=0)
    return Row(name, places, placed)


def _kept(plan: Plan, resource: str) -> list[tuple[int, Stay]]:
    tasks = {task.id: task for task in plan.tasks}
    after: dict[str, set[str]] = defaultdict(set)
    for lag in plan.lags:
        after[lag.before].add(lag.after)
    return [
        (each.amount, _stay(each, tasks, after))
        for each in plan.occupancies
        if each.resource == resource and each.from_task in tasks and each.to_task in tasks
    ]


def _stay(each: Occupancy, tasks: Mapping[str, Task], after: Mapping[str, set[str]]) -> Stay:
    first, last = tasks[each.from_task], tasks[each.to_task]
    within = [
        task
        for id_ in _reached(each.from_task, after)
        if (task := tasks.get(id_)) is not None
        and each.to_task in _reached(id_, after)
        and task.cook is None
        and first.start <= task.start
        and task.end <= last.end
    ]
    inside = sorted({(task.start, task.end, task.label or task.title) for task in within})
    return Stay(
        first.start, last.end, (), first.label or first.title, tuple(first.dishes), tuple(inside)
    )


def _reached(start: str, after: Mapping[str, set[str]]) -> set[str]:
    """Everything that follows a task, itself included."""
    seen, queue = {start}, [start]
    while queue:
        for each in after.get(queue.pop(), ()):
            if each not in seen:
                seen.add(each)
                queue.append(each)
    return seen


def _used(plan: Plan, resource: str) -> list[tuple[int, Stay]]:
    """Tasks that hold it themselves; what follows at once for the same dish is one stay."""
    found: list[tuple[int, Stay]] = []
    for task in plan.tasks:
        amount = task.uses.get(resource, 0)
        if not amount:
            continue
        dishes = tuple(task.dishes)
        joined = next(
            (
                place
                for place, (held, stay) in enumerate(found)
                if held == amount and stay.end == task.start and stay.dishes == dishes and dishes
            ),
            None,
        )
        if joined is None:
            found.append((amount, Stay(task.start, task.end, (), task.label, dishes)))
        else:
            stay = found[joined][1]
            found[joined] = (amount, Stay(stay.start, task.end, (), stay.label, dishes))
    return found


def _away(plan: Plan, resource: str) -> list[tuple[int, Stay]]:
    return [
        (away.amount, Stay(away.from_, away.to, (), away.why or "not free", (), away=True))
        for each in plan.resources
        if each.id == resource
        for away in each.away
    ]


def _placed(wanted: Sequence[tuple[int, Stay]], capacity: int) -> tuple[Stay, ...]:
    """Each stay on places that are free, side by side where they are."""
    free_at: list[datetime | None] = [None] * capacity
    placed = []
    for amount, stay in sorted(wanted, key=lambda each: (each[1].start, each[1].end)):
        free = [lane for lane, at in enumerate(free_at) if at is None or at <= stay.start]
        lanes = _side_by_side(free, amount) or free[:amount]
        for lane in lanes:
            free_at[lane] = stay.end
        placed.append(
            Stay(
                stay.start, stay.end, tuple(lanes), stay.label, stay.dishes, stay.inside, stay.away
            )
        )
    return tuple(placed)


def _side_by_side(free: Sequence[int], amount: int) -> list[int]:
    for place in range(len(free) - amount + 1):
        span = list(free[place : place + amount])
        if span[-1] - span[0] == amount - 1:
            return span
    return []
