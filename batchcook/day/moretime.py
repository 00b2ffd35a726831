"""More time for a day that its start and its finish leave too little for: later, or earlier."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from batchcook.day.formulation import Formulation
from batchcook.day.prepday import PrepDay
from batchcook.lengths import hours
from batchcook.scheduling.schedule import Schedule
from batchcook.scheduling.shifting import begun_at_once, begun_late, moved

__all__ = ["MoreTime", "Shortest", "more_time"]

Shortest = Callable[[PrepDay, float], tuple[Formulation, Schedule] | None]
"""The shortest schedule of a day that is found within so many seconds; None where none is."""


@dataclass(frozen=True)
class MoreTime:
    """A day with more time, and a schedule that it is enough for.

    Attributes:
        words: The change, with how long the day takes.
        day: The order with it.
        schedule: The shortest schedule that was found.
        later: Whether it is the finish that moves.
    """

    words: str
    day: PrepDay
    schedule: Schedule
    later: bool


def more_time(day: PrepDay, shortest: Shortest, seconds: float) -> Iterator[MoreTime]:
    """The finish that would do, and the start that would, each alone; both by solving.

    Args:
        day: A day that cannot be done in its time.
        shortest: Solves a day.
        seconds: Wall-clock time for each.
    """
    if day.start is not None and day.finish_by is not None:
        found = shortest(replace(day, finish_by=None), seconds)
        if found is not None:
            formulation, schedule = found
            schedule = begun_at_once(formulation.problem, schedule)
            end = formulation.clock.instant(max(each.release for each in schedule.tasks.values()))
            yield from _later(day, day.start, end, schedule)
    if day.start is not None:
        found = shortest(replace(day, start=None), seconds)
        if found is not None:
            formulation, schedule = found
            schedule = begun_late(formulation.problem, schedule)
            first = schedule.first
            last = max(each.release for each in schedule.tasks.values())
            begin, end = map(formulation.clock.instant, (first, last))
            # The day with that start counts its minutes from there.
            yield from _earlier(day, day.start, begin, end, moved(schedule, -first))


def _later(
    day: PrepDay, start: dt.time, end: dt.datetime, schedule: Schedule
) -> Iterator[MoreTime]:
    asked = dt.datetime.combine(day.date, day.finish_by or dt.time())
    if not asked < end < dt.datetime.combine(day.date + dt.timedelta(days=1), dt.time()):
        return
    takes = hours(_minutes(end - dt.datetime.combine(day.date, start)))
    words = f"finish by {end:%H:%M}, {hours(_minutes(end - asked))} later: the day takes {takes}"
    yield MoreTime(words, replace(day, finish_by=end.time()), schedule, later=True)


def _earlier(
    day: PrepDay, start: dt.time, begin: dt.datetime, end: dt.datetime, schedule: Schedule
) -> Iterator[MoreTime]:
    asked = dt.datetime.combine(day.date, start)
    if begin >= asked:
        return
    takes = hours(_minutes(end - begin))
    words = f"start at {begin:%H:%M}, {hours(_minutes(asked - begin))} earlier: it takes {takes}"
    yield MoreTime(words, replace(day, start=begin.time()), schedule, later=False)


def _minutes(span: dt.timedelta) -> int:
    return int(span.total_seconds() // 60)
