"""The picture of the day: cooks, burners, oven and slow cookers against the clock.

The clock runs down the page, as it does in the columns that follow it, so that the few words on
each block lie level. Lengths are in points.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final

from batchcook.documents.columns import Column
from batchcook.documents.dishkeys import DishKey
from batchcook.documents.lanes import Row, Stay, rows
from batchcook.documents.shortjobs import DrawnWork, drawn_work
from batchcook.documents.textwidth import text_width, wider_if_known, wrap
from batchcook.plan import Plan
from batchcook.wording import degrees

__all__ = ["Block", "Heading", "Picture", "Tick", "Words", "picture"]

_WIDTH: Final = 524.0
"""Fits between the margins of Letter and of A4."""

_AXIS: Final = 30.0
_HEAD: Final = 21.0
_STRIP: Final = 9.0
_THINNEST: Final = 1.6
_LARGEST_LANE: Final = 50.0
_COOKS_SHARE: Final = 0.38
_WHOLE: Final = {"Oven": 1.3, "Ice bath": 0.9}
"""What is drawn as one column, in lanes: its places stand side by side in it."""

_SIZES: Final = (8.0, 7.2, 6.6)
_HEADING_SIZE: Final = 8.5
_LEADING: Final = 1.1
_SMALLEST_LETTER: Final = 6.0


@dataclass(frozen=True)
class Words:
    """A line of text with its upper left corner; a tag is white on black, as all letters are."""

    x: float
    y: float
    size: float
    text: str
    bold: bool = False
    tag: bool = False


@dataclass(frozen=True)
class Block:
    """A stretch of time: its frame, and the dish whose strip it carries.

    ``kind`` is hands, heat, plain or away.
    """

    x: float
    y: float
    width: float
    height: float
    kind: str
    key: DishKey | None


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
    """All that is drawn.

    Attributes:
        untold: The share of the jobs by hand that have no words of their own on it.
    """

    width: float
    height: float
    axis: float
    strip: float
    keys: tuple[DishKey, ...]
    headings: tuple[Heading, ...]
    ticks: tuple[Tick, ...]
    blocks: tuple[Block, ...]
    words: tuple[Words, ...]
    untold: float


@dataclass(frozen=True)
class _Frame:
    """What every block is drawn with: instants to heights, dishes to keys."""

    start: datetime
    per_minute: float
    keys: Mapping[str, DishKey]

    def y(self, at: datetime) -> float:
        return round(_HEAD + (at - self.start).total_seconds() / 60 * self.per_minute, 2)


@dataclass(frozen=True)
class _Drawn:
    """A block with the words on it, and for how many jobs there is no room for words."""

    block: Block
    words: tuple[Words, ...]
    untold: int = 0


def picture(
    plan: Plan, cooks: Sequence[Column], keys: Mapping[str, DishKey], height: float
) -> Picture:
    """The day drawn on the width of the page and the given height."""
    start = plan.start - timedelta(minutes=plan.start.minute % 30)
    minutes = max(30.0, (plan.finish - start).total_seconds() / 60)
    frame = _Frame(start, (height - _HEAD - 2) / minutes, keys)
    heat = rows(plan)
    lanes = sum(map(_lanes, heat))
    lane = min(_LARGEST_LANE, (_WIDTH - _AXIS) * (1 - _COOKS_SHARE) / max(1.0, lanes))
    cook_width = (_WIDTH - _AXIS - lane * lanes) / max(1, len(cooks))
    headings: list[Heading] = []
    drawn: list[_Drawn] = []
    jobs = sum(entry.end > entry.start for column in cooks for entry in column.entries)
    x = _AXIS
    for column in cooks:
        headings.append(Heading(x, cook_width, column.name))
        drawn += _cook(plan, column, frame, x, cook_width)
        x += cook_width
    for row in heat:
        width = lane * _lanes(row)
        headings.append(Heading(x, width, row.name))
        for stay in row.stays:
            drawn += _on_places(stay, frame, x, width / row.places)
        x += width
    ticks = tuple(_ticks(frame, plan.finish))
    return Picture(
        width=_WIDTH,
        height=height,
        axis=_AXIS,
        strip=_STRIP,
        keys=tuple(keys.values()),
        headings=tuple(headings),
        ticks=ticks,
        blocks=tuple(each.block for each in drawn),
        words=(
            *_heading_words(headings),
            *(Words(1, tick.y - 5.2, 9, tick.text, bold=True) for tick in ticks if tick.text),
            *(line for each in drawn for line in each.words),
        ),
        untold=sum(each.untold for each in drawn) / max(1, jobs),
    )


def _lanes(row: Row) -> float:
    """How many lanes wide it is drawn."""
    whole = (width for name, width in _WHOLE.items() if row.name.startswith(name))
    return next(whole, float(row.places))


def _heading_words(headings: Iterable[Heading]) -> Iterator[Words]:
    for each in headings:
        room = (each.width - 4) / wider_if_known()
        lines = wrap(each.text, room, _HEADING_SIZE, bold=True)[:2]
        top = _HEAD - 1 - len(lines) * _HEADING_SIZE * _LEADING
        for number, line in enumerate(lines):
            y = top + number * _HEADING_SIZE * _LEADING
            yield Words(round(each.x + 2, 2), round(y, 2), _HEADING_SIZE, line, bold=True)


def _ticks(frame: _Frame, finish: datetime) -> Iterator[Tick]:
    at = frame.start
    while at <= finish:
        yield Tick(frame.y(at), "" if at.minute else f"{at:%H:%M}")
        at += timedelta(minutes=30)


def _cook(plan: Plan, column: Column, frame: _Frame, x: float, width: float) -> list[_Drawn]:
    """A cook's work and absences."""
    away = [
        _drawn(
            Stay(each.from_, each.to, (0,), each.why or "away", (), away=True),
            frame,
            x,
            width,
            "away",
        )
        for resource in plan.resources
        if resource.id == f"cook:{column.cook}"
        for each in resource.away
    ]
    readable = timedelta(minutes=_SIZES[1] * _LEADING / frame.per_minute)
    work = [_work(each, frame, x, width) for each in drawn_work(column.entries, readable)]
    return [*away, *work]


