"""The pieces of a plan from which the rest of its day is planned anew, and what that changed."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import Field

from batchcook.planparts.part import Instant, Part

__all__ = ["Change", "Order", "Replanned"]


class Order(Part):
    """What the plan was made from.

    Attributes:
        day: The prep day with its kitchen, as :func:`batchcook.plans.plainform.as_plain` writes it.
        recipes: Its recipes in the order of the dishes, the same way.
        choices: What the plan chose where several ways were open, by the choice's name.
        dropped: Dishes that were given up on the way.
    """

    day: dict[str, Any]
    recipes: tuple[dict[str, Any], ...]
    choices: dict[str, str] = Field(default_factory=dict)
    dropped: tuple[str, ...] = ()


class Change(Part):
    """One task that is not as it was planned before.

    Attributes:
        dishes: Ids of the dishes that it serves.
        kind: How it differs most.
        words: The change in words: "11:35 instead of 11:05, Ann instead of Ben".
    """

    task: str
    kind: Literal["earlier", "later", "other cook", "new", "dropped"]
    title: str
    words: str
    dishes: tuple[str, ...] = ()


class Replanned(Part):
    """A plan made in the middle of its day.

    Attributes:
        at: From when on it was planned anew.
        finish_before: When the day would have been over by the plan before.
        notes: What to do with food, what was taken as done, what is missing from now on.
        changes: What is not as it was, in order of time.
        late: Foods whose limit is broken already, in words, each with what to do.
    """

    at: Instant
    finish_before: Instant
    notes: tuple[str, ...] = ()
    changes: tuple[Change, ...] = ()
    late: tuple[str, ...] = ()
