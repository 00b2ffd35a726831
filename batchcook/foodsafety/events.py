"""What happens to a dish's foods on a prep day, as plain data."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from batchcook.complaints import Complaint, InputFault, nearest

__all__ = ["EVENTS", "FoodEvent", "Track", "tracks"]

EVENTS = ("out", "on-heat", "off-heat", "held-hot", "refrigerated", "frozen")
"""Out of the refrigerator, on the heat, off it, kept at 140 degF or above, put away, frozen."""


@dataclass(frozen=True)
class FoodEvent:
    """One thing that happens to one food of a dish.

    Attributes:
        dish: The dish.
        food: The food, or the dish's own name (or nothing) for the dish as a whole. Food that is
            cooked in several loads has a name for each load.
        kind: What the food is from this event on: a food kind (``"raw-beef"``) while it is raw,
            ``"cooked"`` once it is cooked through, or the dish's state.
        event: One of :data:`EVENTS`.
        at: When.
        task: The task that does it.
    """

    dish: str
    food: str
    kind: str
    event: str
    at: dt.datetime
    task: str

    @property
    def of_whole_dish(self) -> bool:
        """Whether it happens to the dish as a whole."""
        return self.food in {"", self.dish}


@dataclass(frozen=True)
class Track:
    """What one food goes through, its own events and those of its dish, in order of time."""

    dish: str
    food: str
    events: tuple[FoodEvent, ...]


def tracks(events: Sequence[FoodEvent]) -> tuple[Track, ...]:
    """Each food of each dish with all that happens to it, and each dish as a whole.

    The dish's events count for a food from the food's own first event on, and do not count while
    the food itself lies in the refrigerator or freezer. Events at the same time keep their order.

    Args:
        events: In any order of time; those at the same minute in the order in which they happen.

    Raises:
        InputFault: With a complaint for each event that is none of :data:`EVENTS`.
    """
    faults = [
        Complaint(
            f"{event.dish}, {event.food}",
            f"unknown event {event.event!r}",
            ", ".join(EVENTS),
            nearest(event.event, EVENTS),
        )
        for event in events
        if event.event not in EVENTS
    ]
    if faults:
        raise InputFault(faults)
    ordered = sorted(events, key=lambda event: event.at)
    return tuple(
        track
        for dish in dict.fromkeys(event.dish for event in events)
        for track in _tracks_of(dish, [event for event in ordered if event.dish == dish])
    )


def _tracks_of(dish: str, events: Sequence[FoodEvent]) -> Iterable[Track]:
    foods = dict.fromkeys(event.food for event in events if not event.of_whole_dish)
    for food in foods:
        yield Track(dish, food, tuple(_joined(food, events)))
    whole = tuple(event for event in events if event.of_whole_dish)
    if whole:
        yield Track(dish, dish, whole)


def _joined(food: str, events: Iterable[FoodEvent]) -> Iterable[FoodEvent]:
    """The food's own events, and the dish's while the food is out with it."""
    out = False
    for event in events:
        if event.food == food:
            out = event.event not in {"refrigerated", "frozen"}
            yield event
        elif event.of_whole_dish and out:
            yield event
