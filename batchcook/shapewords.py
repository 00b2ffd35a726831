"""What a file's model expects of a value, in our own words, and faults that it finds itself."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable, Mapping
from typing import Any, Final

from pydantic import AfterValidator
from pydantic_core import ErrorDetails, PydanticCustomError

__all__ = ["ONE_LINE", "OWN_FAULT", "fault_words", "options", "own_fault"]

OWN_FAULT: Final = "own_fault"
"""The type of an error that :func:`own_fault` makes."""

_KINDS: Final[Mapping[str, str]] = {
    "int": "a whole number",
    "float": "a number",
    "finite": "a number",
    "string": "text in quotes",
    "bool": "true or false",
    "list": "a list in square brackets",
    "tuple": "a list in square brackets",
    "dict": "a table with keys of its own",
    "model": "a table with keys of its own",
    "date": "a date such as 2027-01-16",
    "datetime": "a day and time such as 2027-01-16T08:00",
}
"""Kinds of value by the first word of the library's name for the error."""

_BOUNDS: Final = (
    ("ge", "{:g} or more"),
    ("gt", "more than {:g}"),
    ("le", "{:g} or less"),
    ("lt", "less than {:g}"),
)
_OUR_OWN: Final = "Value error, "


def own_fault(what: str, expected: str = "", suggestion: str = "") -> PydanticCustomError:
    """A fault for a check of a model to raise: what is wrong, what was expected, the nearest name.

    It reaches the writer of the file in these words, beside all the others.
    """
    told = {"what": what, "expected": expected, "suggestion": suggestion}
    return PydanticCustomError(OWN_FAULT, "{what}", told)


def fault_words(error: ErrorDetails, bounds: Iterable[object] = ()) -> tuple[str, str]:
    """What is wrong, and what should stand there, or an empty string where that is plain.

    Args:
        error: The error, as pydantic tells it.
        bounds: What the field asks for besides its kind, as its ``metadata``: all its bounds are
            told then, not only the one that was broken.
    """
    kind = error["type"]
    if kind == OWN_FAULT:
        told = error["ctx"]
        return told["what"], told["expected"]
    if kind == "value_error":
        return error["msg"].removeprefix(_OUR_OWN), ""
    if kind == "missing":
        return "is missing", ""
    if kind == "extra_forbidden":
        return f"unknown key {str(error['loc'][-1])!r}", ""
    if kind == "literal_error":
        return f"unknown value {_as_written(error['input'])}", f"one of {', '.join(options(error))}"
    return _wrong(error), _expected(error, bounds)


def options(error: ErrorDetails) -> list[str]:
    """The values of which one should stand there."""
    return re.findall(r"'([^']*)'", str(error.get("ctx", {}).get("expected", "")))


def _expected(error: ErrorDetails, bounds: Iterable[object]) -> str:
    """What should stand there."""
    kind, context = error["type"], error.get("ctx", {})
    if kind in {"too_short", "string_too_short"}:
        least = context["min_length"]
        what = "characters" if kind.startswith("string") else "entries"
        return "something" if least == 1 else f"{least} {what} or more"
    if kind in {"too_long", "string_too_long"}:
        return f"{context['max_length']} or fewer"
    if kind == "string_pattern_mismatch":
        return "text of another form"
    between = _between(bounds, context)
    what = _KINDS.get(kind.split("_", maxsplit=1)[0], "")
    if not what and between:
        what = "a whole number" if isinstance(error["input"], int) else "a number"
    return f"{what}, {between}" if what and between else what or "another kind of value"


def _wrong(error: ErrorDetails) -> str:
    """What stands there, short enough to be read in a line."""
    given = error["input"]
    if isinstance(given, Mapping):
        return "is a table of its own"
    if isinstance(given, list) and given:
        return "is a list"
    return f"{_as_written(given)} does not fit here"


def _between(bounds: Iterable[object], context: Mapping[str, Any]) -> str:
    """The bounds of a number in words; empty where there are none."""
    names = [name for name, _ in _BOUNDS]
    asked = {name: getattr(each, name) for each in bounds for name in names if hasattr(each, name)}
    found = asked or {name: context[name] for name in names if name in context}
    if {"ge", "le"} <= found.keys():
        return f"{found['ge']:g} to {found['le']:g}"
    return " and ".join(words.format(found[name]) for name, words in _BOUNDS if name in found)


def _as_written(given: object) -> str:
    """A value as it stands in a file."""
    if isinstance(given, bool):
        return str(given).lower()
    if isinstance(given, dt.date | dt.time):
        return given.isoformat()
    return repr(given)


_LONGEST_NAME: Final = 100
"""Letters; more fit neither a label nor a list."""


def _one_line(text: str) -> str:
    if not any(map(str.isalnum, text)) or "\n" in text or len(text) > _LONGEST_NAME:
        raise own_fault(f"{text!r} is no name", "a few words on one line")
    return text


ONE_LINE = AfterValidator(_one_line)
"""A check that a text is a name that fits on a label and in a list."""
