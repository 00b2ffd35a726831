"""Freezer nights and what could be eaten on them, as the choice between them sees it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

__all__ = ["Chosen", "Lot", "Night"]


@dataclass(frozen=True)
class Lot:
    """Containers that are alike.

    Attributes:
        dish: The dish.
        main: Its main ingredient; no two nights running have the same.
        portions: What each feeds.
        count: How many there are.
        from_day: The first evening on which they can be eaten: thawed by then.
        best_by: The last evening before the best-by date passes.
        last_day: The last evening on which they may be planned.
        unwanted: Whether the household wants no more of the dish.
    """

    dish: str
    main: str
    portions: int
    count: int
    from_day: dt.date
    best_by: dt.date
    last_day: dt.date
    unwanted: bool = False


@dataclass(frozen=True)
class Night:
    """A freezer night.

    Attributes:
        on: The evening.
        people: People at the table.
        settled: The main ingredients of a dinner that is settled already; None where it is to
            be chosen.
    """

    on: dt.date
    people: int
    settled: frozenset[str] | None = None


@dataclass(frozen=True)
class Chosen:
    """The outcome.

    Attributes:
        dinners: For each night, lot number to how many containers; empty where nothing fits, or
            where the dinner was settled.
        passing: How many containers pass their best-by date uneaten.
        proved: Whether fewer are known to be impossible.
    """

    dinners: tuple[Mapping[int, int], ...]
    passing: int
    proved: bool
