"""What a power cut means for food in a freezer and a refrigerator, by FoodSafety.gov's rule."""

from __future__ import annotations

from typing import Literal

from batchcook.foodsafety.limits import Limit, limit

__all__ = [
    "Fill",
    "freezer_holds",
    "look_words",
    "refrigerator_holds",
    "refrigerator_words",
    "stays_words",
]

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
            "if it is kept shut: what is still frozen in it can stay."
        ),
        (
            f"Check it all the same: a thermometer in the freezer at {_cold()} or below, or ice "
            "crystals in each container. What has neither is judged as if the power had been off "
            f"for longer: above {_cold()} for more than {_too_long()}, or for how long is not "
            "known, throw out."
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
    cold = _cold()
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


def refrigerator_holds(hours: float, *, opened: bool) -> bool:
    """Whether food in a refrigerator can stay without anybody having measured it.

    Args:
        hours: How long the power was off.
        opened: Whether its door was opened meanwhile: then the food may have been warm from the
            beginning, and only the time for which it may be so counts.
    """
    holds = limit("power-cut-too-warm" if opened else "power-cut-refrigerator")
    return hours <= float(holds.quantity.to("hour").magnitude)


def refrigerator_words(hours: float, *, opened: bool) -> tuple[str, ...]:
    """What to do with the food in a refrigerator, a sentence a line.

    Args:
        hours: How long the power was off.
        opened: Whether its door was opened meanwhile.
    """
    holds = _hours(limit("power-cut-refrigerator"))
    if opened:
        why = f"Refrigerator: opened, so the about {holds} hours that it stays cold do not hold."
        most = f"the {_too_long()} for which food may be above {_cold()}"
    else:
        why = f"Refrigerator: kept shut it stays cold for about {holds} hours."
        most = f"those {holds} hours"
    if refrigerator_holds(hours, opened=opened):
        words = f"{why} {hours:g} h is within {most}: what is in it can stay."
        return (f"{words} Check with a thermometer.",)
    return (
        f"{why} {hours:g} h is past {most}.",
        (
            "Throw out all perishable food in it (meat, poultry, fish, eggs, milk, leftovers, what "
            f"was thawing), unless a thermometer shows that it stayed at {_cold()} or below."
        ),
    )


def _hours(found: Limit) -> str:
    return f"{found.quantity.to('hour').magnitude:g}"


def _cold() -> str:
    return f"{limit('power-cut-cold-enough').quantity.magnitude:g} degF"


def _too_long() -> str:
    return f"{_hours(limit('power-cut-too-warm'))} hours"


def _filled(fill: Fill) -> str:
    return "full" if fill == "full" else "half-full"
