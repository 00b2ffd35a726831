"""A folder held while a file of it is read, changed and written back, so that no change is lost."""

from __future__ import annotations

import os
import sys
import tempfile
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

__all__ = ["held"]


@contextmanager
def held(folder: Path) -> Iterator[None]:
    """Keep other programs and threads that hold the folder waiting while the block runs.

    The lock is on the folder itself, so that nothing is left behind; Windows locks no folders, so
    there it is on an empty file among the temporary ones. It ends with its program. Where a file
    system has no locks at all, nobody waits.

    Args:
        folder: The folder; where it is not there, nobody waits either.
    """
    handle = _lock(folder)
    try:
        yield
    finally:
        if handle is not None:
            os.close(handle)


if sys.platform == "win32":
    import msvcrt

    def _lock(folder: Path) -> int | None:
        """The handle that holds the lock, or None where there can be none."""
        place = os.path.normcase(os.path.realpath(folder)).encode()
        name = f"batchcook-{zlib.crc32(place):08x}.lock"
        try:
            handle = os.open(Path(tempfile.gettempdir()) / name, os.O_RDWR | os.O_CREAT)
        except OSError:
            return None
        try:
            msvcrt.locking(handle, msvcrt.LK_LOCK, 1)  # waits ten seconds at most
        except OSError:
            os.close(handle)
            return None
        return handle

else:
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
