"""A folder of files that is written whole or not at all."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Mapping
from pathlib import Path

from batchcook.complaints import Complaint, InputFault

__all__ = ["check_ending", "check_folder", "write_file", "write_folder"]


def check_ending(path: Path, *endings: str) -> None:
    """See that the name of a file says what would be in it.

    Args:
        path: The file asked for.
        endings: The endings of what can be written, as ``".pdf"``.

    Raises:
        InputFault: It has none of those endings.
    """
    if path.suffix.lower() not in endings:
        expected = f"a name that ends in {' or '.join(endings)}"
        near = f"{path.stem}{endings[0]}" if path.stem else ""
        raise InputFault(Complaint("--out", f"cannot write {path.name!r}", expected, near))


def check_folder(folder: Path) -> None:
    """See early that the folder could be written, before anything long is computed.

    Raises:
        InputFault: It is a file, or its place cannot be written.
    """
    if folder.exists() and not folder.is_dir():
        raise InputFault(Complaint(str(folder), "is a file", "a folder, or a new name"))
    place = folder if folder.exists() else _nearest_parent(folder)
    if not place.is_dir() or not os.access(place, os.W_OK):
        raise InputFault(Complaint(str(folder), "cannot be written", "a folder you may write to"))


def write_folder(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write the files so that the folder never holds half of them.

    They are written beside it first, then moved into place; other files in the folder stay.

    Raises:
        InputFault: The folder cannot be written; nothing of it is left behind.
    """
    check_folder(folder)
    fresh = not folder.exists()
    made: list[Path] = []
    try:
        for parent in [*reversed(folder.parents)] if fresh else []:
            if not parent.exists():
                parent.mkdir()
                made.append(parent)
        scratch = Path(tempfile.mkdtemp(prefix=f".{folder.name}-", dir=folder.parent))
        try:
            for name, content in files.items():
                (scratch / name).write_bytes(content)
            if fresh:
                scratch.chmod(0o755)
                scratch.rename(folder)
            else:
                for name in files:
                    (scratch / name).replace(folder / name)
        finally:
            shutil.rmtree(scratch, ignore_errors=True)
    except OSError as fault:
        for parent in reversed(made):
            parent.rmdir()
        raise InputFault(
            Complaint(
                str(folder), f"cannot be written ({fault.strerror})", "a folder you may write to"
            )
        ) from None


def write_file(path: Path, content: bytes) -> None:
    """Write one file whole or not at all.

    Raises:
        InputFault: It cannot be written.
    """
    scratch: Path | None = None
    try:
        handle, name = tempfile.mkstemp(prefix=f".{path.name}-", dir=path.parent)
        scratch = Path(name)
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        scratch.chmod(0o644)
        scratch.replace(path)
    except OSError as fault:
        if scratch is not None:
            scratch.unlink(missing_ok=True)
        raise InputFault(
            Complaint(str(path), f"cannot be written ({fault.strerror})", "a file you may write")
        ) from None


def _nearest_parent(folder: Path) -> Path:
    """The nearest folder above that exists."""
    place = folder.absolute().parent
    while not place.exists():
        place = place.parent
    return place
