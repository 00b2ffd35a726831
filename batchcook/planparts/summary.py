"""A planned day in figures: how long, how sure, and what would change it."""

from __future__ import annotations

from pydantic import Field

from batchcook.planparts.part import Instant, Part

__all__ = ["AtRisk", "Summary", "Sureness", "WhatIf"]


class Summary(Part):
    """The day in figures; minutes throughout.

    Attributes:
        one_after_another_minutes: Each dish alone, unshared, at its own shortest, added up; None
            where that was not found in the time.
        sharing_saved_minutes: Hands-on minutes that sharing saved.
        hands_on_proved: Whether no plan of this length has fewer hands-on minutes.
        hands_on_bound_minutes: No plan that is as short has fewer; None in older plans.
        food_has_time: Whether food was planned to stay clear of its limits, as far as it can; what
            is proved or bounded then holds for days that do so too.
    """

    makespan_minutes: int
    best_bound_minutes: int
    proved_shortest: bool
    one_after_another_minutes: int | None
    hands_on_minutes: int
    hands_on_proved: bool = False
    hands_on_bound_minutes: int | None = None
    hands_on_by_cook: dict[str, int] = Field(default_factory=dict)
    sharing_saved_minutes: int = 0
    food_has_time: bool = False


class AtRisk(Part):
    """A food that is out too long on a share of days (0 to 1), in words."""

    dish: str
    words: str
    share: float


class Sureness(Part):
    """By when the day is over, where work takes now longer, now shorter than planned.

    Attributes:
        half: Done by then in half of all days, to the next five minutes.
        nine_of_ten: Done by then in nine of ten.
        at_risk: Food whose limit breaks on one day of a hundred or more, the most often first.
    """

    half: Instant
    nine_of_ten: Instant
    at_risk: tuple[AtRisk, ...] = ()


class WhatIf(Part):
    """The day again with a change in the kitchen.

    ``minutes`` is by how much the day grows (less than 0: shrinks), or None where it could not be
    done at all; ``proved`` says whether both days are known to be the shortest, or that the changed
    one cannot be done. Where neither a plan nor that proof was found, ``minutes`` is None.
    """

    change: str
    minutes: int | None
    proved: bool
