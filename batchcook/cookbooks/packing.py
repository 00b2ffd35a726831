"""From servings to containers."""

from __future__ import annotations

from batchcook.cookbooks.recipe import Recipe
from batchcook.kitchens.containers import load_containers
from batchcook.quantities import Quantity, ureg

__all__ = ["container_count", "dish_volume", "fill_depth", "grams_a_portion", "portions_in"]

_DENSITY = ureg.Quantity(1.03, "kilogram / litre")
"""Soups, stews and sauces; an assumption of ours."""


def container_count(recipe: Recipe, batches: int, eaten: int = 0) -> int:
    """How many containers so many batches fill; the last one may hold fewer portions.

    Args:
        recipe: The recipe.
        batches: How many batches of it are made.
        eaten: Portions that are eaten the same day instead.
    """
    return len(portions_in(recipe, batches, eaten))


def portions_in(recipe: Recipe, batches: int, eaten: int = 0) -> list[int]:
    """The portions in each container, in order; arguments as for :func:`container_count`."""
    total, each = max(1, recipe.servings * batches - eaten), recipe.portions_per_container
    return [min(each, total - done) for done in range(0, total, each)]


def grams_a_portion(recipe: Recipe) -> Quantity:
    """Weight of one portion, from what one batch makes."""
    made = recipe.makes
    weight = made if made.check("[mass]") else made * _DENSITY
    each: Quantity = (weight / recipe.servings).to("gram")
    return each


def dish_volume(recipe: Recipe, batches: int) -> Quantity:
    """Volume of all that so many batches make, in quarts."""
    made = recipe.makes
    volume = made / _DENSITY if made.check("[mass]") else made
    total: Quantity = (volume * batches).to("quart")
    return total


def fill_depth(recipe: Recipe) -> Quantity:
    """How deep the food stands in a full container of the recipe, in inches."""
    container = load_containers()[recipe.container]
    share = dish_volume(recipe, 1) * recipe.portions_per_container / recipe.servings
    filled = min(1.0, float((share / container.capacity).to("dimensionless").magnitude))
    depth: Quantity = (container.fill_depth * filled).to("inch")
    return depth
