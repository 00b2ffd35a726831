"""Copies of the file beside it: one a day on which something changed, one before each new layout.

They are for the day on which the disk damages the file itself.
"""

from __future__ import annotations

import os
import tempfile
from pathlib import Path
from typing import Final

__all__ = ["DAYS_KEPT", "copy_place", "drop_old_copies", "last_copy", "write_copy"]

DAYS_KEPT: Final = 14
"""Copies by the day that are kept; those before a new layout all stay."""


def copy_place(place: Path, name: str) -> Path:
    """Where the copy of that name goes: in a folder beside the file."""
    return place.parent / f"{place.stem}-copies" / f"{name}{place.suffix}"


def write_copy(target: Path, content: bytes) -> None:
    """Write a copy so that it is there whole, and on the disk, or not at all.

    Raises:
        OSError: It could not be written.
    """
    target.parent.mkdir(exist_ok=True)
    handle, name = tempfile.mkstemp(prefix=".", suffix=".part", dir=target.parent)
    scratch = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        scratch.replace(target)
    except BaseException:
        scratch.unlink(missing_ok=True)
        raise


def drop_old_copies(place: Path) -> None:
    """Remove the oldest of the copies by the day, and halves that a power cut left."""
    folder = copy_place(place, "").parent
    by_day = sorted(folder.glob(f"20??-??-??{place.suffix}"))
    for old in (*by_day[:-DAYS_KEPT], *folder.glob(".*.part")):
        old.unlink(missing_ok=True)


def last_copy(place: Path) -> Path | None:
    """The newest copy, or None where there is none."""
    folder = copy_place(place, "").parent
    copies = [copy for copy in folder.glob(f"*{place.suffix}") if not copy.name.startswith(".")]
    return max(copies, key=lambda copy: copy.stat().st_mtime, default=None)
