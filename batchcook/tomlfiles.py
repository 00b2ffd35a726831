"""Reading TOML so that every fault comes with its place in the file."""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from typing import Any

from batchcook.complaints import Complaint, InputFault

__all__ = ["key_path", "parse_toml"]


def parse_toml(text: str, where: str) -> dict[str, Any]:
    """The tables in ``text``.

    Raises:
        InputFault: It is not TOML; the complaint names the line.
    """
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise InputFault(Complaint(where, f"is not TOML: {fault}", "TOML")) from None


def key_path(location: Sequence[int | str]) -> str:
    """A place inside a file as ``steps[3].takes[1]``, counting from 1 as a writer does."""
    path = ""
    for each in location:
        path += f"[{each + 1}]" if isinstance(each, int) else f".{each}" if path else str(each)
    return path
