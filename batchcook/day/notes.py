"""Notes of a prep day, kept in its plan folder until the day is planned again."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Final

from pydantic import BaseModel, ConfigDict, Field

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.filelock import held
from batchcook.folder import write_file
from batchcook.plan import read_plan
from batchcook.plans.dayfolder import NOTES_FILE
from batchcook.tomlfiles import parse_toml, read_text
from batchcook.tomlplaces import Places, read_table

__all__ = ["Note", "add_note", "notes_for", "notes_text", "read_notes", "told"]

_LONGEST: Final = 300


@dataclass(frozen=True)
class Note:
    """What to think of next time.

    Attributes:
        on: When it was written.
        words: What it says.
        dish: The dish it is about, or an empty string for the day as a whole.
    """

    on: dt.date
    words: str
    dish: str = ""


class _NoteTable(BaseModel):
    model_config = ConfigDict(extra="forbid")

    on: dt.date
    dish: str = ""
    words: Annotated[str, Field(min_length=1)]


class _NotesTable(BaseModel):
    model_config = ConfigDict(extra="forbid")

    note: list[_NoteTable] = []


def read_notes(folder: Path) -> tuple[Note, ...]:
    """The notes of a plan folder, in the order written; none where there is no file of them.

    Raises:
        InputFault: The file cannot be read, or is no file of notes.
    """
    file = folder / NOTES_FILE
    if not file.exists():
        return ()
    text = read_text(file, "notes, or no such file")
    found = parse_toml(text, str(file))
    table = read_table(_NotesTable, found, Places.of(str(file), text))
    return tuple(Note(each.on, each.words, each.dish) for each in table.note)


def add_note(folder: Path, note: Note) -> tuple[Note, ...]:
    """Write one more note into a plan folder, the others with it; gives back all of them.

    Raises:
        InputFault: The folder holds no plan, the plan has no such dish, or the words are empty,
            too long, or not to be printed.
    """
    plan = read_plan(folder)
    names = [dish.id for dish in plan.dishes]
    words = " ".join(note.words.split())
    complaints = []
    if note.dish and note.dish not in names:
        what = f"{note.dish!r} is not cooked that day"
        one_of = f"one of {', '.join(names)}"
        complaints.append(Complaint("--dish", what, one_of, nearest(note.dish, names)))
    if not words or len(words) > _LONGEST or not words.isprintable():
        what = "is empty, very long, or cannot be printed"
        complaints.append(Complaint("the note", what, f"a sentence of up to {_LONGEST} characters"))
    if complaints:
        raise InputFault(complaints)
    with held(folder):
        notes = (*read_notes(folder), Note(note.on, words, note.dish))
        write_file(folder / NOTES_FILE, notes_text(notes).encode())
    return notes


def notes_text(notes: Iterable[Note]) -> str:
    """Notes as the text of their file, each once."""
    return "\n".join(
        f"[[note]]\non = {note.on.isoformat()}\n"
        + (f"dish = {_quoted(note.dish)}\n" if note.dish else "")
        + f"words = {_quoted(note.words)}\n"
        for note in dict.fromkeys(notes)
    )


def notes_for(notes: Iterable[Note], dishes: Collection[str]) -> tuple[Note, ...]:
    """Those about the day as a whole and about its dishes, each once."""
    return tuple(note for note in dict.fromkeys(notes) if not note.dish or note.dish in dishes)


def told(notes: Sequence[Note], titles: Mapping[str, str]) -> tuple[str, ...]:
    """Notes as they are printed: ``"Cottage pie: made 5 tubs, not 6 (16 Jan 2027)"``.

    Args:
        notes: The notes.
        titles: Dish id to title.
    """
    return tuple(
        (f"{titles.get(note.dish, note.dish)}: " if note.dish else "")
        + f"{note.words} ({note.on.day} {note.on:%b %Y})"
        for note in notes
    )


def _quoted(text: str) -> str:
    """A TOML string: printable text needs the same escapes as JSON."""
    return json.dumps(text, ensure_ascii=False)
