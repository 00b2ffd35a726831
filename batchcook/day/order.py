"""What a plan was made from, so that the rest of its day can be planned anew from it alone."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from batchcook.complaints import Complaint, InputFault
from batchcook.cookbooks.recipe import Recipe
from batchcook.day.prepday import PrepDay
from batchcook.day.workday import dishes_of
from batchcook.dishwork.draft import Dish
from batchcook.planparts.changed import Order
from batchcook.plans.plainform import as_plain, from_plain

__all__ = ["order_of", "ordered", "unread_order"]


def order_of(day: PrepDay, dishes: Sequence[Dish], choices: Mapping[str, str]) -> Order:
    """The day, its recipes and the choices that its plan took, as data.

    Args:
        day: What was ordered, when, in whose kitchen.
        dishes: Its dishes.
        choices: From the plan's schedule: each choice with the option taken.
    """
    recipes: tuple[dict[str, Any], ...] = tuple(as_plain(dish.recipe) for dish in dishes)
    return Order(day=as_plain(day), recipes=recipes, choices=dict(choices))


def ordered(order: Order) -> tuple[PrepDay, tuple[Dish, ...]]:
    """The day and its dishes, as they were when it was planned.

    Raises:
        InputFault: The data is of another shape: changed by hand, or of another version.
    """
    try:
        day = from_plain(PrepDay, order.day)
        recipes = [from_plain(Recipe, each) for each in order.recipes]
        return day, dishes_of(day, recipes)
    except (ValueError, TypeError, LookupError, AttributeError) as fault:
        raise InputFault(unread_order(fault)) from None


def unread_order(fault: Exception) -> Complaint:
    """What to say of an order of which no day can be made."""
    what = f"carries an order that cannot be read ({fault})"
    return Complaint("plan.json, order", what, "one as it was written by this version")
