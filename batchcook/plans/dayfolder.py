"""A plan folder that has been followed: what takes its place loses nothing of it.

Marks and the plans before belong to one plan. Where another day is planned into the same folder,
they are set aside with their plan, in a folder below that is a plan folder of its own.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterable, Mapping
from datetime import datetime
from pathlib import Path
from typing import Final

from batchcook.complaints import Complaint, InputFault
from batchcook.folder import check_folder, write_folder
from batchcook.plan import read_plan
from batchcook.plans.progress import FILE

__all__ = [
    "KITCHEN_FILE",
    "NOTES_FILE",
    "PLAN_FILE",
    "check_plan_folder",
    "name_of_plan_before",
    "plans_before",
    "write_day",
]

PLAN_FILE: Final = "plan.json"
KITCHEN_FILE: Final = "kitchen-of-the-day.toml"
NOTES_FILE: Final = "notes.toml"
_BEFORE: Final = re.compile(r"plan-before-(\d{4})(?:-(\d+))?\.json")
_SHOWN: Final = 3


def check_plan_folder(folder: Path, names: Iterable[str]) -> None:
    """See early that a plan may be written into a folder without anything of others being lost.

    Args:
        folder: The folder.
        names: The files that would be written.

    Raises:
        InputFault: It cannot be written, or is no plan folder and has files of those names.
    """
    names = (*names, PLAN_FILE)
    check_folder(folder, names)
    if (folder / PLAN_FILE).exists():
        return
    theirs = [name for name in names if (folder / name).exists()]
    if theirs:
        more = f" and {len(theirs) - _SHOWN} more" if len(theirs) > _SHOWN else ""
        what = (
            f"is no plan folder, and would lose its {', '.join(theirs[:_SHOWN])}{more}: they would "
            "be written over"
        )
        raise InputFault(Complaint(str(folder), what, "a plan folder, or a new name, after --out"))


def write_day(folder: Path, files: Mapping[str, bytes]) -> Path | None:
    """Write the folder of a newly planned day; what was followed of the day before it is set aside.

    Args:
        folder: The plan folder.
        files: File name to content; ``plan.json`` last.

    Returns:
        Where the day before is now, or None where nothing of it was followed.

    Raises:
        InputFault: The folder cannot be written; it is as it was.
    """
    followed = [each.name for each in (folder / FILE, *plans_before(folder)) if each.is_file()]
    if not followed:
        write_folder(folder, files)
        return None
    kept = (*followed, KITCHEN_FILE, NOTES_FILE, PLAN_FILE)
    try:
        old = {name: (folder / name).read_bytes() for name in kept if (folder / name).is_file()}
    except OSError as fault:
        what = f"cannot be read ({fault.strerror})"
        raise InputFault(Complaint(str(folder), what, "a plan folder")) from None
    aside = _free_place(folder)
    write_folder(aside, old)
    try:
        write_folder(folder, files, gone=followed)
    except InputFault:
        shutil.rmtree(aside, ignore_errors=True)
        raise
    return aside


def _free_place(folder: Path) -> Path:
    """``followed-2027-01-16``, with a number where that day is set aside already."""
    try:
        name = f"followed-{read_plan(folder).date.isoformat()}"
    except InputFault:
        name = "followed-before"  # by what is no plan any more
    place, number = folder / name, 1
    while place.exists():
        number += 1
        place = folder / f"{name}-{number}"
    return place


def name_of_plan_before(folder: Path, at: datetime) -> str:
    """The name under which a plan is kept that another takes the place of, never one in use.

    Args:
        folder: Where it is to be kept.
        at: When the other was made.
    """
    name, number = f"plan-before-{at:%H%M}.json", 1
    while (folder / name).exists():
        number += 1
        name = f"plan-before-{at:%H%M}-{number}.json"
    return name


def plans_before(folder: Path) -> tuple[Path, ...]:
    """The files of the plans that others took the place of, the first of them first."""
    found = [
        (match[1], int(match[2] or 1), file)
        for file in folder.glob("plan-before-*.json")
        if (match := _BEFORE.fullmatch(file.name))
    ]
    return tuple(file for *_, file in sorted(found))
