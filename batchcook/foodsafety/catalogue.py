"""Every figure of this folder with its scope and its source, row by row, to be shown."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.foodsafety.allergens import allergens
from batchcook.foodsafety.freezerquality import Topic, quality_rows
from batchcook.foodsafety.limits import limits
from batchcook.foodsafety.storage import Span, StorageRow, storage_rows
from batchcook.foodsafety.tables import Source, table
from batchcook.foodsafety.temperatures import safe_temperatures, tender_ranges
from batchcook.foodsafety.thermal import thermal_values

__all__ = ["Entry", "about", "entries", "topics"]


@dataclass(frozen=True)
class Entry:
    """One row.

    Attributes:
        topic: The heading that it stands under.
        name: Its name in its table.
        figure: What it says, in words and figures.
        scope: What it covers, in our words.
        source: The full title of where it is from, and whether from memory.
        checked: The day on which it was last compared with its source.
    """

    topic: str
    name: str
    figure: str
    scope: str
    source: str
    checked: dt.date


def entries(topic: str = "") -> tuple[Entry, ...]:
    """Every row, or those under one heading.

    Args:
        topic: A heading of :func:`topics`; empty for all.

    Raises:
        InputFault: There is no such heading; suggests the nearest.
    """
    everything = tuple(_everything())
    if not topic:
        return everything
    found = tuple(entry for entry in everything if entry.topic.lower() == topic.lower())
    if not found:
        headings = topics()
        by_lower = {heading.lower(): heading for heading in headings}
        close = by_lower.get(nearest(topic, by_lower), "")
        raise InputFault(Complaint("topic", f"unknown topic {topic!r}", ", ".join(headings), close))
    return found


def topics() -> tuple[str, ...]:
    """The headings, in the order in which they are shown."""
    return tuple(dict.fromkeys(entry.topic for entry in _everything()))


def about(words: str) -> tuple[Entry, ...]:
    """The rows that a reader asks for: a heading, a row by its name, or words in any of them.

    Args:
        words: In small or capital letters.

    Raises:
        InputFault: Nothing is about that; suggests the nearest heading or name.
    """
    everything = tuple(_everything())
    wanted = words.lower().strip()
    for rows in (
        tuple(entry for entry in everything if entry.topic.lower() == wanted),
        tuple(entry for entry in everything if entry.name.lower() == wanted),
        tuple(
            entry
            for entry in everything
            if wanted and wanted in f"{entry.topic} {entry.name} {entry.scope}".lower()
        ),
    ):
        if rows:
            return rows
    names = [*topics(), *(entry.name for entry in everything)]
    close = nearest(wanted, names)
    expected = f"a topic ({', '.join(topics())}) or the name of a row"
    raise InputFault(Complaint("safety", f"nothing is about {words!r}", expected, close))


def _everything() -> Iterator[Entry]:
    yield from _storage()
    yield from _temperatures()
    yield from _limits()
    yield from _quality()
    yield from _allergens()
    yield from _thermal()


def _entry(topic: str, name: str, figure: str, scope: str, *sources: Source) -> Entry:
    told = "; ".join(str(source) for source in sources)
    return Entry(topic, name, figure, scope, told, min(source.checked for source in sources))


def _storage() -> Iterator[Entry]:
    for row in storage_rows().values():
        yield _entry("Cold storage", row.name, _storage_figure(row), row.scope, row.source)
        if row.elsewhere:
            months, source = row.elsewhere
            figure = f"freezer {_span(months, 'month')} (not used: the stricter stands)"
            yield _entry("Cold storage", row.name, figure, row.scope, source)


def _storage_figure(row: StorageRow) -> str:
    parts = []
    if row.refrigerator_days:
        parts.append(f"refrigerator {_span(row.refrigerator_days, 'day')}")
    if row.freezer_months:
        parts.append(f"freezer {_span(row.freezer_months, 'month')}")
    if row.not_frozen:
        parts.append(f"freezer: {row.not_frozen}")
    return ", ".join(parts)


def _span(span: Span, unit: str) -> str:
    low, high = span
    figure = f"{low}" if low == high else f"{low} to {high}"
    return f"{figure} {unit}" if high == 1 else f"{figure} {unit}s"


def _temperatures() -> Iterator[Entry]:
    for row in safe_temperatures().values():
        rest = f", rest {row.rest_minutes} minutes" if row.rest_minutes else ""
        figure = f"{row.fahrenheit} degF{rest}"
        yield _entry("Cook to", row.row, figure, row.scope, row.source)
    for name, each in tender_ranges().items():
        figure = f"{each.low.magnitude:g} to {each.high.magnitude:g} degF"
        yield _entry("Tender at", name, figure, each.scope, each.source)


def _limits() -> Iterator[Entry]:
    for each in limits().values():
        yield _entry(each.topic, each.name, each.figure, each.scope, each.source)


def _quality() -> Iterator[Entry]:
    headings: tuple[tuple[Topic, str], ...] = (
        ("freezing", "Does not freeze well"),
        ("multiplying", "Changes when multiplied"),
    )
    for topic, heading in headings:
        for row in quality_rows(topic).values():
            yield _entry(heading, row.name, f"{row.happens}; {row.advice}", row.scope, *row.sources)


def _allergens() -> Iterator[Entry]:
    for each in allergens().values():
        yield _entry("Major allergens", each.name, "named on the label", each.scope, each.act)


def _thermal() -> Iterator[Entry]:
    for value in thermal_values().values():
        unit = table("thermal")[value.name]["unit"]
        figure = f"{value.quantity.magnitude:g} {unit}".removesuffix(" dimensionless")
        figure = f"{figure} ({value.basis})"
        yield _entry(
            "Cooling and freezing estimates", value.name, figure, value.scope, value.source
        )
