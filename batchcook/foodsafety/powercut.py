"""What a power cut means for food in a freezer and a refrigerator, by FoodSafety.gov's rule."""

from __future__ import annotations

from typing import Literal

from batchcook.foodsafety.limits import Limit, limit

__all__ = ["Fill", "freezer_holds", "look_words", "refrigerator_words", "stays_words"]

Fill = Literal["full", "half"]
"""How full a freezer is; what is less than full counts as half."""


def freezer_holds(fill: Fill) -> Limit:
    """How long a freezer so full stays cold, unopened."""
    return limit("power-cut-full" if fill == "full" else "power-cut-half-full")


def stays_words(fill: Fill) -> tuple[str, ...]:
    """What to do where the power was back in time, a sentence a line."""
    return (
        (
            f"A {_filled(fill)} freezer stays cold for about {_hours(freezer_holds(fill))} hours "
            "if it is kept shut: everything in it can stay."
        ),
        "Keep the door shut until the power has been back for some hours.",
    )


def look_words(hours: float, fill: Fill, *, opened: bool) -> tuple[str, ...]:
    """What to do where it was not, or the door was opened, a sentence a line.

    Args:
        hours: How long the power was off.
        fill: How full the freezer was.
        opened: Whether the door was opened meanwhile.
    """
    why = (
        "The door was opened, so the hours cannot be gone by."
        if opened
        else f"{hours:g} hours are longer than the {_hours(freezer_holds(fill))} hours that a "
        f"{_filled(fill)} freezer stays cold."
    )
    cold = f"{limit('power-cut-cold-enough').quantity.magnitude:g} degF"
    return (
        f"{why} Look at each container, with a thermometer.",
        (
            f"Ice crystals in it still, or {cold} or below: it may be frozen again, with some loss "
            "of quality, or cooked at once."
        ),
        f"Above {cold} for more than {_too_long()}: throw out.",
        "For how long is not known: throw out.",
        "Never taste it to find out.",
    )


def refrigerator_words() -> str:
    """What holds for a refrigerator."""
    cold = f"{limit('power-cut-cold-enough').quantity.magnitude:g} degF"
    return (
        "A refrigerator kept shut stays cold for about "
        f"{_hours(limit('power-cut-refrigerator'))} hours; after that, what was above {cold} for "
        f"more than {_too_long()} is thrown out."
    )


def _hours(found: Limit) -> str:
    return f"{found.quantity.to('hour').magnitude:g}"


def _too_long() -> str:
    return f"{_hours(limit('power-cut-too-warm'))} hours"


def _filled(fill: Fill) -> str:
    return "full" if fill == "full" else "half-full"
