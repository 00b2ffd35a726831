"""How hot each cooking task brings its food, in the cook's words."""

from __future__ import annotations

from dataclasses import replace

from batchcook.cookbooks.recipe import Recipe, Step
from batchcook.dishwork.draft import Draft
from batchcook.foods import load_foods
from batchcook.foodsafety.kinds import RAW_MEAT
from batchcook.foodsafety.temperatures import Tender, cook_to, tender
from batchcook.kitchens.containers import load_containers
from batchcook.kitchens.techniques import load_techniques

__all__ = ["cook_to_words", "foods_in", "say_cook_to"]

_COUNTED = RAW_MEAT | {"egg"}
"""What has a temperature to reach."""

_COOKS = frozenset({"cook-through"})
"""Techniques without a time of their own that cook food through all the same."""


def say_cook_to(draft: Draft) -> None:
    """Add the temperature to reach to every job that ends the cooking of meat, fish or egg."""
    words = {
        job: said
        for step in draft.order
        if (said := cook_to_words(draft.recipe, step))
        for job in draft.ready[step.name]
    }
    draft.jobs[:] = [
        replace(job, words=" ".join(each for each in (_stopped(job.words), words[job.id]) if each))
        if job.id in words
        else job
        for job in draft.jobs
    ]


def cook_to_words(recipe: Recipe, step: Step) -> str:
    """The temperature that a step brings its food to, with its rest; empty where none applies.

    The published safe minimum, or what the recipe asks for where that is more. Where a cut turns
    tender only above it, that range as well.

    Args:
        recipe: The recipe.
        step: One of its steps.
    """
    technique = load_techniques()[step.technique]
    if not technique.timed and step.technique not in _COOKS:
        return ""
    if _of_juices(recipe, step):
        return ""
    inside = foods_in(recipe, step)
    kinds = {kind for kind in inside.values() if kind in _COUNTED}
    if not kinds:
        return ""
    last = all(step.name not in each.after for each in recipe.steps)
    baked = technique.oven and last and load_containers()[recipe.container].shape == "pan"
    found = cook_to(kinds, recipe.form if baked else "", recipe.id)
    if found is None:
        return ""
    safe = found.fahrenheit
    minutes = f"{found.rest_minutes} minutes' rest" if found.rest_minutes else ""
    rest, at_rest = (f", then {minutes}", f" with {minutes}") if minutes else ("", "")
    asked = 0 if step.cook_to is None else round(float(step.cook_to.to("degF").magnitude))
    ranges = [each for food, kind in inside.items() if (each := tender(food, kind)) is not None]
    if asked > safe:
        return f"To {asked} degF in the middle (safe from {safe} degF{at_rest}).{_tender(ranges)}"
    return f"To at least {safe} degF in the middle{rest}.{_tender(ranges)}"


def foods_in(recipe: Recipe, step: Step) -> dict[str, str]:
    """Food key to kind of everything that has gone in by the end of a step."""
    foods = load_foods()
    own = [foods[recipe.ingredient(name).food] for name in step.takes]
    found = {food.key: food.kind for food in own}
    for before in step.after:
        found |= foods_in(recipe, recipe.step(before))
    return found


def _tender(ranges: list[Tender]) -> str:
    if not ranges:
        return ""
    low, high = ranges[0].low.magnitude, ranges[0].high.magnitude
    return f" Tender at {low:g} to {high:g} degF."


def _of_juices(recipe: Recipe, step: Step) -> bool:
    """Whether a step only boils down a part of what another vessel cooked: no middle to check."""
    return any(
        sum(before in each.after for each in recipe.steps) > 1
        and recipe.step(before).vessel != step.vessel
        for before in step.after
    )


def _stopped(words: str) -> str:
    return words if not words or words.endswith((".", "!")) else f"{words}."
