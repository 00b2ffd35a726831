"""How real durations vary about planned ones, by technique."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib import resources
from typing import Any, Final

from batchcook.plan import Plan, Task
from batchcook.scheduling.risk import Lognormal, Spread, Triangular

__all__ = ["pace_in_plan", "pad_of", "plan_spreads", "spread_of"]

_UNPADDED: Final = "clean-down"


def plan_spreads(plan: Plan) -> dict[str, Spread]:
    """The spread of every task of a plan about its planned minutes.

    Where the household's own times have shown how they scatter, that comes first, for hands-on
    work. Minutes added with ``--pad`` are to spare: they make the planned time longer, not the
    real one.
    """
    scatter = {} if plan.order is None else plan.order.day.get("scatter", {})
    pad = 1 + pad_of(plan) / 100
    return {task.id: _spread(task, scatter, pad) for task in plan.tasks}


def pad_of(plan: Plan) -> int:
    """Percent by which the plan's hands-on minutes are longer than expected."""
    return 0 if plan.order is None else int(plan.order.day.get("pad", 0))


def pace_in_plan(plan: Plan, task: Task) -> float:
    """The factor on the table's minutes that is in a hands-on task already, time to spare too."""
    paces = {} if plan.order is None else plan.order.day.get("pace", {})
    return float(paces.get(task.technique, 1.0)) * (1 + pad_of(plan) / 100)


def _spread(task: Task, scatter: Mapping[str, float], pad: float) -> Spread:
    by_hand = task.cook is not None
    to_spare = pad if by_hand and task.technique != _UNPADDED else 1.0
    if by_hand and task.technique in scatter:
        return Lognormal(1 / to_spare, float(scatter[task.technique]))
    table = spread_of(task.technique, by_hand=by_hand)
    return Triangular(table.low / to_spare, table.mode / to_spare, table.high / to_spare)


def spread_of(technique: str, *, by_hand: bool) -> Triangular:
    """The spread of a technique: its own where the table has one, else that of its kind."""
    table = _table()
    entry = table["techniques"].get(technique, table["hands-on" if by_hand else "by-itself"])
    return Triangular(float(entry["low"]), float(entry["mode"]), float(entry["high"]))


@cache
def _table() -> Mapping[str, Any]:
    text = resources.files("batchcook.data").joinpath("spreads.toml").read_text("utf-8")
    return tomllib.loads(text)
