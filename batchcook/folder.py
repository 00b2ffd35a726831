"""A folder of files that is written whole or not at all."""

from __future__ import annotations

import os
import shutil
import stat
import tempfile
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
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


def check_folder(folder: Path, names: Iterable[str] = ()) -> None:
    """See early that the folder could be written, before anything long is computed.

    Args:
        folder: The folder.
        names: The files that would be written into it.

    Raises:
        InputFault: It is a file, its name is too long, its place cannot be written, or a folder
            has the name of one of the files.
    """
    try:
        _check_place(folder)
        in_the_way = [name for name in names if stat.S_ISDIR(_mode(folder / name))]
    except OSError as fault:
        raise _refused(folder, fault) from None
    if in_the_way:
        raise InputFault(
            [
                Complaint(str(folder / name), "is a folder", "no folder of that name there")
                for name in in_the_way
            ]
        )


def _check_place(folder: Path) -> None:
    """See that a folder is there, or could be made.

    Raises:
        InputFault: It is a file, or may not be written.
        OSError: It can be no folder, as its name is too long.
    """
    mode = _mode(folder)
    if mode and not stat.S_ISDIR(mode):
        raise InputFault(Complaint(str(folder), "is a file", "a folder, or a new name"))
    place = folder if mode else _nearest_parent(folder)
    if not place.is_dir() or not os.access(place, os.W_OK | os.X_OK):
        raise InputFault(Complaint(str(folder), "cannot be written", "a folder you may write to"))
    if not mode:
        for part in folder.absolute().relative_to(place).parts:
            if _mode(place / part, follow=False):
                raise InputFault(
                    Complaint(str(folder), "is a link to what is not there", "a folder")
                )


def _mode(path: Path, *, follow: bool = True) -> int:
    """What kind of file it is; 0 where there is none.

    Raises:
        OSError: That cannot be said, as the name is too long.
    """
    try:
        return path.stat(follow_symlinks=follow).st_mode
    except (FileNotFoundError, NotADirectoryError):
        return 0


def _refused(folder: Path, fault: OSError) -> InputFault:
    what = f"cannot be written ({fault.strerror})"
    return InputFault(Complaint(str(folder), what, "a folder you may write to"))


def write_folder(folder: Path, files: Mapping[str, bytes], gone: Iterable[str] = ()) -> None:
    """Write the files so that the folder never holds half of them.

    They are written aside first, then moved into place in their order, so that what the others
    belong to comes last; where one cannot be, all are put back. Other files in the folder stay.

    Args:
        folder: The folder, made where it is not there.
        files: File name to content.
        gone: Files of the folder that are to be there no more.

    Raises:
        InputFault: The folder cannot be written; it is as it was.
    """
    check_folder(folder, files)
    made: list[Path] = []
    try:
        if folder.exists():
            with _scratch_in(folder) as scratch:
                _write_all(scratch, files)
                _replace_all(folder, scratch, files, gone)
            return
        for parent in reversed(folder.parents):
            if not parent.exists():
                parent.mkdir()
                made.append(parent)
        with _scratch_in(folder.parent) as scratch:
            new = scratch / "new"
            new.mkdir()
            _write_all(new, files)
            new.rename(folder)
    except OSError as fault:
        for parent in reversed(made):
            parent.rmdir()
        raise _refused(folder, fault) from None


@contextmanager
def _scratch_in(place: Path) -> Iterator[Path]:
    """A folder on the same file system, gone afterwards."""
    scratch = Path(tempfile.mkdtemp(prefix=".batchcook-", dir=place))
    try:
        yield scratch
    finally:
        shutil.rmtree(scratch, ignore_errors=True)


def _write_all(place: Path, files: Mapping[str, bytes]) -> None:
    for name, content in files.items():
        (place / name).write_bytes(content)


def _replace_all(folder: Path, scratch: Path, names: Iterable[str], gone: Iterable[str]) -> None:
    """Move files into place and remove those to be gone, or leave the folder as it was."""
    old = scratch / ".old"
    old.mkdir()
    touched: list[str] = []

    def keep(name: str) -> None:
        if _mode(folder / name, follow=False):
            shutil.copy2(folder / name, old / name, follow_symlinks=False)
        touched.append(name)

    try:
        for name in gone:
            keep(name)
            (folder / name).unlink(missing_ok=True)
        for name in names:
            keep(name)
            (scratch / name).replace(folder / name)
    except BaseException:
        for name in reversed(touched):
            with suppress(OSError):  # what could not be replaced is as it was
                if _mode(old / name, follow=False):
                    (old / name).replace(folder / name)
                else:
                    (folder / name).unlink(missing_ok=True)
        raise


def write_file(path: Path, content: bytes) -> None:
    """Write one file whole or not at all.

    A file that is there keeps its mode; where the name is a link, what it points to is written.

    Raises:
        InputFault: It cannot be written.
    """
    scratch: Path | None = None
    place = Path(os.path.realpath(path))
    try:
        mode = stat.S_IMODE(place.stat().st_mode) if place.exists() else 0o644
        handle, name = tempfile.mkstemp(prefix=".batchcook-", dir=place.parent)
        scratch = Path(name)
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        scratch.chmod(mode)
        scratch.replace(place)
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
