"""A folder held while a file of it is read, changed and written back, so that no change is lost."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

__all__ = ["held"]


@contextmanager
def held(folder: Path) -> Iterator[None]:
    """Keep other programs and threads that hold the folder waiting while the block runs.

    The lock is on the folder itself: nothing is left behind, and it ends with its program. Where a
    system has no locks on folders (Windows), or a file system none at all, nobody waits.

    Args:
        folder: The folder; where it is not there, nobody waits either.
    """
    handle = None if sys.platform == "win32" else _lock(folder)
    try:
        yield
    finally:
        if handle is not None:
            os.close(handle)


if sys.platform != "win32":
    import fcntl

    def _lock(folder: Path) -> int | None:
        """The handle that holds the lock, or None where there can be none."""
        try:
            handle = os.open(folder, os.O_RDONLY)
        except OSError:
            return None
        try:
            fcntl.flock(handle, fcntl.LOCK_EX)
        except OSError:
            os.close(handle)
            return None
        return handle
