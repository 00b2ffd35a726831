"""The stock as plain values: rows for the terminal, and the same for a script."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from batchcook.freezer.containerwords import THAWED
from batchcook.freezer.outage import Outage
from batchcook.freezer.standing import Standing
from batchcook.freezer.stock import Rating
from batchcook.wording import day

__all__ = ["as_data", "outage_as_data", "state_words"]


def as_data(
    listed: Iterable[Standing], codes: Mapping[str, str], ratings: Mapping[str, Rating]
) -> list[dict[str, object]]:
    """One mapping a container, for JSON."""
    return [
        {
            "code": codes.get(each.stored.key, each.stored.key),
            "key": each.stored.key,
            "dish": each.stored.dish,
            "title": each.stored.title,
            "portions": each.stored.portions,
            "main": each.stored.main,
            "place": each.stored.place,
            "state": each.state,
            "until": each.until.isoformat() if each.until else None,
            "packed_on": each.stored.packed_on.isoformat(),
            "best_by": each.stored.best_by.isoformat(),
            "use_by": each.stored.use_by.isoformat(),
            "eat_by": each.stored.eat_by.isoformat() if each.stored.eat_by else None,
            "last_day": each.stored.last_day.isoformat() if each.stored.last_day else None,
            "raw": each.stored.raw,
            "cook_to_degF": each.stored.cook_to_fahrenheit if each.stored.raw else None,
            "verdict": ratings[each.stored.dish].verdict if each.stored.dish in ratings else None,
        }
        for each in listed
    ]


def outage_as_data(said: Outage, codes: Mapping[str, str]) -> dict[str, object]:
    """A power cut's outcome, for JSON."""
    return {
        "hours": said.hours,
        "holds_hours": said.holds_hours,
        "cold": said.cold,
        "advice": list(said.advice),
        "look_at": [codes[each.stored.key] for each in said.look_at],
        "refrigerator_cold": said.refrigerator_cold,
        "refrigerator_advice": list(said.refrigerator_advice),
        "in_refrigerator": [codes[each.stored.key] for each in said.in_refrigerator],
        "source": said.source,
    }


def state_words(each: Standing) -> str:
    """A state as a list shows it, with the date of what thaws."""
    word = "cook" if each.stored.raw else "eat"
    if each.until is None or each.state not in {"thawing", "last days"}:
        return each.state
    if each.stored.thawed_by != "refrigerator":
        return f"{THAWED[each.stored.thawed_by]}: {word} at once"
    if each.state == "last days":
        return f"{word} today, last day {day(each.until)}"
    return f"thawing, {word} by {day(each.until)}"
