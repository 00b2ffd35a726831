"""The shopping list of a plan as packs to take, less what is at hand, each with its day."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from batchcook.buying.athand import AtHand
from batchcook.buying.fruit import with_fruit_once
from batchcook.buying.packaging import ContainersNeeded, containers_needed
from batchcook.buying.packs import Choice, choice_words, choose, sizes
from batchcook.buying.pantry import Pantry
from batchcook.buying.purchase import Purchase
from batchcook.foods import Food, describe, load_foods
from batchcook.foodsafety.kinds import KEEPS_IN_THE_CUPBOARD, KEEPS_UNOPENED
from batchcook.foodsafety.purchasewindows import purchase_window
from batchcook.plan import Plan, ShoppingLine
from batchcook.quantities import say, ureg

__all__ = ["ShoppingList", "keeps_at_home", "shopping_list"]

_KEEPS: Final = (KEEPS_IN_THE_CUPBOARD - {"produce", "bread"}) | KEEPS_UNOPENED | {"frozen"}
"""Kinds of which one purchase serves the prep day and the nights after it."""

_HARD_CHEESE: Final = frozenset({"cheddar", "parmesan"})
"""Keeps for months unopened in the refrigerator (FoodSafety.gov, FoodKeeper; from memory)."""

_WORTH_TELLING: Final = 0.02
"""Less than a fiftieth of the need missing or left over is nothing."""

_HALF_AN_OUNCE: Final = 14.0
"""Grams; less than that left over is not told either."""


@dataclass(frozen=True)
class ShoppingList:
    """What a plan needs.

    Attributes:
        purchases: Every food, in the order of the plan's own list.
        containers: Tubs, bags and pans, by kind.
        currency: Stands before an amount of money.
    """

    purchases: tuple[Purchase, ...]
    containers: tuple[ContainersNeeded, ...]
    currency: str = "$"

    @property
    def lines(self) -> tuple[ShoppingLine, ...]:
        """What is bought."""
        return tuple(each.line for each in self.purchases if each.missing > 0)

    @property
    def at_home(self) -> tuple[ShoppingLine, ...]:
        """What is at hand in full."""
        return tuple(each.line for each in self.purchases if each.missing <= 0)

    @property
    def cost(self) -> float | None:
        """The known costs added up; None where none is known."""
        known = [line.cost for line in self.lines if line.cost is not None]
        return sum(known) if known else None

    @property
    def unpriced(self) -> int:
        """How many lines have no cost."""
        return sum(line.cost is None for line in self.lines)


def keeps_at_home(food: str) -> bool:
    """Whether a food for the nights may be bought at any time before, rather than fresh."""
    known = load_foods().get(food)
    return known is not None and (known.kind in _KEEPS or food in _HARD_CHEESE)


def shopping_list(plan: Plan, pantry: Pantry | None = None) -> ShoppingList:
    """What to buy for a plan.

    Args:
        plan: The prep day.
        pantry: What is at hand and what things cost; nothing where it is left out.
    """
    larder = pantry or Pantry()
    left = AtHand(larder.foods)
    found = [
        _purchase(line, plan, larder, left) for line in _with_nights_of_what_keeps(plan.shopping)
    ]
    return ShoppingList(
        purchases=with_fruit_once(found),
        containers=containers_needed(plan.containers, larder.containers),
        currency=larder.currency,
    )


def _with_nights_of_what_keeps(lines: Sequence[ShoppingLine]) -> list[ShoppingLine]:
    """Lines of food that keeps, the nights' share added to that of the prep day."""
    foods = load_foods()
    joined: dict[tuple[str, bool], ShoppingLine] = {}
    for line in lines:
        keeps = line.food in foods and foods[line.food].kind in _KEEPS
        first = joined.get((line.food, False)) if line.later and keeps else None
        if first is None:
            joined[line.food, line.later] = line
            continue
        joined[line.food, False] = first.model_copy(
            update={
                "grams": first.grams + line.grams,
                "amount": f"{first.amount}, and {line.amount} for the nights",
                "dishes": tuple(dict.fromkeys((*first.dishes, *line.dishes))),
            }
        )
    return list(joined.values())


def _purchase(line: ShoppingLine, plan: Plan, pantry: Pantry, left: AtHand) -> Purchase:
    """One line with its packs; what is taken from the pantry is gone from ``left``."""
    food = load_foods().get(line.food)
    if food is None:
        return Purchase(line, line.grams)
    used = left.take(food, float(line.grams), later=line.later)
    missing = line.grams - used
    if missing < line.grams * _WORTH_TELLING:
        missing = 0.0
    told = {"on_hand": _words(food, used, plan.system)} if used else {}
    if line.later and food.kind not in _KEEPS:
        return Purchase(line.model_copy(update=told), missing)
    prices = pantry.prices.get(line.food, {})
    sold = sizes(line.food, plan.system)
    choice = choose(missing, sold, prices)
    update = {
        **told,
        "purchase": choice_words(line.food, choice, plan.system),
        "leftover": _leftover(food, choice, missing, plan.system),
        "cost": choice.cost(prices) if choice.counts else None,
        **({} if line.later or not missing else _day(food, line, plan.date)),
    }
    return Purchase(line.model_copy(update=update), missing, choice, sold, line.food)


def _leftover(food: Food, choice: Choice, missing: float, system: str) -> str:
    """What is left of the packs; what a jar of a spice holds is too uncertain to tell."""
    over = choice.grams - missing
    packed = any(not size.loose for size in choice.counts)
    if not packed or food.kind == "spice" or over < max(missing * _WORTH_TELLING, _HALF_AN_OUNCE):
        return ""
    return _words(food, over, system)


def _day(food: Food, line: ShoppingLine, prep_day: dt.date) -> dict[str, object]:
    """The first day on which it may be bought, and what else there is to say of the day."""
    window = purchase_window(food.kind)
    if window is None:
        return {}
    first, better = (prep_day - dt.timedelta(days) for days in reversed(window.days))
    words = [line.when, f"better from {_date(better)}" if better > first else ""]
    if window.cut_up:
        cut_up = prep_day - dt.timedelta(window.cut_up[1])
        words.append(f"ready cut up, not before {_date(cut_up)}")
    return {"buy_from": first, "when": "; ".join(each for each in words if each)}


def _date(day: dt.date) -> str:
    return f"{day:%a} {day.day} {day:%b}"


def _words(food: Food, purchased: float, system: str) -> str:
    """An amount as purchased: by volume what is poured, in pieces what is counted, else weighed."""
    grams = ureg.Quantity(purchased, "gram")
    if food.liquid:
        return describe(food, grams, None, system, named=False)
    if food.shop == "count":
        unit = next(each for each in food.measures if each.unit in {"each", "large"})
        one = float(food.as_purchased(unit.weight).to("gram").magnitude)
        return f"about {say(ureg.Quantity(max(1, round(purchased / one)), unit.unit), system)}"
    return say(grams, system)
