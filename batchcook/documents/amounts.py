"""The amounts that close a task's words, as lines of their own."""

from __future__ import annotations

import re

__all__ = ["is_batches", "split_amounts"]


def split_amounts(words: str) -> tuple[str, tuple[str, ...]]:
    """The words, and the amounts of the bracket that closes them: ``Stir. (1 tsp salt; 2 eggs)``.

    Amounts may have brackets of their own: ``(3 cups (480 g) onions)``.
    """
    if not words.endswith(")"):
        return words, ()
    depth = 0
    for place in range(len(words) - 1, -1, -1):
        depth += {")": 1, "(": -1}.get(words[place], 0)
        if depth == 0:
            amounts = tuple(each.strip() for each in words[place + 1 : -1].split(";"))
            return words[:place].rstrip(), amounts
    return words, ()


def is_batches(amount: str) -> bool:
    """Whether an amount says only how many batches, which the cook knows."""
    return re.fullmatch(r"\d+ batch(es)?|", amount) is not None
