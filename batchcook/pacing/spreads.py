"""How real durations vary about planned ones, by technique."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib import resources
from typing import Any

from batchcook.plan import Plan
from batchcook.scheduling.risk import Spread, Triangular

__all__ = ["plan_spreads", "spread_of"]


def plan_spreads(plan: Plan, learned: Mapping[str, Spread] | None = None) -> dict[str, Spread]:
    """The spread of every task of a plan.

    Args:
        plan: The plan.
        learned: Spreads by technique that a household's own times have shown; they come first,
            for hands-on work.
    """
    own = learned or {}
    return {
        task.id: own[task.technique]
        if task.cook is not None and task.technique in own
        else spread_of(task.technique, by_hand=task.cook is not None)
        for task in plan.tasks
    }


def spread_of(technique: str, *, by_hand: bool) -> Spread:
    """The spread of a technique: its own where the table has one, else that of its kind."""
    table = _table()
    entry = table["techniques"].get(technique, table["hands-on" if by_hand else "by-itself"])
    return Triangular(float(entry["low"]), float(entry["mode"]), float(entry["high"]))


@cache
def _table() -> Mapping[str, Any]:
    text = resources.files("batchcook.data").joinpath("spreads.toml").read_text("utf-8")
    return tomllib.loads(text)
