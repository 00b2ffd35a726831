"""How far the day has come, kept beside its plan so that nothing is lost when the lid closes.

Every mark is a line of its own at the end of ``progress.jsonl``, on disk before the next is taken.
A line that a crash cut short is left out; what is read back is what was marked before it.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass, field
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import BinaryIO, Final, Literal, get_args

from batchcook.complaints import Complaint, InputFault
from batchcook.filelock import held

__all__ = [
    "FILE",
    "DayState",
    "Kind",
    "Mark",
    "append_marks",
    "read_marks",
    "state_of",
    "with_marks",
]

FILE: Final = "progress.jsonl"

_ITS_OWN: Final = (timedelta(0), timedelta(1))
"""A mark's date less that of the day: a day that runs late goes on after midnight."""

Kind = Literal["start", "done", "late", "note", "undo"]


@dataclass(frozen=True)
class Mark:
    """One thing that was marked.

    Attributes:
        kind: A task started or done, needs more minutes, got a note; or the last mark was wrong.
        at: When it was so.
        task: The task's id; empty for undo, and for a note on the day.
        minutes: For late: how many more.
        words: For a note: what it says.
        by_itself: Whether the clock marked it, not a person; undo takes it back along with the
            person's mark before it.
        supposed: Whether it is only taken to have gone as planned; nobody saw when it was.
    """

    kind: Kind
    at: datetime
    task: str = ""
    minutes: int = 0
    words: str = ""
    by_itself: bool = False
    supposed: bool = False


@dataclass(frozen=True)
class DayState:
    """The marks added up.

    Attributes:
        started: When each task began that has begun.
        ended: When each task ended that is done.
        late: By how many minutes each task takes longer than planned.
        notes: The notes, each with its task.
    """

    started: Mapping[str, datetime] = field(default_factory=dict)
    ended: Mapping[str, datetime] = field(default_factory=dict)
    late: Mapping[str, int] = field(default_factory=dict)
    notes: tuple[Mark, ...] = ()


def append_marks(folder: Path, marks: Iterable[Mark]) -> None:
    """Add marks to a plan folder's progress, and see that they are on disk.

    Raises:
        InputFault: The file cannot be written.
    """
    lines = with_marks(b"", marks)
    if not lines:
        return
    file = folder / FILE
    try:
        with held(folder), file.open("ab+") as progress:
            if not _ends_whole(progress):
                lines = b"\n" + lines
            progress.write(lines)
            progress.flush()
            os.fsync(progress.fileno())
    except OSError as fault:
        what = f"cannot be written ({fault.strerror})"
        raise InputFault(Complaint(str(file), what, "a plan folder you may write to")) from None


def with_marks(content: bytes, marks: Iterable[Mark]) -> bytes:
    """The content of a file of progress with more marks at its end."""
    lines = "".join(f"{_line(mark)}\n" for mark in marks).encode()
    cut_short = lines and content and not content.endswith(b"\n")
    return content + (b"\n" if cut_short else b"") + lines


def _ends_whole(file: BinaryIO) -> bool:
    """Whether the last line is complete."""
    size = file.seek(0, os.SEEK_END)
    file.seek(max(size - 1, 0))
    return file.read(1) in {b"", b"\n"}


def _line(mark: Mark) -> str:
    plain = asdict(mark) | {"at": mark.at.isoformat(timespec="seconds")}
    return json.dumps({key: each for key, each in plain.items() if each or key == "at"})


def read_marks(folder: Path, day: date | None = None) -> tuple[Mark, ...]:
    """The marks of a plan folder in their order; none where nothing was marked yet.

    Args:
        folder: The plan folder.
        day: The day that they have to be of, or of the night after it; any where None.

    Raises:
        InputFault: The file is there but cannot be read, or is of another day.
    """
    file = folder / FILE
    try:
        lines = file.read_text("utf-8", errors="replace").splitlines()
    except FileNotFoundError:
        return ()
    except OSError as fault:
        what = f"cannot be read ({fault.strerror})"
        raise InputFault(Complaint(str(file), what, "the progress of a plan")) from None
    marks = tuple(mark for line in lines if (mark := _mark(line)) is not None)
    others = [mark.at.date() for mark in marks if day and mark.at.date() - day not in _ITS_OWN]
    if others:
        what = f"is of {others[0].isoformat()}, and the plan is for {day}"
        raise InputFault(Complaint(str(file), what, "the progress of that day: move it away"))
    return marks


def _mark(line: str) -> Mark | None:
    """The mark on a line; None where the line was cut short or is no mark."""
    try:
        found = json.loads(line)
        if found["kind"] not in get_args(Kind):
            return None
        return Mark(**(found | {"at": datetime.fromisoformat(found["at"])}))
    except (ValueError, TypeError, KeyError):
        return None


def state_of(marks: Iterable[Mark]) -> DayState:
    """What the marks come to, those taken back left out."""
    standing: list[Mark] = []
    for mark in marks:
        if mark.kind != "undo":
            standing.append(mark)
            continue
        while standing and standing.pop().by_itself:
            pass
    started: dict[str, datetime] = {}
    ended: dict[str, datetime] = {}
    late: dict[str, int] = {}
    for mark in standing:
        if mark.kind == "start":
            started[mark.task] = mark.at
        elif mark.kind == "done":
            ended[mark.task] = mark.at
        elif mark.kind == "late":
            late[mark.task] = late.get(mark.task, 0) + mark.minutes
    notes = tuple(mark for mark in standing if mark.kind == "note")
    return DayState(started, ended, late, notes)
