"""Reading TOML and JSON so that every fault comes with its place in the file."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from batchcook.complaints import Complaint, InputFault

__all__ = ["key_path", "parse_toml", "read_json", "read_text"]

_CONTROLS = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f]")


def read_text(path: Path, expected: str) -> str:
    """The text of a file, without the mark that some editors put before it.

    Args:
        path: The file.
        expected: What it should be, for the message.

    Raises:
        InputFault: It is not there, may not be read, or is not text.
    """
    try:
        return path.read_text("utf-8-sig")
    except OSError as fault:
        what = f"cannot be read: {(fault.strerror or 'no reason given').lower()}"
        raise InputFault(Complaint(str(path), what, expected)) from None
    except UnicodeDecodeError as fault:
        what = f"is not UTF-8 text (byte {fault.start + 1})"
        raise InputFault(Complaint(str(path), what, f"{expected}, saved as UTF-8")) from None


def parse_toml(text: str, where: str) -> dict[str, Any]:
    """The tables in ``text``.

    Raises:
        InputFault: It is not TOML, and the complaint names the line; or it holds characters that
            neither paper nor a terminal can show, and each is named with its key.
    """
    try:
        found = tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise InputFault(Complaint(where, f"is not TOML: {fault}", "TOML")) from None
    except ValueError:
        # Python reads no number of more than a few thousand figures.
        what = "holds a number with more figures than can be read"
        raise InputFault(Complaint(where, what, "numbers of a few figures")) from None
    except RecursionError:
        what = "has tables or lists inside one another deeper than can be read"
        raise InputFault(Complaint(where, what, "a few at most, one in another")) from None
    unseen = [
        Complaint(f"{where}, {key_path(location)}", f"holds {character!r}", "what can be printed")
        for location, character in _unprintable(found)
    ]
    if unseen:
        raise InputFault(unseen)
    return found


def read_json(path: Path, expected: str) -> Any:  # noqa: ANN401 - whatever JSON holds
    """What a file of JSON holds.

    Args:
        path: The file.
        expected: What it should be, for the message.

    Raises:
        InputFault: It cannot be read, or is not JSON.
    """
    text = read_text(path, expected)
    try:
        return json.loads(text)
    except json.JSONDecodeError as fault:
        raise InputFault(Complaint(str(path), f"is not JSON: {fault}", expected)) from None
    except (ValueError, RecursionError):
        # No number of thousands of figures is read, and no list in a list in a thousand others.
        what = "holds numbers or lists larger than can be read"
        raise InputFault(Complaint(str(path), what, expected)) from None


def key_path(location: Sequence[int | str]) -> str:
    """A place inside a file as ``steps[3].takes[1]``, counting from 1 as a writer does."""
    path = ""
    for each in location:
        path += f"[{each + 1}]" if isinstance(each, int) else f".{each}" if path else str(each)
    return path


def _unprintable(
    value: object, location: tuple[int | str, ...] = ()
) -> Iterator[tuple[tuple[int | str, ...], str]]:
    """Where a text holds a control character, and which; lines and tabs are none."""
    if isinstance(value, str):
        if found := _CONTROLS.search(value):
            yield location, found[0]
    elif isinstance(value, dict):
        for key, each in value.items():
            yield from _unprintable(key, location)
            yield from _unprintable(each, (*location, key))
    elif isinstance(value, list):
        for place, each in enumerate(value):
            yield from _unprintable(each, (*location, place))
