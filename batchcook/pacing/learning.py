"""Times that a followed day really took, kept for the plans to come."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from enum import StrEnum
from pathlib import Path

from batchcook.complaints import Complaint, InputFault
from batchcook.filelock import held
from batchcook.pacing.pace import (
    Observation,
    Pace,
    fit_paces,
    read_observations,
    write_observations,
)
from batchcook.pacing.spreads import pace_in_plan
from batchcook.plan import Plan
from batchcook.plans.progress import Mark, state_of

__all__ = ["Lost", "keep_times", "observation", "observed", "own_paces", "pace_file", "weighed"]

_LONGEST = 4.0
"""A task that seems to have taken more than so many times its time was left open by mistake."""


class Lost(StrEnum):
    """Why the marks of a task teach nothing."""

    HALF = "marked begun or done, but not both"
    AT_ONCE = "marked begun and done at the same moment, so how long it took is not known"
    LEFT_OPEN = f"left open for more than {_LONGEST:g} times what was planned, so by mistake"
    SUPPOSED = "only taken to have gone as planned; nobody saw when"
    BY_ITSELF = "taken to be over because the next work had begun"
    AFTER = "cleaning up after other work, of which no times are kept"


_SET_UP_AND_AFTER = frozenset({"clean-down"})


def pace_file() -> Path:
    """Where the household's times are kept, unless a command says otherwise."""
    from platformdirs import user_data_path  # noqa: PLC0415 - not needed where a file is named

    return user_data_path("batchcook", appauthor=False) / "pace.jsonl"


def observed(plan: Plan, marks: Iterable[Mark]) -> dict[str, Observation]:
    """The real times of hands-on tasks that were marked both begun and done, by task.

    What is only supposed to have gone as planned teaches nothing, and neither does what was taken
    to be over because the next work had begun.

    Args:
        plan: The plan that was followed, as it was before anything of it was done.
        marks: Its progress.
    """
    return {
        task: seen for task, seen in weighed(plan, marks).items() if isinstance(seen, Observation)
    }


def weighed(plan: Plan, marks: Iterable[Mark]) -> dict[str, Observation | Lost]:
    """What each hands-on task of which anything was marked teaches, or why it teaches nothing.

    Args:
        plan: The plan that was followed, as it was before anything of it was done.
        marks: Its progress.
    """
    marks = tuple(marks)
    state = state_of(marks)
    last = {(mark.kind, mark.task): mark for mark in marks}
    supposed = {task for (_, task), mark in last.items() if mark.supposed}
    by_itself = {task for (kind, task), mark in last.items() if kind == "done" and mark.by_itself}
    found: dict[str, Observation | Lost] = {}
    for task in plan.tasks:
        begun, done = task.id in state.started, task.id in state.ended
        if task.cook is None or not (begun or done):
            continue
        if task.id in supposed:
            found[task.id] = Lost.SUPPOSED
        elif not (begun and done):
            found[task.id] = Lost.HALF
        elif task.id in by_itself:
            found[task.id] = Lost.BY_ITSELF
        else:
            real = _minutes(state.ended[task.id] - state.started[task.id])
            planned = _minutes(task.end - task.start)
            pace = pace_in_plan(plan, task)
            found[task.id] = observation(plan.date, task.technique, planned, real, pace)
    return found


def observation(
    date: dt.date, technique: str, planned: float, real: float, pace: float
) -> Observation | Lost:
    """What a task teaches, or why nothing.

    Args:
        date: The day.
        technique: As the plan names it.
        planned: Minutes that the plan had for it.
        real: Minutes that it took.
        pace: The factor already in the planned minutes.
    """
    if technique in _SET_UP_AND_AFTER or planned <= 0:
        return Lost.AFTER
    if real <= 0:
        return Lost.AT_ONCE
    if real > _LONGEST * planned:
        return Lost.LEFT_OPEN
    return Observation(date=date, technique=technique, planned=planned, real=real, pace=pace)


def _minutes(span: dt.timedelta) -> float:
    return span.total_seconds() / 60


def keep_times(file: Path, new: Sequence[Observation]) -> tuple[Observation, ...]:
    """Add a day's times to those kept; a day that was there before is replaced.

    Raises:
        InputFault: The file cannot be read or written.
    """
    dates = {each.date for each in new}
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        what = f"cannot be made ({fault.strerror})"
        raise InputFault(Complaint(str(file.parent), what, "a folder you may write to")) from None
    with held(file.parent):
        kept = tuple(each for each in read_observations(file) if each.date not in dates)
        write_observations(file, (*kept, *new))
    return (*kept, *new)


def own_paces(file: Path) -> dict[str, Pace]:
    """Technique to the household's pace, from the times kept; none where there is no file.

    Raises:
        InputFault: The file cannot be read.
    """
    return fit_paces(read_observations(file))
