"""A day that fits, one batch more at a time, while nights stay open and the day still fits."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from batchcook.suggesting.candidates import Candidate, Scheduled
from batchcook.suggesting.model import SuggestModel

__all__ = ["Growth", "Refusal", "grown"]


@dataclass(frozen=True)
class Refusal:
    """A batch more that was tried and made the day too long, or too much for the cold.

    Attributes:
        dish: The recipe.
        minutes: The shortest day with it that was found; None where none was scheduled.
        bound: No day with it is known to be shorter; None where it does not fit the cold.
    """

    dish: str
    minutes: int | None = None
    bound: int | None = None


@dataclass(frozen=True)
class Growth:
    """What a day came to, and what was tried to fill the nights that it leaves open.

    Attributes:
        day: The day.
        refused: Each batch more that would have fed a night and did not fit.
        idle: Dishes of which a batch more would feed no further night by the rules of the choice.
        at_most: Dishes that are made in as many batches as are suggested of one.
        complete: Whether every batch more was tried; else the time ran out.
    """

    day: Scheduled
    refused: tuple[Refusal, ...] = ()
    idle: tuple[str, ...] = ()
    at_most: tuple[str, ...] = ()
    complete: bool = False


def grown(
    day: Scheduled,
    model: SuggestModel,
    scheduled: Callable[[Candidate, str], Scheduled | Refusal],
    late: Callable[[], bool],
) -> Growth:
    """The day with as many batches more as it takes to fill the nights, or as fit.

    A dish of which a batch more did not fit is not tried again: with more in the day it would
    not fit either.

    Args:
        day: A day that fits.
        model: The choice, with nothing left out.
        scheduled: The day of an order with a batch more of a dish, or why it does not fit.
        late: Whether the time is over.
    """
    refused: dict[str, Refusal] = {}
    while day.candidate.uncovered:
        orders = day.candidate.orders
        more = model.more(orders, refused)
        if more is None or len(more.uncovered) >= len(day.candidate.uncovered):
            return _all_tried(day, model, refused)
        if late():
            return Growth(day, tuple(refused.values()))
        (dish,) = (name for name, count in more.orders.items() if count > orders.get(name, 0))
        found = scheduled(more, dish)
        if isinstance(found, Scheduled):
            day = found
        else:
            refused[dish] = found
    return Growth(day, complete=True)


def _all_tried(day: Scheduled, model: SuggestModel, refused: Mapping[str, Refusal]) -> Growth:
    orders = day.candidate.orders
    full = tuple(name for name, most in model.most_batches.items() if orders.get(name, 0) >= most)
    return Growth(
        day,
        tuple(refused.values()),
        tuple(n for n in model.most_batches if n not in refused and n not in full),
        full,
        complete=True,
    )
