"""How sure the finish is, said to the cook; the same words on paper and screen."""

from __future__ import annotations

from batchcook.plan import AtRisk, Sureness

__all__ = ["risk_words", "sure_words"]


def sure_words(sure: Sureness) -> str:
    """``done by 14:10 in half of all days, by 14:55 in nine of ten``."""
    if sure.half == sure.nine_of_ten:
        return f"done by {sure.half:%H:%M} in nine of ten days"
    return (
        f"done by {sure.half:%H:%M} in half of all days, by {sure.nine_of_ten:%H:%M} in nine of ten"
    )


def risk_words(risk: AtRisk) -> str:
    """The food, what would go wrong, and on how many days."""
    days = round(100 * risk.share)
    return f"{risk.words} on {days} {'day' if days == 1 else 'days'} of 100"
