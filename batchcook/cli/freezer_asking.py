"""Asking at the terminal what really got made."""

from __future__ import annotations

from collections.abc import Iterable

import typer

from batchcook.complaints import Complaint, InputFault
from batchcook.freezer.packing import DishMade
from batchcook.wholenumbers import whole_number

__all__ = ["ask_made", "counts_of"]


def counts_of(words: Iterable[str]) -> dict[str, int]:
    """``cottage-pie=5`` as dish and number.

    Raises:
        InputFault: With a complaint for each word that is not of that form.
    """
    counts: dict[str, int] = {}
    faults = []
    for word in words:
        dish, _, written = word.partition("=")
        number = whole_number(written)
        if dish and number is not None:
            counts[dish] = number
        else:
            faults.append(
                Complaint(
                    "--made", f"{word!r} cannot be read", "a dish and a number: cottage-pie=5"
                )
            )
    if faults:
        raise InputFault(faults)
    return counts


def ask_made(dishes: Iterable[DishMade]) -> dict[str, int]:
    """How many of each got made, as the cook answers; the planned number on a plain return."""
    return {
        each.dish: typer.prompt(
            f"{each.title}: {each.planned} x {each.holds} planned. How many got made?",
            default=each.planned,
            type=int,
        )
        for each in dishes
    }
