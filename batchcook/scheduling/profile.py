"""How much of a resource is free at each minute."""

from __future__ import annotations

from batchcook.scheduling.problem import Absence

__all__ = ["Profile"]


class Profile:
    """The free amount of a resource, minute by minute, as uses come and go."""

    def __init__(self, capacity: int, absences: list[Absence], horizon: int) -> None:
        """Start with all but what is missing."""
        self._capacity = capacity
        self._free = [capacity] * horizon
        for absence in absences:
            self.take(absence.start, min(absence.end, horizon), absence.amount)

    def take(self, start: int, end: int, amount: int) -> None:
        """Use an amount in [start, end); a negative amount gives it back."""
        for minute in range(start, min(end, len(self._free))):
            self._free[minute] -= amount

    def least(self, start: int, end: int) -> int:
        """What is free all through [start, end); all of it where that is empty."""
        return min(self._free[start:end], default=self._capacity)

    def retry(self, start: int, end: int, amount: int) -> int | None:
        """None if an amount is free all through [start, end), else the next start to try."""
        if start >= end or self.least(start, end) >= amount:
            return None
        free = self._free
        minute = min(end, len(free)) - 1
        while free[minute] >= amount:
            minute -= 1
        return minute + 1
