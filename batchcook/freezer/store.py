"""The file that holds the journal; nothing else in the program opens it.

Durability, and why it is done so:

- A rollback journal, not a write-ahead log: everything stays in one file that can be copied,
  put on a shared folder or opened where it may only be read. Writes are few and small, so the
  log's speed would buy nothing.
- ``synchronous = EXTRA``: a change that was reported as done is on the disk, its directory too.
- Every change is read, judged and written within one ``BEGIN IMMEDIATE``, so that of two
  commands at once the second judges what the first has left. It waits for that, ten seconds.
"""

from __future__ import annotations

import datetime as dt
import json
import os
import sqlite3
from collections.abc import Callable, Iterator, Sequence
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Final, TypeVar

from batchcook.complaints import Complaint, InputFault
from batchcook.freezer.copies import copy_place, drop_old_copies, last_copy, write_copy
from batchcook.freezer.entries import Draft, Entry
from batchcook.freezer.layout import APPLICATION, LAYOUTS, seal

__all__ = ["PATIENCE_SECONDS", "Journal", "default_place", "read_journal", "write_entries"]

PATIENCE_SECONDS: Final = 10.0
"""How long a command waits for another one to finish."""

_SELECT: Final = (
    "SELECT number, step, at, day, change, subject, details, seal FROM journal ORDER BY number"
)
_INSERT: Final = (
    "INSERT INTO journal (number, step, at, day, change, subject, details, seal) "
    "VALUES (?, ?, ?, ?, ?, ?, ?, ?)"
)

Told = TypeVar("Told")


@dataclass(frozen=True)
class Journal:
    """Every entry in order.

    Attributes:
        household: A random name, the same for the life of the file; empty before there is one.
    """

    entries: tuple[Entry, ...] = ()
    household: str = ""


def default_place() -> Path:
    """Where the file lives unless another is named: the user's data folder."""
    from platformdirs import user_data_path  # noqa: PLC0415 - not needed with --store

    return user_data_path("batchcook", appauthor=False) / "freezer.sqlite"


def read_journal(place: Path) -> Journal:
    """Every entry; none where there is no file yet. Nothing is written.

    Raises:
        InputFault: The file is empty, damaged, not ours, or of a newer version; says what to do.
    """
    if not os.path.lexists(place):
        return Journal()
    with _opened(place) as connection:
        version = _version(connection, place)
        if version == 0:
            raise InputFault(_emptied(place))
        if version < len(LAYOUTS):
            _migrate(connection, place)
        return _read(connection, place)


def write_entries(
    place: Path, judge: Callable[[Journal], tuple[Sequence[Draft], Told]], *, now: dt.datetime
) -> Told:
    """Add what ``judge`` makes of the journal as it stands, as one step, whole or not at all.

    Args:
        place: The file; made, with its folder, where there is none.
        judge: From the journal to the entries to add and what to tell. It may raise, and then
            nothing is written.
        now: The instant of writing, with its zone.

    Returns:
        What ``judge`` told, once the entries are safe on the disk.

    Raises:
        InputFault: The file cannot be read or written; nothing has changed, and it says what to
            do. Or whatever ``judge`` raised.
    """
    _check_writable(place)
    fresh = not place.exists()
    with _opened(place) as connection:
        if _version(connection, place) < len(LAYOUTS):
            _migrate(connection, place, fresh=fresh)
        with _at_once(connection):
            journal = _read(connection, place)
            drafts, told = judge(journal)
            if drafts:
                _copy_of_the_day(connection, place, journal, now.date())
                _append(connection, drafts, now)
        return told


@contextmanager
def _opened(place: Path) -> Iterator[sqlite3.Connection]:
    """A connection, its faults told in words that say what to do."""
    try:
        with closing(
            sqlite3.connect(place, timeout=PATIENCE_SECONDS, isolation_level=None)
        ) as connection:
            connection.execute("PRAGMA synchronous = EXTRA")
            connection.execute("PRAGMA fullfsync = ON")
            connection.execute("PRAGMA trusted_schema = OFF")
            yield connection
    except sqlite3.Error as fault:
        raise InputFault(_in_words(fault, place)) from None
    except OSError as fault:
        what = f"no copy could be made of it ({fault.strerror}); nothing was changed"
        expected = "room on the disk, and a folder that you may write to"
        raise InputFault(Complaint(str(place), what, expected)) from None


@contextmanager
def _at_once(connection: sqlite3.Connection) -> Iterator[None]:
    """One change that no other command sees half of."""
    connection.execute("BEGIN IMMEDIATE")
    try:
        yield
        connection.execute("COMMIT")
    except BaseException:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        raise


def _version(connection: sqlite3.Connection, place: Path) -> int:
    """The file's version, once it is known to be ours and none that we cannot read."""
    version = int(connection.execute("PRAGMA user_version").fetchone()[0])
    mark = int(connection.execute("PRAGMA application_id").fetchone()[0])
    holds = int(connection.execute("SELECT count(*) FROM sqlite_schema").fetchone()[0])
    if mark != APPLICATION and (mark or version or holds):
        raise InputFault(
            Complaint(str(place), "belongs to another program", "a freezer file, or a new name")
        )
    if version > len(LAYOUTS):
        raise InputFault(
            Complaint(
                str(place),
                f"was written by a newer version (layout {version}; this one reads up to "
                f"{len(LAYOUTS)}) and was not touched",
                "the newer version of this program: bring it up to date",
            )
        )
    return version


