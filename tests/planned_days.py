"""Small prep days planned once for all the tests that look at them."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Mapping
from functools import cache
from typing import Any
from unittest import mock

from batchcook import planning
from batchcook.cookbook import Cookbook, load_cookbook
from batchcook.day.prepday import PrepDay
from batchcook.day.solving import Effort
from batchcook.kitchens.kitchen import default_kitchen
from batchcook.plan import Plan, write_plan
from batchcook.planning import plan_day

__all__ = ["day_of", "planned", "starter", "written"]

SECONDS = 8.0


@cache
def starter() -> Cookbook:
    """The starter recipes."""
    return load_cookbook()


def day_of(**orders: int) -> PrepDay:
    """A Saturday from eight in the ordinary kitchen; recipe ids with _ for -."""
    return PrepDay(
        date=dt.date(2027, 1, 16),
        start=dt.time(8),
        orders={name.replace("_", "-"): count for name, count in orders.items()},
        kitchen=default_kitchen(),
    )


def planned(**orders: int) -> Plan:
    """The plan of such a day; what its dishes take one after another is left out."""
    return _planned(tuple(orders.items()), SECONDS)


def written(seconds: float = SECONDS, /, **orders: int) -> Mapping[str, Any]:
    """The same as parsed JSON, searched for so long; not to be changed."""
    return _written(tuple(orders.items()), seconds)


@cache
def _planned(orders: tuple[tuple[str, int], ...], seconds: float) -> Plan:
    with mock.patch.object(planning, "one_after_another", return_value=0):
        return plan_day(day_of(**dict(orders)), starter(), Effort(seconds))


@cache
def _written(orders: tuple[tuple[str, int], ...], seconds: float) -> Mapping[str, Any]:
    found: Mapping[str, Any] = json.loads(write_plan(_planned(orders, seconds)))
    return found
