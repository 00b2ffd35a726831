"""Offers, nights and requests made up for tests."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

from batchcook.cookbook import load_cookbook
from batchcook.freezer.stock import Rating, Verdict
from batchcook.kitchens.kitchen import default_kitchen
from batchcook.suggesting.fromstock import NightAhead
from batchcook.suggesting.offers import Offer, Size
from batchcook.suggesting.request import SuggestRequest

__all__ = ["DAY", "night", "offer", "request"]

DAY = dt.date(2027, 1, 16)
_BASE = load_cookbook()["cottage-pie"]


def request(
    nights: int | tuple[int, ...] = 4, *, days: int = 20, **other: object
) -> SuggestRequest:
    """So many nights within so many days for four people, at most six hours in the kitchen."""
    asked = SuggestRequest(
        date=DAY,
        start=dt.time(8),
        nights=nights,
        until=DAY + dt.timedelta(days=days),
        people=4,
        longest=360,
        kitchen=default_kitchen(),
    )
    return replace(asked, **other)  # type: ignore[arg-type] # fields of a request, by name


def night(days: int, people: int = 4, stock: str = "") -> NightAhead:
    """A night so many days after the prep day; ``stock`` is the main ingredient it has already."""
    found = NightAhead(DAY + dt.timedelta(days=days), people)
    if not stock:
        return found
    return replace(
        found,
        dishes=frozenset({f"old {stock}"}),
        title=f"Old {stock}",
        mains=frozenset({stock}),
        keys=(f"{stock}@2027-01-01",),
        codes=("A1",),
    )


def offer(
    name: str,
    main: str,
    *,
    verdict: Verdict | None = None,
    each: int = 4,
    servings: int = 8,
    hands_on: int = 60,
    alone: int = 90,
    space: float = 0.2,
    first: int = 2,
    last: int = 90,
    most: int = 2,
    waits: int = 2,
) -> Offer:
    """A recipe with one to ``most`` batches; ``first`` and ``last`` are days after the prep day."""
    recipe = replace(_BASE, id=name, title=name, servings=servings, portions_per_container=each)
    sizes = tuple(
        Size(
            batches=batches,
            portions=tuple(
                min(each, servings * batches - done) for done in range(0, servings * batches, each)
            ),
            hands_on=hands_on * batches - 10 * (batches - 1),
            alone=alone + 20 * (batches - 1),
            space=space * batches,
            cooling=space * batches,
            pounds=5.0 * batches,
        )
        for batches in range(1, most + 1)
    )
    return Offer(
        recipe=recipe,
        main=main,
        rating=None if verdict is None else Rating(verdict, DAY),
        from_day=DAY + dt.timedelta(days=first),
        best_by=DAY + dt.timedelta(days=last),
        waits=waits,
        sizes=sizes,
    )
