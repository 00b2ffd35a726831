"""What the bowls and cups of a prep day are called, and which ingredient waits in which.

What goes into the pot at one time waits in one bowl, what goes in later in another: onions and
garlic are softened one after the other, potatoes for the top never lie among the filling's carrots.
Common practice of a kitchen that sets its ingredients out before it cooks; no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from batchcook.cookbooks.recipe import Ingredient, Recipe, Step
from batchcook.foods import load_foods

__all__ = ["SCORCHES", "bowl_names", "containers_of"]

SCORCHES = frozenset({"garlic", "ginger root"})
"""Vegetables that go in for the last minute, or they burn: common practice, no source."""

_JOINING = frozenset({"and", "in", "of", "with"})
_ACCOMPANIED = frozenset({"in", "on", "over", "with"})


def bowl_names(recipes: Iterable[Recipe]) -> dict[str, str]:
    """A short bowl name for each recipe id, from its title, no two alike."""
    words = {recipe.id: _words(recipe) for recipe in recipes}
    return {
        recipe: f"{_short(own, [each for other, each in words.items() if other != recipe])} bowl"
        for recipe, own in words.items()
    }


def _short(own: Sequence[str], others: Sequence[Sequence[str]]) -> str:
    """The last word of a title, or with one before it, where no other title can be meant."""
    alike = [other for other in others if other[-1] == own[-1]]
    if not alike:
        return own[-1]
    telling = (word for word in own[:-1] if not any(word in other for other in alike))
    first = next((word for word in telling if word not in _JOINING), None)
    return " ".join(own) if first is None else f"{first} {own[-1]}"


def _words(recipe: Recipe) -> list[str]:
    """The words of a title that name the dish, not what it comes in."""
    words = recipe.title.lower().replace("-", " ").split()
    ends = next((place for place, word in enumerate(words) if place and word in _ACCOMPANIED), None)
    return words[:ends]


def containers_of(
    bowl: str, steps: Sequence[Step], recipe: Recipe, kind: str, waits: Mapping[str, float]
) -> dict[str, str]:
    """The bowl or cup in which each ingredient waits that is made ready ahead.

    Args:
        bowl: What the dish's bowls are called, such as "stew bowl".
        steps: Its steps in their order.
        recipe: The recipe.
        kind: What they wait in, "bowl" or "cup".
        waits: Names of the ingredients that wait in such a thing, with their weights in grams.

    Returns:
        Ingredient name to container. Those that go in at one time share one. The largest lot is
        in the dish's own; another's is called after its heaviest ingredient too.
    """
    lots: dict[tuple[str, bool], list[Ingredient]] = {}
    for step in steps:
        for ingredient in map(recipe.ingredient, step.takes):
            if ingredient.name in waits:
                last = step.technique == "sweat" and ingredient.food in SCORCHES
                lots.setdefault((step.name, last), []).append(ingredient)

    def size(lot: Sequence[Ingredient]) -> tuple[int, float]:
        return len(lot), sum(waits[each.name] for each in lot)

    dish = bowl.removesuffix(" bowl")
    names: dict[str, str] = {}
    for lot in sorted(lots.values(), key=size, reverse=True):
        heaviest = max(lot, key=lambda each: waits[each.name])
        called = f"{dish} {kind}" if not names else _called(dish, heaviest, kind, names)
        names |= dict.fromkeys((each.name for each in lot), called)
    return names


def _called(dish: str, heaviest: Ingredient, kind: str, names: Mapping[str, str]) -> str:
    """A name for one more container that no other has."""
    called = f"{dish} {load_foods()[heaviest.food].singular} {kind}"
    taken = sum(name.startswith(called) for name in set(names.values()))
    return f"{called} {taken + 1}" if taken else called
