"""Readings of a problem for those who make schedules; the checker has its own."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from batchcook.scheduling.problem import Anchor, Condition
from batchcook.scheduling.schedule import Done

__all__ = ["hold", "minute_of"]


def hold(choices: Mapping[str, str], conditions: Iterable[Condition]) -> bool:
    """Whether every condition agrees with the choices taken so far."""
    return all(choices.get(item.choice) in item.options for item in conditions)


def minute_of(done: Done, anchor: Anchor) -> int:
    """The start, or the end of the work."""
    return done.start if anchor == "start" else done.end
