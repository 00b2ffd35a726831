"""The layout of the file: one statement list a version, each building on the one before.

Entries can be added and read, never changed and never deleted: the file itself refuses it.
"""

from __future__ import annotations

import zlib
from typing import Final

__all__ = ["APPLICATION", "LAYOUTS", "seal"]

APPLICATION: Final = 0x42434B31
"""Marks the file as ours in its header (``PRAGMA application_id``)."""

_FIRST: Final = (
    """
    CREATE TABLE journal (
        number  INTEGER PRIMARY KEY AUTOINCREMENT,
        step    INTEGER NOT NULL,
        at      TEXT NOT NULL,
        day     TEXT NOT NULL,
        change  TEXT NOT NULL,
        subject TEXT NOT NULL,
        details TEXT NOT NULL,
        seal    INTEGER NOT NULL
    ) STRICT
    """,
    """
    CREATE TRIGGER entries_stay BEFORE DELETE ON journal
    BEGIN SELECT RAISE(ABORT, 'entries are never deleted'); END
    """,
    """
    CREATE TRIGGER entries_stand BEFORE UPDATE ON journal
    BEGIN SELECT RAISE(ABORT, 'entries are never changed'); END
    """,
    "CREATE TABLE household (id TEXT NOT NULL) STRICT",
    "INSERT INTO household VALUES (lower(hex(randomblob(8))))",
)

LAYOUTS: Final[tuple[tuple[str, ...], ...]] = (_FIRST,)
"""What brings a file from each version (``PRAGMA user_version``) to the next, from 0 on."""


def seal(before: int, *parts: object) -> int:
    """A checksum over an entry and the one before it.

    SQLite notices a damaged page, not a letter that has changed within one; this does.

    Args:
        before: The seal of the entry before, 0 for the first.
        parts: The entry's values, in the order of its columns.
    """
    return zlib.crc32("\x1f".join(map(str, parts)).encode(), before)
