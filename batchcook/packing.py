"""From servings to containers."""

from __future__ import annotations

import math

from batchcook.recipe import Recipe

__all__ = ["container_count", "portions_in"]


def container_count(recipe: Recipe, batches: int) -> int:
    """How many containers so many batches fill; the last one may hold fewer portions."""
    return math.ceil(recipe.servings * batches / recipe.portions_per_container)


def portions_in(recipe: Recipe, batches: int) -> list[int]:
    """The portions in each container, in order."""
    total, each = recipe.servings * batches, recipe.portions_per_container
    return [min(each, total - done) for done in range(0, total, each)]
