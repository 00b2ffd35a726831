"""Times that a followed day really took, kept for the plans to come."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from pathlib import Path

from batchcook.pacing.pace import (
    Observation,
    Pace,
    fit_paces,
    read_observations,
    write_observations,
)
from batchcook.plan import Plan
from batchcook.replan.progress import Mark, state_of

__all__ = ["keep_times", "observed", "own_paces", "pace_file"]

_LONGEST = 4.0
"""A task that seems to have taken more than so many times its time was left open by mistake."""

_SET_UP_AND_AFTER = frozenset({"clean-down"})


def pace_file() -> Path:
    """Where the household's times are kept, unless a command says otherwise."""
    from platformdirs import user_data_path  # noqa: PLC0415 - not needed where a file is named

    return user_data_path("batchcook", appauthor=False) / "pace.jsonl"


def observed(plan: Plan, marks: Iterable[Mark]) -> tuple[Observation, ...]:
    """The real times of hands-on tasks that were marked both begun and done.

    Args:
        plan: The plan that was followed.
        marks: Its progress.
    """
    state = state_of(marks)
    day = {} if plan.order is None else plan.order.day
    pad = 1 + float(day.get("pad", 0)) / 100
    paces = day.get("pace", {})
    found = []
    for task in plan.tasks:
        if task.cook is None or task.technique in _SET_UP_AND_AFTER:
            continue
        if task.id not in state.started or task.id not in state.ended:
            continue
        real = _minutes(state.ended[task.id] - state.started[task.id])
        planned = _minutes(task.end - task.start)
        if planned > 0 and 0 < real <= _LONGEST * planned:
            found.append(
                Observation(
                    date=plan.date,
                    technique=task.technique,
                    planned=planned,
                    real=real,
                    pace=float(paces.get(task.technique, 1.0)) * pad,
                )
            )
    return tuple(found)


def _minutes(span: dt.timedelta) -> float:
    return span.total_seconds() / 60


def keep_times(file: Path, new: tuple[Observation, ...]) -> tuple[Observation, ...]:
    """Add a day's times to those kept; a day that was there before is replaced.

    Raises:
        InputFault: The file cannot be read or written.
    """
    dates = {each.date for each in new}
    kept = tuple(each for each in read_observations(file) if each.date not in dates)
    file.parent.mkdir(parents=True, exist_ok=True)
    write_observations(file, (*kept, *new))
    return (*kept, *new)


def own_paces(file: Path) -> dict[str, Pace]:
    """Technique to the household's pace, from the times kept; none where there is no file.

    Raises:
        InputFault: The file cannot be read.
    """
    return fit_paces(read_observations(file))
