"""Frozen dataclasses as plain data that JSON can hold, and back again by their annotations."""

from __future__ import annotations

import datetime as dt
import types
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any, Literal, TypeVar, Union, cast, get_args, get_origin, get_type_hints

import pint

from batchcook.quantities import ureg

__all__ = ["as_plain", "from_plain"]

_T = TypeVar("_T")


def as_plain(value: object) -> Any:  # noqa: ANN401 - what JSON can hold
    """A value as mappings, lists, texts and numbers.

    A quantity becomes its magnitude and its unit; a set is sorted.
    """
    if value is None or isinstance(value, bool | int | float | str):
        plain: object = value
    elif isinstance(value, pint.Quantity):
        plain = [_magnitude(value.magnitude), str(value.units)]
    elif is_dataclass(value):
        plain = {each.name: as_plain(getattr(value, each.name)) for each in fields(value)}
    elif isinstance(value, Mapping):
        plain = {str(key): as_plain(each) for key, each in value.items()}
    elif isinstance(value, frozenset):
        plain = sorted(as_plain(each) for each in value)
    elif isinstance(value, tuple | list):
        plain = [as_plain(each) for each in value]
    else:
        plain = str(value)
    return plain


def from_plain(kind: type[_T], data: object) -> _T:
    """The value of a type that :func:`as_plain` wrote.

    Raises:
        ValueError, TypeError, LookupError, AttributeError: The data is of another shape.
    """
    return cast("_T", _read(kind, data))


def _magnitude(number: object) -> object:
    """A number as it is; a fraction as text, so that it stays one."""
    return number if isinstance(number, int | float) else str(number)


@cache
def _hints(kind: type) -> dict[str, Any]:
    return get_type_hints(kind)


def _read(kind: Any, data: Any) -> Any:  # noqa: ANN401 - annotations and JSON are of any type
    origin, arguments = get_origin(kind), get_args(kind)
    if origin in {Union, types.UnionType}:
        inner = next(each for each in arguments if each is not type(None))
        return None if data is None else _read(inner, data)
    if origin is None or origin is Literal or issubclass(origin, pint.Quantity):
        return _read_single(origin or kind, data)
    if issubclass(origin, Mapping):
        return {key: _read(arguments[1], each) for key, each in data.items()}
    return origin(_read(arguments[0], each) for each in data)


def _read_single(kind: Any, data: Any) -> Any:  # noqa: ANN401 - the same
    """A value that holds no others, a quantity, or a dataclass."""
    if is_dataclass(kind):
        hints = _hints(cast("type", kind))
        made = cast("Any", kind)
        found = made(**{name: _read(hints[name], each) for name, each in data.items()})
    elif kind is not Literal and issubclass(kind, pint.Quantity):
        number = Fraction(data[0]) if isinstance(data[0], str) else data[0]
        found = ureg.Quantity(number, data[1])
    elif kind in {dt.date, dt.time}:
        found = kind.fromisoformat(data)
    elif kind is Path:
        found = Path(data)
    elif kind is Literal or isinstance(data, (int, float) if kind is float else kind):
        found = data
    else:
        raise TypeError(f"{data!r} is no {kind.__name__}")
    return found
