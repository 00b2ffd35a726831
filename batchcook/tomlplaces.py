"""Where a fault stands in a TOML file, and what a file's model says should stand there."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal, TypeVar, get_args, get_origin

from pydantic import BaseModel, ValidationError
from pydantic.fields import FieldInfo
from pydantic_core import ErrorDetails

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.shapewords import OWN_FAULT, fault_words, options
from batchcook.tomlfiles import key_path

__all__ = ["Location", "Places", "read_table", "shape_complaints"]

Shape = TypeVar("Shape", bound=BaseModel)

Location = tuple[int | str, ...]
"""Keys and list positions from the top of a file; positions count from 0 here, from 1 on screen."""

_KEY = r"(?:\"[^\"]*\"|'[^']*'|[A-Za-z0-9_-]+)"
_KEYS = rf"{_KEY}(?:\s*\.\s*{_KEY})*"
_HEADER = re.compile(rf"\s*(\[\[?)\s*({_KEYS})\s*\]\]?\s*(?:#.*)?$")
_ASSIGNMENT = re.compile(rf"\s*({_KEYS})\s*=")
_STRINGS_AND_COMMENTS = re.compile(r"\"(?:\\.|[^\"\\])*\"|'[^']*'|#.*")


@dataclass(frozen=True)
class Places:
    """The places of one file.

    Attributes:
        file: What to call the file.
        lines: The line on which each key of it is set, counted from 1.
    """

    file: str
    lines: Mapping[Location, int] = field(default_factory=dict)

    @classmethod
    def of(cls, file: str, text: str) -> Places:
        """The places of a file with this text."""
        return cls(file, dict(_key_lines(text)))

    def in_order(self, complaints: Iterable[Complaint]) -> list[Complaint]:
        """Complaints about this file from its top to its end, those without a line first."""

        def line(complaint: Complaint) -> int:
            found = re.search(r"\(line (\d+)\)$", complaint.where)
            return int(found[1]) if found else 0

        return sorted(complaints, key=line)

    def at(self, *location: int | str) -> str:
        """A place in words: the file, the key path, and the nearest line that is known."""
        if not location:
            return self.file
        place = f"{self.file}, {key_path(location)}"
        for length in range(len(location), 0, -1):
            line = self.lines.get(location[:length])
            if line is not None:
                return f"{place} (line {line})"
        return place


def shape_complaints(
    fault: ValidationError, places: Places, model: type[BaseModel]
) -> list[Complaint]:
    """Every error that pydantic found, as a writer of the file understands it.

    What was expected comes from the description of the model's field. A key that is missing
    because it is misspelt is told once, as misspelt.

    Args:
        fault: The errors.
        places: The places of the file.
        model: The model of the whole file.
    """
    errors = fault.errors(include_url=False)
    told = [(error, _complaint(error, places, model)) for error in errors]
    misspelt = {
        (*error["loc"][:-1], complaint.suggestion)
        for error, complaint in told
        if error["type"] == "extra_forbidden"
    }
    return [
        complaint
        for error, complaint in told
        if error["type"] != "missing" or error["loc"] not in misspelt
    ]


def read_table(
    model: type[Shape], tables: Mapping[str, Any], places: Places, *besides: Complaint
) -> Shape:
    """The tables of a file as its model has them.

    Args:
        model: The model of the whole file.
        tables: What was read.
        places: The places of the file.
        besides: What else is known to be wrong with it.

    Raises:
        InputFault: With every fault of the file from its top to its end, those besides included.
    """
    told = list(besides)
    try:
        found = model.model_validate(tables)
    except ValidationError as fault:
        told += shape_complaints(fault, places, model)
        raise InputFault(places.in_order(told)) from None
    if told:
        raise InputFault(places.in_order(told))
    return found


def _complaint(error: ErrorDetails, places: Places, model: type[BaseModel]) -> Complaint:
    location = error["loc"]
    where = places.at(*location)
    owner, found = _field_at(model, location)
    expected = (found.description or "") if found else ""
    if error["type"] == "extra_forbidden":
        valid = [each.alias or name for name, each in owner.model_fields.items()]
        key = str(location[-1])
        return Complaint(
            where, f"unknown key {key!r}", f"one of {', '.join(valid)}", nearest(key, valid)
        )
    if error["type"] == "missing":
        return Complaint(where, "is missing", expected or _asked_for(found))
    if error["type"] == "literal_error":
        given = error["input"]
        near = nearest(given, options(error)) if isinstance(given, str) else ""
        return Complaint(where, *fault_words(error), near)
    if error["type"] == OWN_FAULT:
        return Complaint(where, **error["ctx"])
    what, plainly = fault_words(error, found.metadata if found else ())
    return Complaint(where, what, expected or plainly)


def _asked_for(found: FieldInfo | None) -> str:
    """What a missing key should hold, where its model gives it no words: one of its values."""
    annotation = found.annotation if found else None
    values = get_args(annotation) if get_origin(annotation) is Literal else ()
    return f"one of {', '.join(map(str, values))}" if values else ""


def _field_at(
    model: type[BaseModel], location: Location
) -> tuple[type[BaseModel], FieldInfo | None]:
    """The model that a location is in, and its field there if there is one."""
    owner, found = model, None
    inside: type[BaseModel] | None = model
    for step in location:
        if inside is None or isinstance(step, int):
            continue
        candidate = _field_called(inside, step)
        if candidate is None and found is not None and _is_mapping(found):
            found = None
            continue
        owner, found = inside, candidate
        inside = _model_in(candidate.annotation) if candidate else None
    return owner, found


def _field_called(model: type[BaseModel], key: str) -> FieldInfo | None:
    for name, each in model.model_fields.items():
        if key == (each.alias or name):
            return each
    return None


def _is_mapping(found: FieldInfo) -> bool:
    return str(found.annotation).startswith("dict[")


def _model_in(annotation: Any) -> type[BaseModel] | None:  # noqa: ANN401 - annotations have no common type
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for inner in get_args(annotation):
        found = _model_in(inner)
        if found is not None:
            return found
    return None


def _key_lines(text: str) -> Iterator[tuple[Location, int]]:
    """Each key that starts a line, with that line; values over several lines are skipped."""
    counts: dict[Location, int] = {}
    table: Location = ()
    depth = 0
    quoted = False
    for number, line in enumerate(text.splitlines(), 1):
        starts_fresh = depth == 0 and not quoted
        if (line.count('"""') + line.count("'''")) % 2:
            quoted = not quoted
        header = _HEADER.match(line) if starts_fresh else None
        if header:
            table = _table_named(header, counts)
            yield table, number
            continue
        assignment = _ASSIGNMENT.match(line) if starts_fresh else None
        if assignment:
            yield table + _parts(assignment.group(1)), number
        if not quoted:
            bare = _STRINGS_AND_COMMENTS.sub("", line)
            depth += sum(map(bare.count, "[{")) - sum(map(bare.count, "]}"))


def _table_named(header: re.Match[str], counts: dict[Location, int]) -> Location:
    """The location of a table; a [[table]] is the next of its list, a [table] in it the last's."""
    name: Location = ()
    parts = _parts(header.group(2))
    for position, part in enumerate(parts):
        name += (part,)
        last = position == len(parts) - 1
        if last and header.group(1) == "[[":
            counts[name] = counts.get(name, -1) + 1
        if name in counts:
            name += (counts[name],)
    return name


def _parts(keys: str) -> Location:
    return tuple(part.strip("\"'") for part in re.findall(_KEY, keys))
