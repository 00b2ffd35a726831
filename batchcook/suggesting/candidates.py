"""What a prep day is weighed by, and a day so weighed.

Everything is weighed in minutes of the prep day: what a household would rather work longer for
than go without. The weights are ours; there is no source for them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

__all__ = [
    "CHANGE",
    "KEEP",
    "LEFT_OVER",
    "OPEN_NIGHT",
    "SAME_DISH",
    "SAME_MAIN",
    "Candidate",
    "Scheduled",
    "fair_share",
]

OPEN_NIGHT: Final = 2000
"""More than any day in the kitchen: a night is never left open to save work."""
KEEP: Final = -30
"""A dish that the household wants to keep."""
CHANGE: Final = 30
"""One that it wants changed."""
SAME_DISH: Final = 40
"""Each night with a dish after its second."""
SAME_MAIN: Final = 25
"""Each night with a main ingredient over its fair share of the nights."""
LEFT_OVER: Final = 5
"""Each portion thawed that nobody at the table eats."""


@dataclass(frozen=True)
class Candidate:
    """An order for the prep day with the night that each dinner is for.

    Attributes:
        orders: Recipe id to batches.
        dinners: Number of the night, among all nights, to recipe id.
        uncovered: Numbers of the nights that stay open.
        cost: All that is weighed but the length of the day, in minutes.
        work: Minutes of hands-on work, each dish by itself.
    """

    orders: Mapping[str, int]
    dinners: Mapping[int, str] = field(default_factory=dict)
    uncovered: tuple[int, ...] = ()
    cost: int = 0
    work: int = 0


@dataclass(frozen=True)
class Scheduled:
    """A candidate whose day was really scheduled.

    Attributes:
        candidate: The order.
        minutes: The length of its day.
        bound: No day of it is known to be shorter than this.
    """

    candidate: Candidate
    minutes: int
    bound: int

    @property
    def worth(self) -> int:
        """What it costs in all, in minutes: small is good."""
        return self.candidate.cost + self.minutes


def fair_share(nights: int) -> int:
    """Nights that one main ingredient may have before it counts against a choice."""
    return max(2, -(-nights // 3))
