"""What is said of a container as it is put in, thawed and frozen again."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from batchcook.foodsafety.thawing import may_refreeze
from batchcook.freezer.containerwords import THAWED, cook_words, raw_words
from batchcook.freezer.stock import Stored
from batchcook.wording import day, degrees

__all__ = ["added_words", "refrozen_words", "thawing_words"]


def added_words(details: Mapping[str, Any]) -> str:
    """What else to write on the label of something that no plan made.

    Args:
        details: What the journal keeps of it.
    """
    days = details["thaw_days"]
    thaw = f"to the refrigerator {_days(days)} before" if days else "heat it from frozen"
    raw = ""
    if details["state"] == "raw-kit":
        raw = degrees(cook_words(details["cook_to_fahrenheit"], details["rest_minutes"])) + "; "
    return f"And: {raw}{thaw}."


def thawing_words(stored: Stored) -> str:
    """Until when to eat, or if raw to cook, what was taken out of the freezer."""
    word = "cook" if stored.raw else "eat"
    name = f"{stored.code} {stored.title}"
    if stored.thawed_by != "refrigerator" or stored.eat_by is None:
        how = f"{THAWED[stored.thawed_by]}, {word} it at once"
    else:
        how = f"in the refrigerator, {word} by {day(stored.eat_by)}"
    return f"{name}: {how}.{_raw_too(stored)}"


def refrozen_words(stored: Stored) -> str:
    """How long it keeps after the next thaw, and what its quality is."""
    left = stored.keeps_thawed_days
    word = "cook" if stored.raw else "eat"
    keeps = (
        f"once thawed it then keeps {_days(left)}"
        if left
        else f"{word} it on the day on which it is thawed"
    )
    return (
        f"{stored.code} {stored.title}: in the freezer again. Write on its label: {keeps}. "
        f"{may_refreeze('refrigerator').words}.{_raw_too(stored)}"
    )


def _raw_too(stored: Stored) -> str:
    return f" {raw_words(stored)}." if stored.raw else ""


def _days(number: int) -> str:
    return f"{number} day{'' if number == 1 else 's'}"
