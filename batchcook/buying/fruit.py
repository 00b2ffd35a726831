"""Juice and zest come from the same fruit, which is bought once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from batchcook.buying.packs import Choice, Size, choice_words
from batchcook.buying.purchase import Purchase
from batchcook.foods import load_foods

__all__ = ["with_fruit_once"]

_PIECE = Size("each", 1.0, loose=True)
"""Fruit is counted, so that what is wanted for juice and what for zest can be compared."""


def with_fruit_once(found: Sequence[Purchase]) -> tuple[Purchase, ...]:
    """The lines with those for juice and zest of a fruit made one, in the place of the first.

    The fruit to buy is what the hungrier of the two wants, and besides it what is eaten whole.

    Args:
        found: The lines, each with its packs.
    """
    lines: dict[tuple[str, bool], list[Purchase]] = {}
    for each in found:
        lines.setdefault((_fruit(each), each.line.later), []).append(each)
    return tuple(
        _one(name, same) if any(each.line.food != name for each in same) else _counted(same[0])
        for (name, _), same in lines.items()
    )


def _counted(purchase: Purchase) -> Purchase:
    """A fruit that is eaten whole, in pieces too, so that lists with and without juice compare."""
    juicy = {each.bought_as[0] for each in load_foods().values() if each.bought_as}
    if purchase.line.food not in juicy or purchase.choice is None:
        return purchase
    pieces = purchase.choice.pieces
    choice = Choice({_PIECE: pieces} if pieces else {})
    return replace(purchase, missing=float(pieces), choice=choice, sold=(_PIECE,))


def _fruit(purchase: Purchase) -> str:
    """What is bought for a line: the fruit, or the food itself where no packs are worked out."""
    food = load_foods().get(purchase.line.food)
    if food is None or food.bought_as is None or purchase.choice is None:
        return purchase.line.food
    return food.bought_as[0]


def _one(fruit: str, same: Sequence[Purchase]) -> Purchase:
    """One line for all that is had of a fruit."""
    whole = [each for each in same if each.line.food == fruit]
    parts = [each for each in same if each.line.food != fruit]
    most = max(parts, key=_pieces)
    pieces = sum(map(_pieces, whole)) + _pieces(most)
    choice = Choice({_PIECE: pieces} if pieces else {})
    costs = [each.line.cost for each in (*whole, most) if _pieces(each)]
    known = [cost for cost in costs if cost is not None]
    line = most.line.model_copy(
        update={
            "food": fruit,
            "grams": sum(each.line.grams for each in same),
            "amount": "; ".join(_said(each) for each in same),
            "dishes": tuple(dict.fromkeys(dish for each in same for dish in each.line.dishes)),
            "purchase": choice_words(most.line.food, choice, "us"),
            "on_hand": next((each.line.on_hand for each in same if each.line.on_hand), ""),
            "cost": sum(known) if known and len(known) == len(costs) else None,
        }
    )
    return replace(most, line=line, missing=float(pieces), choice=choice, sold=(_PIECE,))


def _said(purchase: Purchase) -> str:
    return f"{purchase.line.amount} {purchase.line.food}"


def _pieces(purchase: Purchase) -> int:
    return purchase.choice.pieces if purchase.choice else 0