def _work(work: DrawnWork, frame: _Frame, x: float, width: float) -> _Drawn:
    """Work of a cook; a short job is drawn as high as a line of words where free time follows."""
    known = [frame.keys[dish] for dish in work.dishes if dish in frame.keys]
    one = known[0] if len(known) == 1 else None
    y = frame.y(work.start)
    height = frame.y(work.end) - y
    if work.free_until is not None:
        height = max(height, min(_SIZES[1] * _LEADING, frame.y(work.free_until) - y))
    words = _letter(one.letter, x, y, height) if one else []
    # A sliver that is too thin for its letter has the letter with its words.
    untold = len(work.jobs)
    for place, text in enumerate(_told(work, frame.keys, lettered=bool(words))):
        lines = _lines(text, y, height, _room(x, width, one))
        if lines:
            words += lines
            untold = 0 if place == 0 or len(work.jobs) == 1 else untold
            break
    return _Drawn(_block(x, y, width, height, "hands", one), tuple(words), untold)


def _told(work: DrawnWork, keys: Mapping[str, DishKey], *, lettered: bool) -> Iterator[str]:
    """What stands on it, from all there is to say to the least."""
    several = len(work.jobs) > 1
    one = len(work.dishes) == 1

    def letters(dishes: Iterable[str]) -> str:
        return "+".join(keys[dish].letter for dish in dishes if dish in keys)

    def named(dishes: Sequence[str], label: str) -> str:
        return label if one and lettered else f"{letters(dishes)} {label}".strip()

    yield "; ".join(dict.fromkeys(named(dishes, label) for dishes, label in work.jobs))
    if several:
        yield named(work.dishes, f"{len(work.jobs)} short jobs")
    first = work.jobs[0][1].split(" ")[0]
    yield named(work.dishes, f"{len(work.jobs)} jobs" if several else first)
    if not lettered:
        yield letters(work.dishes)


def _on_places(stay: Stay, frame: _Frame, x: float, place: float) -> Iterator[_Drawn]:
    """A stay on each stretch of places that lie side by side."""
    kind = "away" if stay.away else "heat" if stay.dishes else "plain"
    lanes = sorted(stay.lanes)
    first = 0
    for last, lane in enumerate(lanes):
        if last + 1 < len(lanes) and lanes[last + 1] == lane + 1:
            continue
        width = place * (last - first + 1)
        yield _drawn(stay, frame, x + lanes[first] * place, width, kind)
        first = last + 1


def _drawn(stay: Stay, frame: _Frame, x: float, width: float, kind: str) -> _Drawn:
    y = frame.y(stay.start)
    height = frame.y(stay.end) - y
    known = [frame.keys[dish] for dish in stay.dishes if dish in frame.keys]
    one = known[0] if len(known) == 1 else None
    room = _room(x, width, one)
    words = _letter(one.letter, x, y, height) if one else []
    if stay.inside:
        for start, end, text in stay.inside:
            top = frame.y(start)
            words += _lines(f"{text} to {end:%H:%M}", top, frame.y(end) - top, room)
    else:
        letters = "+".join(key.letter for key in known)
        text = stay.label if one or not letters else f"{letters} {stay.label}"
        words += _lines(text, y, height, room)
    return _Drawn(_block(x, y, width, height, kind, one), tuple(words))


def _room(x: float, width: float, key: DishKey | None) -> tuple[float, float]:
    """Where words begin beside the strip, and how wide they may be."""
    strip = _STRIP if key else 0
    return x + strip + 1.5, width - strip - 3


def _block(
    x: float, y: float, width: float, height: float, kind: str, key: DishKey | None
) -> Block:
    """A block, never so thin that it is not seen."""
    return Block(round(x, 2), y, round(width, 2), max(_THINNEST, round(height, 2)), kind, key)


def _letter(letter: str, x: float, y: float, height: float) -> list[Words]:
    """The dish's letter on the strip, as large as the block is high."""
    size = min(8.0, height * 0.95)
    if size < _SMALLEST_LETTER:
        return []
    return [
        Words(round(x + 0.7, 2), round(y + 0.25, 2), round(size, 2), letter, bold=True, tag=True)
    ]


def _lines(text: str, y: float, height: float, room: tuple[float, float]) -> list[Words]:
    """The text in the largest size at which all of it fits; nothing where none does."""
    x, width = room[0], room[1] / wider_if_known()
    text = degrees(text)
    for size in _SIZES:
        if any(text_width(word, size) > width for word in text.split()):
            continue
        lines = wrap(text, width, size)
        if len(lines) * size * _LEADING <= height + 0.6:
            return [
                Words(round(x, 2), round(y + 0.2 + size * _LEADING * number, 2), size, line)
                for number, line in enumerate(lines)
            ]
    return []
