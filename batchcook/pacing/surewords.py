"""How sure the finish is, said to the cook; the same words on paper and screen."""

from __future__ import annotations

from typing import Final

from batchcook.pacing.spreads import pad_of
from batchcook.plan import AtRisk, Plan, Sureness

__all__ = [
    "OUT_TOO_LONG",
    "often_lost_lines",
    "risk_words",
    "sure_lines",
    "sure_words",
    "watch_lines",
]

_OFTEN: Final = 0.2
"""Share of days from which on a plan leads with its risk: one day in five, a choice of ours."""

OUT_TOO_LONG = "out too long"
"""What is said of food that is out of the refrigerator longer than it may be."""


def sure_words(sure: Sureness) -> str:
    """``done by 14:10 in half of all days, by 14:55 in nine of ten``."""
    if sure.half == sure.nine_of_ten:
        return f"done by {sure.half:%H:%M} in nine of ten days"
    return (
        f"done by {sure.half:%H:%M} in half of all days, by {sure.nine_of_ten:%H:%M} in nine of ten"
    )


def sure_lines(plan: Plan) -> tuple[str, ...]:
    """By when the day is over on most days, what is planned to spare, and food to watch."""
    lines = []
    if plan.sure is not None:
        said = sure_words(plan.sure)
        lines.append(f"{said[0].upper()}{said[1:]}.")
    if pad_of(plan):
        lines.append(f"All work by hand is planned {pad_of(plan)} % longer, to have time to spare.")
    if plan.sure is not None:
        lines += watch_lines(plan.sure)
    return tuple(lines)


def risk_words(risk: AtRisk) -> str:
    """The food, what would go wrong, and on how many days."""
    days = round(100 * risk.share)
    return f"{risk.words} on {days} {'day' if days == 1 else 'days'} of 100"


def often_lost_lines(plan: Plan) -> tuple[str, ...]:
    """What leads a plan on which food is often out too long, and what would help; else nothing."""
    often = [each for each in plan.sure.at_risk if each.share >= _OFTEN] if plan.sure else []
    if not often:
        return ()
    at_risk = {each.dish for each in often}
    larger = [each.title for each in plan.dishes if each.id in at_risk and each.batches > 1]
    helps = [f"a batch less of {' and of '.join(larger)}"] if larger else []
    helps += ["a dish less on the day"] if len(plan.dishes) > 1 else []
    helps.append("one more cook, or quicker cooling (another ice bath, shallower containers)")
    return (
        f"Food would often be lost on this day: {'; '.join(map(risk_words, often))}.",
        f"What would help: {', '.join(helps)}. Change it and plan again before you shop.",
    )


def watch_lines(sure: Sureness) -> tuple[str, ...]:
    """Which food to watch, a sentence each, and what keeps it safe on a day that runs late."""
    lines = [f"Watch {risk_words(each)}." for each in sure.at_risk]
    if any(each.words.endswith(OUT_TOO_LONG) for each in sure.at_risk):
        lines.append(
            "If you run late, what is cut or mixed waits in the refrigerator: the time it may be "
            "out stands still there."
        )
    return tuple(lines)
