"""Amounts that say something, and those that do not."""

from __future__ import annotations

import re

__all__ = ["is_batches"]


def is_batches(amount: str) -> bool:
    """Whether an amount says only how many batches, which the cook knows."""
    return re.fullmatch(r"\d+ batch(es)?|", amount) is not None
