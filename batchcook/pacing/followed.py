"""The real times of days that were followed, in the terminal or on the kitchen screen."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any, Final, Literal

from pydantic import BaseModel, Field, ValidationError

from batchcook.complaints import Complaint, InputFault
from batchcook.pacing.learning import Lost, observation, weighed
from batchcook.pacing.pace import Observation
from batchcook.plan import FORMAT as PLAN
from batchcook.plan import Plan, read_plan
from batchcook.plans.dayfolder import plans_before
from batchcook.plans.progress import read_marks
from batchcook.shapewords import fault_words
from batchcook.tomlfiles import key_path, read_json

__all__ = ["SAVED", "followed_times", "why_nothing"]

SAVED: Final = "batchcook-day/1"
"""The format of what the kitchen screen saves."""

_EXPECTED: Final = "a plan folder, or a file saved with 'Save what happened' on the kitchen screen"


class _SavedTask(BaseModel):
    """A task as it went; all else that the page saves of it is left aside."""

    id: str
    technique: str = Field(min_length=1)
    hands_on: bool
    marked: bool
    pace: float = Field(gt=0, allow_inf_nan=False)
    planned_minutes: float = Field(ge=0, allow_inf_nan=False)
    real_minutes: float | None = Field(ge=0, allow_inf_nan=False)


class _SavedDay(BaseModel):
    format: Literal["batchcook-day/1"]
    date: dt.date
    tasks: tuple[_SavedTask, ...]


def followed_times(places: Sequence[Path]) -> tuple[Observation, ...]:
    """The hands-on times of all that was followed; of a task told twice, what is told first.

    Args:
        places: Plan folders with their progress, and files saved from the kitchen screen.

    Raises:
        InputFault: With every place that is neither, or cannot be read.
    """
    found: dict[tuple[dt.date, str], Observation] = {}
    complaints: list[Complaint] = []
    for place in places:
        try:
            for task, seen in _times_of(place).items():
                if isinstance(seen, Observation):
                    found.setdefault((seen.date, task), seen)
        except InputFault as fault:
            complaints += fault.complaints
    if complaints:
        raise InputFault(complaints)
    return tuple(found.values())


def why_nothing(places: Sequence[Path]) -> tuple[str, ...]:
    """Why nothing is learned of these places: how many hands-on tasks for each reason.

    Raises:
        InputFault: A place cannot be read.
    """
    lost = Counter(
        seen for place in places for seen in _times_of(place).values() if isinstance(seen, Lost)
    )
    return tuple(
        f"{count} hands-on task{' was' if count == 1 else 's were'} {why}"
        for why, count in lost.most_common()
    )


def _times_of(place: Path) -> dict[str, Observation | Lost]:
    if place.is_dir():
        return _of_folder(place)
    content = read_json(place, _EXPECTED)
    written = content.get("format") if isinstance(content, dict) else None
    if written == PLAN:
        return _of_folder(place.parent)
    if written != SAVED:
        said = "says no format" if written is None else f"says format {written!r}"
        raise InputFault(Complaint(str(place), said, _EXPECTED))
    return _of_screen(place, content)


def _of_folder(folder: Path) -> dict[str, Observation | Lost]:
    """By the terminal's marks, each task against the plan before it began.

    A plan made in the middle of its day has the real times of what was over by then.
    """
    last = read_plan(folder)
    marks = read_marks(folder, last.date)
    plans = [*_plans_before(folder, last.date), last]
    found: dict[str, Observation | Lost] = {}
    known: set[str] = set()
    for plan in plans:
        seen = weighed(plan, marks)
        found |= {task: each for task, each in seen.items() if task not in known}
        known |= {task.id for task in plan.tasks}
    return found


def _plans_before(folder: Path, day: dt.date) -> Iterable[Plan]:
    """The plans of the same day that others took the place of, the first of them first."""
    plans = (read_plan(file) for file in plans_before(folder))
    return (plan for plan in plans if plan.date == day)


def _of_screen(file: Path, content: dict[str, Any]) -> dict[str, Observation | Lost]:
    try:
        saved = _SavedDay.model_validate(content)
    except ValidationError as fault:
        raise InputFault(
            [
                Complaint(f"{file}, {key_path(each['loc'])}", *fault_words(each))
                for each in fault.errors()
            ]
        ) from None
    return {
        task.id: observation(
            saved.date, task.technique, task.planned_minutes, task.real_minutes, task.pace
        )
        for task in saved.tasks
        if task.hands_on and task.marked and task.real_minutes is not None
    }