def _migrate(connection: sqlite3.Connection, place: Path, *, fresh: bool = False) -> None:
    """Bring the file to the present layout, a copy of the old one made first.

    Only a file that this command has made may hold nothing; of two that begin at once, the second
    finds what the first has made.
    """
    with _at_once(connection):
        version = _version(connection, place)
        if version == 0 and not fresh:
            raise InputFault(_emptied(place))
        if 0 < version < len(LAYOUTS):
            write_copy(copy_place(place, f"layout-{version}"), connection.serialize())
        for statements in LAYOUTS[version:]:
            for statement in statements:
                connection.execute(statement)
        connection.execute(f"PRAGMA application_id = {APPLICATION}")
        connection.execute(f"PRAGMA user_version = {len(LAYOUTS)}")


def _copy_of_the_day(
    connection: sqlite3.Connection, place: Path, journal: Journal, day: dt.date
) -> None:
    """A copy of the file as it was before the first change of a day."""
    target = copy_place(place, day.isoformat())
    if journal.entries and not target.exists():
        write_copy(target, connection.serialize())
        drop_old_copies(place)


def _read(connection: sqlite3.Connection, place: Path) -> Journal:
    """Every entry, each with its seal checked."""
    entries: list[Entry] = []
    last = 0
    for *parts, sealed in connection.execute(_SELECT):
        last = seal(last, *parts)
        if sealed != last or parts[0] != len(entries) + 1:
            raise InputFault(_damaged(place, f"entry {len(entries) + 1} is not what was written"))
        entries.append(Entry(*parts))
    household = connection.execute("SELECT id FROM household").fetchone()
    if household is None:
        raise InputFault(_damaged(place, "the household's name is missing"))
    return Journal(tuple(entries), str(household[0]))


def _append(connection: sqlite3.Connection, drafts: Sequence[Draft], now: dt.datetime) -> None:
    latest = connection.execute(
        "SELECT number, step, seal FROM journal ORDER BY number DESC LIMIT 1"
    ).fetchone()
    before, step, last = latest or (0, 0, 0)
    at = now.astimezone(dt.UTC).isoformat(timespec="seconds")
    for number, draft in enumerate(drafts, before + 1):
        details = json.dumps(draft.details, ensure_ascii=False, separators=(",", ":"))
        parts = (number, step + 1, at, draft.on.isoformat(), draft.change, draft.subject, details)
        last = seal(last, *parts)
        connection.execute(_INSERT, (*parts, last))


def _check_writable(place: Path) -> None:
    """See early that the file and its folder may be written, and make the folder."""
    if place.exists() and not (os.access(place, os.W_OK) and os.access(place.parent, os.W_OK)):
        raise InputFault(_read_only(place, "no permission"))
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        what = f"cannot be made ({fault.strerror})"
        raise InputFault(Complaint(str(place.parent), what, "a folder you may write to")) from None


def _in_words(fault: sqlite3.Error, place: Path) -> Complaint:
    """What went wrong with the file, and what to do about it."""
    code = getattr(fault, "sqlite_errorcode", 0) & 0xFF
    if code in {sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB} or not code:
        return _damaged(place, str(fault))
    where = str(place)
    if code in {sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED}:
        return Complaint(
            where, "another command is still writing; nothing was changed", "to be tried again"
        )
    if code in {sqlite3.SQLITE_FULL, sqlite3.SQLITE_IOERR}:
        return Complaint(
            where,
            f"the disk is full or fails ({fault}); nothing was changed",
            "room on the disk: make some, then give the command again",
        )
    if code in {sqlite3.SQLITE_READONLY, sqlite3.SQLITE_PERM, sqlite3.SQLITE_CANTOPEN}:
        return _read_only(place, str(fault))
    return Complaint(where, f"failed ({fault}); nothing was changed", "a freezer file")


def _read_only(place: Path, how: str) -> Complaint:
    return Complaint(
        str(place),
        f"cannot be written ({how}); nothing was changed",
        "a file and a folder that you may write to, or another one with --store",
    )


def _emptied(place: Path) -> Complaint:
    """A file that holds nothing is no empty freezer: one of ours holds at least its layout."""
    copy = last_copy(place)
    if copy is None:
        return Complaint(
            str(place),
            "is an empty file, no freezer; there is no copy of it, and it was left as it is",
            "a copy of your own in its place; or remove it to begin anew",
        )
    return Complaint(
        str(place),
        "is an empty file, no freezer: what it held is gone, and it was left as it is",
        f"a sound file: copies lie in {copy.parent}; copy the newest, {copy}, to its place; "
        "what was entered since then has to be entered again",
    )


def _damaged(place: Path, how: str) -> Complaint:
    copy = last_copy(place)
    if copy is None:
        return Complaint(
            str(place),
            f"is damaged ({how}) and was left as it is; there is no copy of it yet",
            "a copy of your own in its place, or another name to begin anew",
        )
    return Complaint(
        str(place),
        f"is damaged ({how}) and was left as it is",
        f"a sound file: move this one aside and copy {copy} to its place; "
        "what was entered since then has to be entered again",
    )
