"""Small plans for the tests of what is bought; invented throughout."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from batchcook.plan import Container, Cook, Dish, Plan, ShoppingLine, Summary

__all__ = ["DAY", "bought", "dish", "plan_with", "tub"]

DAY = dt.date(2027, 1, 16)
"""A Saturday."""


def bought(
    food: str, grams: int, section: str = "produce", *, later: bool = False, dish: str = "soup"
) -> ShoppingLine:
    """A line of a plan's own list."""
    return ShoppingLine(
        food=food,
        section=section,
        amount=f"{grams} g",
        grams=grams,
        dishes=(dish,),
        later=later,
    )


def dish(name: str, batches: int = 2) -> Dish:
    """A dish of a plan."""
    title = name.replace("-", " ").capitalize()
    return Dish(id=name, title=title, batches=batches, servings=8, state="cooked", makes="3 quarts")


def tub(number: int, holds: str = "quart tub") -> Container:
    """A container of a plan."""
    return Container(
        code=f"A{number}",
        dish="soup",
        title="Soup",
        portions=4,
        number=number,
        of=9,
        holds=holds,
        grams=700,
        state="cooked",
        packed_on=DAY,
        best_by=dt.date(2027, 3, 16),
        use_by=dt.date(2027, 4, 16),
        storage_rows=("soup-or-stew",),
        thaw="either",
        thaw_days=1,
        keeps_thawed_days=3,
        finish="Warm it.",
    )


def plan_with(
    lines: Sequence[ShoppingLine],
    containers: Sequence[Container] = (),
    dishes: Sequence[Dish] = (dish("soup"),),
) -> Plan:
    """A plan that buys so much and fills such containers."""
    eight = dt.datetime(2027, 1, 16, 8, 0)  # noqa: DTZ001 - plans hold local wall-clock times
    return Plan(
        date=DAY,
        start=eight,
        finish=eight + dt.timedelta(hours=3),
        summary=Summary(
            makespan_minutes=180,
            best_bound_minutes=180,
            proved_shortest=True,
            one_after_another_minutes=200,
            hands_on_minutes=90,
        ),
        cooks=(Cook(id="first", name="First cook"),),
        dishes=tuple(dishes),
        resources=(),
        tasks=(),
        containers=tuple(containers),
        shopping=tuple(lines),
    )
