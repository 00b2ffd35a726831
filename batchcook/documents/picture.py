"""The picture of the day: cooks, burners, oven and slow cookers against the clock.

The clock runs down the page, as it does in the columns that follow it, so that the few words on
each block lie level. Lengths are in points.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final

from batchcook.documents.columns import Column
from batchcook.documents.dishkeys import DishKey
from batchcook.documents.lanes import Row, Stay, rows
from batchcook.documents.textwidth import wrap
from batchcook.plan import Plan

__all__ = ["Block", "Heading", "Picture", "Tick", "Words", "picture"]

_WIDTH: Final = 540.0
_AXIS: Final = 30.0
_HEAD: Final = 14.0
_STRIP: Final = 10.0
_LARGEST_LANE: Final = 50.0
_COOKS_SHARE: Final = 0.42
_SIZES: Final = (7.0, 6.2)


@dataclass(frozen=True)
class Words:
    """A line of text with the left end of its base."""

    x: float
    y: float
    size: float
    text: str


@dataclass(frozen=True)
class Block:
    """A stretch of time: its frame, its strip with the dish's letter, its words.

    ``kind`` is hands, heat, plain or away.
    """

    x: float
    y: float
    width: float
    height: float
    kind: str
    key: DishKey | None
    letters: Words | None
    words: tuple[Words, ...]


@dataclass(frozen=True)
class Heading:
    """The name of a column, and where the column lies."""

    x: float
    width: float
    text: str


@dataclass(frozen=True)
class Tick:
    """A time at the side; half hours have no text."""

    y: float
    text: str


@dataclass(frozen=True)
class Picture:
    """All that is drawn."""

    width: float
    height: float
    strip: float
    head: float
    keys: tuple[DishKey, ...]
    headings: tuple[Heading, ...]
    ticks: tuple[Tick, ...]
    blocks: tuple[Block, ...]


@dataclass(frozen=True)
class _Scale:
    """Instants to heights."""

    start: datetime
    per_minute: float

    def y(self, at: datetime) -> float:
        return round(_HEAD + (at - self.start).total_seconds() / 60 * self.per_minute, 2)


def picture(
    plan: Plan, cooks: Sequence[Column], keys: Mapping[str, DishKey], height: float
) -> Picture:
    """The day drawn on a width of 540 points and the given height."""
    start = plan.start - timedelta(minutes=plan.start.minute % 30)
    minutes = (plan.finish - start).total_seconds() / 60
    scale = _Scale(start, (height - _HEAD - 2) / max(minutes, 30))
    heat = rows(plan)
    lane = min(
        _LARGEST_LANE,
        (_WIDTH - _AXIS) * (1 - _COOKS_SHARE) / max(1, sum(_lanes(row) for row in heat)),
    )
    cook_width = (_WIDTH - _AXIS - lane * sum(_lanes(row) for row in heat)) / max(1, len(cooks))
    headings, blocks = [], []
    x = _AXIS
    for column in cooks:
        headings.append(Heading(x, cook_width, column.name))
        blocks += _cook_blocks(plan, column, keys, scale, x, cook_width)
        x += cook_width
    for row in heat:
        width = lane * _lanes(row)
        headings.append(Heading(x, width, row.name))
        place = width / row.places
        blocks += [block for stay in row.stays for block in _stay(stay, keys, scale, x, place)]
        x += width
    return Picture(
        width=_WIDTH,
        height=height,
        strip=_STRIP,
        head=_HEAD,
        keys=tuple(keys.values()),
        headings=tuple(headings),
        ticks=tuple(_ticks(scale, plan.finish)),
        blocks=tuple(blocks),
    )


def _lanes(row: Row) -> float:
    """How many lanes wide: an oven is one wide column, its shelves side by side in it."""
    return 1.6 if row.name.startswith("Oven") else float(row.places)


def _ticks(scale: _Scale, finish: datetime) -> Iterator[Tick]:
    at = scale.start
    while at <= finish:
        yield Tick(scale.y(at), "" if at.minute else f"{at:%H:%M}")
        at += timedelta(minutes=30)


def _cook_blocks(
    plan: Plan,
    column: Column,
    keys: Mapping[str, DishKey],
    scale: _Scale,
    x: float,
    width: float,
) -> list[Block]:
    own = f"cook:{column.cook}"
    away = [
        Stay(each.from_, each.to, (0,), "away", (), away=True)
        for resource in plan.resources
        if resource.id == own
        for each in resource.away
    ]
    return [
        *(_block(each, keys, scale, x, width, "away") for each in away),
        *(
            _block(
                Stay(entry.start, entry.end, (0,), entry.label, entry.dishes),
                keys,
                scale,
                x,
                width,
                "hands",
            )
            for entry in column.entries
            if entry.end > entry.start
        ),
    ]


def _stay(
    stay: Stay, keys: Mapping[str, DishKey], scale: _Scale, x: float, place: float
) -> Iterator[Block]:
    """A stay on each run of places that lie side by side."""
    lanes = sorted(stay.lanes)
    first = 0
    for each, lane in enumerate(lanes):
        if each + 1 < len(lanes) and lanes[each + 1] == lane + 1:
            continue
        left, count = lanes[first], each - first + 1
        kind = "away" if stay.away else "heat" if stay.dishes else "plain"
        yield _block(stay, keys, scale, x + left * place, place * count, kind)
        first = each + 1


def _block(
    stay: Stay, keys: Mapping[str, DishKey], scale: _Scale, x: float, width: float, kind: str
) -> Block:
    y = scale.y(stay.start)
    height = round(scale.y(stay.end) - y, 2)
    known = [keys[dish] for dish in stay.dishes if dish in keys]
    letters = "".join(key.letter for key in known)
    strip = _STRIP if known else 0.0
    narrow = (x + strip + 2, width - strip - 4)
    if stay.inside:
        words = [line for each in stay.inside for line in _inside(each, scale, narrow)]
    else:
        shown = f"{letters} {stay.label}" if len(known) > 1 else stay.label
        words = _lines(shown, y, height, narrow)
    return Block(
        x=round(x, 2),
        y=y,
        width=round(width, 2),
        height=height,
        kind=kind,
        key=known[0] if len(known) == 1 else None,
        letters=_letter(letters, x, y, height) if len(known) == 1 else None,
        words=tuple(words),
    )


def _letter(letter: str, x: float, y: float, height: float) -> Words | None:
    size = min(8.0, height - 0.5)
    return Words(round(x + 2.2, 2), round(y + size * 0.82 + 0.4, 2), size, letter) if size > 4 else None  # noqa: E501,PLR2004


def _inside(
    each: tuple[datetime, datetime, str], scale: _Scale, narrow: tuple[float, float]
) -> list[Words]:
    start, end, text = each
    y = scale.y(start)
    return _lines(f"{text} to {end:%H:%M}", y, scale.y(end) - y, narrow)


def _lines(text: str, y: float, height: float, narrow: tuple[float, float]) -> list[Words]:
    """The text in the largest size at which all of it fits; nothing where none does."""
    x, width = narrow
    for size in _SIZES:
        lines = wrap(text, width, size)
        if len(lines) * size * 1.12 <= height:
            return [
                Words(round(x, 2), round(y + size * (0.92 + 1.12 * number), 2), size, line)
                for number, line in enumerate(lines)
            ]
    return []
