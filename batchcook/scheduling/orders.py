"""Uses of a resource that cannot overlap, so that one of them comes before the other."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from batchcook.scheduling.energy import least_kept
from batchcook.scheduling.network import Network
from batchcook.scheduling.problem import Lag, Problem, Resource

__all__ = ["Order", "open_pairs"]


@dataclass(frozen=True)
class _Use:
    """What a resource is always used for.

    Attributes:
        fillers: The tasks of which the first to start begins it.
        until: The task at whose end it is over.
        amount: How much of the resource it takes, at the least.
        minutes: The least time it lasts.
        settings: The settings it allows; empty where there are none.
    """

    fillers: tuple[str, ...]
    until: str
    amount: int
    minutes: int
    settings: frozenset[int] = frozenset()


@dataclass(frozen=True)
class Order:
    """One use before another, of two that cannot overlap.

    Attributes:
        lags: What says so.
        path: The least minutes of a day in which it is so, by the longest path through both.
    """

    lags: tuple[Lag, ...]
    path: int


def open_pairs(problem: Problem, bounds: Network) -> list[tuple[Order, Order]]:
    """For every two uses that cannot overlap and may come in either order, both orders.

    Args:
        problem: The problem.
        bounds: Its network.
    """
    reached = {
        use.until: bounds.reach((use.until, "end"))
        for resource in problem.resources.values()
        for use in _uses(problem, bounds, resource)
    }

    def comes_first(one: _Use, other: _Use) -> bool:
        after = reached[one.until]
        return all(after.get((name, "start"), -1) >= 0 for name in other.fillers)

    found: list[tuple[Order, Order]] = []
    for resource in problem.resources.values():
        for one, other in combinations(_uses(problem, bounds, resource), 2):
            gap = _gap(resource, one, other)
            if gap is None or comes_first(one, other) or comes_first(other, one):
                continue
            found.append((_order(bounds, one, other, gap), _order(bounds, other, one, gap)))
    return found


def _uses(problem: Problem, bounds: Network, resource: Resource) -> Iterator[_Use]:
    """The uses of a resource by what is always done."""
    for task in problem.tasks.values():
        amount = min(mode.demands.get(resource.id, 0) for mode in task.modes)
        minutes = min(mode.duration for mode in task.modes)
        # What takes no time may come in the middle of another use.
        if amount and minutes and not task.when:
            yield _Use((task.id,), task.id, amount, minutes, frozenset(task.settings))
    for each in problem.occupancies:
        sure = not each.when and bounds.sure.issuperset({*each.fillers, each.until})
        if each.resource == resource.id and sure and (kept := least_kept(bounds, each)):
            yield _Use(each.fillers, each.until, each.amount, kept)


def _gap(resource: Resource, one: _Use, other: _Use) -> int | None:
    """Minutes at least between two uses that cannot overlap; None where they can."""
    if one.settings and other.settings and not one.settings & other.settings:
        return resource.warm_up or 0
    return 0 if one.amount + other.amount > resource.capacity else None


def _order(bounds: Network, first: _Use, then: _Use, gap: int) -> Order:
    head = min(bounds.heads[name] for name in first.fillers)
    path = head + first.minutes + gap + then.minutes + bounds.tails[then.until]
    lags = (Lag(first.until, "end", name, "start", gap) for name in then.fillers)
    return Order(tuple(lags), path)
