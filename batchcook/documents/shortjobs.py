"""A cook's work as it is drawn: jobs too short to be read by themselves are drawn as one."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import zip_longest
from typing import Final

from batchcook.documents.columns import Entry

__all__ = ["DrawnWork", "drawn_work"]

_PAUSE: Final = timedelta(minutes=3)
"""Jobs with a longer pause between them are not drawn as one."""


@dataclass(frozen=True)
class DrawnWork:
    """One job, or several short ones on end.

    Attributes:
        jobs: Each with its dishes and a few words.
        free_until: When the cook's next work begins, so that words may stand below; None at the
            end of the day.
    """

    start: datetime
    end: datetime
    jobs: tuple[tuple[tuple[str, ...], str], ...]
    free_until: datetime | None = None

    @property
    def dishes(self) -> tuple[str, ...]:
        """The dishes of all of it."""
        return tuple(dict.fromkeys(dish for dishes, _ in self.jobs for dish in dishes))


def drawn_work(entries: Iterable[Entry], readable: timedelta) -> tuple[DrawnWork, ...]:
    """What a cook does, in order of time.

    Args:
        entries: The cook's entries; those without any length are left out.
        readable: How long a job is at the least that has room for a line of words. Shorter ones
            that follow each other closely are drawn as one.
    """
    found: list[DrawnWork] = []
    for entry in sorted(entries, key=lambda each: each.start):
        if entry.end <= entry.start:
            continue
        work = DrawnWork(entry.start, entry.end, ((entry.dishes, entry.label),))
        before = found[-1] if found else None
        if before is not None and _crowded(before, work, readable):
            found[-1] = DrawnWork(before.start, work.end, (*before.jobs, *work.jobs))
        else:
            found.append(work)
    following = [each.start for each in found[1:]]
    return tuple(
        DrawnWork(each.start, each.end, each.jobs, after)
        for each, after in zip_longest(found, following)
    )


def _crowded(before: DrawnWork, work: DrawnWork, readable: timedelta) -> bool:
    """Whether two go together: both short, close, and the first without room of its own."""
    return (
        before.end - before.start < readable
        and work.end - work.start < readable
        and work.start - before.start < readable
        and work.start - before.end <= _PAUSE
    )
