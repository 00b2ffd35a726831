"""What is wrong with a plan, read off ``plan.json`` alone, minute by minute.

Written from the promise that a plan makes, not from the program: plain Python over the JSON, with
own copies of the published storage times and own figures for the limits. It shares no code with
the package, so that a rule forgotten there is missed here.
"""

from __future__ import annotations

from oracle_of_food import clock, events, freezing, raw_boards, raw_hands, straight_on
from oracle_of_labels import containers, dates
from oracle_of_times import (
    capacities,
    cooks,
    frame,
    lags,
    names,
    on_the_heat,
    runs,
    settings,
    summary,
    times,
)
from oracle_reading import Plan

__all__ = ["RULES", "breaches"]

_OUT_OF_COLD = 120

RULES = {
    "times": times,
    "capacities": capacities,
    "cooks": cooks,
    "lags": lags,
    "settings": settings,
    "events": events,
    "freezing": freezing,
    "straight-on": straight_on,
    "raw boards": raw_boards,
    "raw hands": raw_hands,
    "on the heat": on_the_heat,
    "frame": frame,
    "runs": runs,
    "dates": dates,
    "containers": containers,
    "summary": summary,
}
"""Every rule but ``names``, which the others rest on, and ``clock``, which needs a limit."""


def breaches(plan: Plan, minutes_out: int = _OUT_OF_COLD) -> list[str]:
    """Everything that is wrong with a plan, each with the name of its rule in front.

    Args:
        plan: The parsed ``plan.json``.
        minutes_out: How long food may be between 40 and 140 degF in all; 60 in a hot room.
    """
    found = [f"names: {each}" for each in names(plan)]
    if found:
        return found
    found = [f"clock: {each}" for each in clock(plan, minutes_out)]
    return found + [f"{name}: {each}" for name, rule in RULES.items() for each in rule(plan)]
