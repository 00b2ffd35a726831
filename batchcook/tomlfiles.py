"""Reading TOML so that every fault comes with its place in the file."""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from batchcook.complaints import Complaint, InputFault

__all__ = ["key_path", "parse_toml", "read_text"]


def read_text(path: Path, expected: str) -> str:
    """The text of a file.

    Args:
        path: The file.
        expected: What it should be, for the message.

    Raises:
        InputFault: It is not there, may not be read, or is not text.
    """
    try:
        return path.read_text("utf-8")
    except OSError as fault:
        what = f"cannot be read: {(fault.strerror or 'no reason given').lower()}"
        raise InputFault(Complaint(str(path), what, expected)) from None
    except UnicodeDecodeError:
        raise InputFault(Complaint(str(path), "is not text", expected)) from None


def parse_toml(text: str, where: str) -> dict[str, Any]:
    """The tables in ``text``.

    Raises:
        InputFault: It is not TOML; the complaint names the line.
    """
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise InputFault(Complaint(where, f"is not TOML: {fault}", "TOML")) from None
    except ValueError:
        # Python reads no number of more than a few thousand figures.
        what = "holds a number with more figures than can be read"
        raise InputFault(Complaint(where, what, "numbers of a few figures")) from None
    except RecursionError:
        what = "has tables or lists inside one another deeper than can be read"
        raise InputFault(Complaint(where, what, "a few at most, one in another")) from None


def key_path(location: Sequence[int | str]) -> str:
    """A place inside a file as ``steps[3].takes[1]``, counting from 1 as a writer does."""
    path = ""
    for each in location:
        path += f"[{each + 1}]" if isinstance(each, int) else f".{each}" if path else str(each)
    return path
