"""What to do now with food that cannot go on as planned: keep it hot, put it away, throw it out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime

from batchcook.foodsafety.clock import minutes_out
from batchcook.foodsafety.events import FoodEvent
from batchcook.foodsafety.kinds import RAW_MEAT
from batchcook.foodsafety.limits import STRAIGHT_ON_MINUTES, time_out_limit
from batchcook.quantities import Quantity

__all__ = ["what_to_do"]


def what_to_do(
    events: Sequence[FoodEvent],
    now: datetime,
    room: Quantity,
    titles: Mapping[str, str],
    dishes: Iterable[str] | None = None,
) -> tuple[str, ...]:
    """An instruction for each food that is not cold.

    Args:
        events: What happens to each food; what is after ``now`` is left out.
        now: The minute.
        room: How warm the kitchen is.
        titles: Dish id to its title.
        dishes: The dishes to tell of; all where None.
    """
    past = [event for event in events if event.at <= now]
    allowed = time_out_limit(room)
    found: dict[str, None] = {}
    for dish in titles if dishes is None else dishes:
        last = {event.food: event for event in past if event.dish == dish}
        for food, event in last.items():
            track = [each for each in past if each.dish == dish and each.food == food]
            words = _instruction(track, event, now, allowed)
            if words:
                found[f"{titles[dish]}, {food}: {words}"] = None
    return tuple(found)


def _instruction(track: list[FoodEvent], last: FoodEvent, now: datetime, allowed: int) -> str:
    """What to do with one food, by the last thing that happened to it."""
    if last.event in {"refrigerated", "frozen"}:
        return ""
    if last.event in {"on-heat", "held-hot"}:
        return "keep it hot, at 140 degF or above, until its next step can begin"
    ended = FoodEvent(last.dish, last.food, last.kind, "refrigerated", now, last.task)
    left = allowed - minutes_out([*track, ended])[last.dish, last.food]
    if left < 0:
        return "it was out too long; throw it out, neither reheating nor freezing makes it safe"
    if last.event == "off-heat" and last.kind in RAW_MEAT:
        waited = int((now - last.at).total_seconds() // 60)
        if waited > STRAIGHT_ON_MINUTES:
            return "browned but not cooked through, and left too long; throw it out"
        return "cook it through now; meat that is only browned is not kept for later"
    return f"into the refrigerator now, within {left} min, or throw it out"
