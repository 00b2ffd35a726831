"""Lengths of time as a cook says them."""

from __future__ import annotations

__all__ = ["hours"]


def hours(minutes: int) -> str:
    """Minutes as ``7 h 05 min``, or ``35 min``."""
    whole, rest = divmod(minutes, 60)
    return f"{whole} h {rest:02} min" if whole else f"{rest} min"
