"""What is free of one resource while a schedule is read in order of time, and from whom."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

__all__ = ["Piece", "Supply"]


@dataclass(frozen=True)
class Piece:
    """An amount of a resource that can be handed on.

    Attributes:
        free: The minute from which it is free in the schedule.
        amount: How much it is.
        after: The step whose end sets it free; None where it was free from the outset.
        floor: Whoever takes it starts no earlier than this, since it was away until then.
        holders: The steps that held it, or may have, from the outset.
    """

    free: int
    amount: int
    after: str | None = None
    floor: int = 0
    holders: frozenset[str] = frozenset()


class Supply:
    """The free pieces of one resource."""

    def __init__(self, resource: str, capacity: int) -> None:
        """Start with all of it free."""
        self._resource = resource
        self._pieces = [Piece(0, capacity)]

    def give(self, piece: Piece) -> None:
        """Add a piece that is free from some minute on."""
        self._pieces.append(piece)

    def take(self, minute: int, amount: int, is_sure: Callable[[Piece], bool]) -> list[Piece]:
        """Take an amount at a minute.

        Pieces that cost no new arc come first, those set free by a step before those free from
        the outset, which serve anyone; then what has been free for the longest, since its step
        may last that much longer without delaying the taker.

        Raises:
            ValueError: Less is free.
        """
        ranked = sorted(
            (place for place, piece in enumerate(self._pieces) if piece.free <= minute),
            key=lambda place: self._cost(self._pieces[place], is_sure),
        )
        taken: list[Piece] = []
        for place in ranked:
            piece = self._pieces[place]
            part = min(piece.amount, amount)
            if part == 0:
                continue
            taken.append(replace(piece, amount=part))
            self._pieces[place] = replace(piece, amount=piece.amount - part)
            amount -= part
        self._pieces = [piece for piece in self._pieces if piece.amount > 0]
        if amount > 0:
            raise ValueError(f"minute {minute}: {amount} of {self._resource} too much is in use")
        return taken

    @staticmethod
    def _cost(piece: Piece, is_sure: Callable[[Piece], bool]) -> tuple[bool, bool, int, int]:
        return not is_sure(piece), piece.after is None, piece.floor, piece.free
