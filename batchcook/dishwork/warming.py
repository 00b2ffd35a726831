"""A pot or slow cooker made hot ahead, for browned meat that goes straight into it."""

from __future__ import annotations

from typing import Final

from batchcook.cookbooks.recipe import Ingredient, Step
from batchcook.dishwork.draft import Draft
from batchcook.dishwork.keephot import ON_LOW
from batchcook.dishwork.work import Job
from batchcook.foods import describe, load_foods
from batchcook.foodsafety.limits import KEPT_HOT
from batchcook.kitchens.techniques import load_techniques
from batchcook.quantities import ureg

__all__ = ["COOKING_SETTING", "WARM_UP", "draw_warming", "straight_in"]

COOKING_SETTING: Final = "Never the warm setting: it does not cook."
"""What is said of a slow cooker's settings (USDA FSIS: food is not cooked on warm)."""

WARM_UP: Final = 10
"""Minutes that a slow cooker is on high before the first meat goes in: an assumption of ours."""

_WARMED = ureg.Quantity(1, "cup")
"""Liquid that a vessel is warmed with, enough to cover its bottom: an assumption of ours."""

_POURED: Final = frozenset({"canned", "canned-low-acid", "liquid"})
"""Kinds of food that a vessel may be warmed with; oil would fry and milk would catch."""


def draw_warming(draft: Draft, step: Step) -> Job:
    """Put the vessel of a step on the heat with some of the liquid that the step takes.

    A slow cooker goes on high, as it does for the first hour where it can (USDA FSIS, Slow Cookers
    and Food Safety).

    Args:
        draft: The dish.
        step: The step whose vessel it is.
    """
    vessel, number = str(step.vessel), draft.vessel_number(str(step.vessel))
    cooker = step.technique == "slow-cook"
    called = vessel if number == 1 else f"{number} {'slow cookers' if cooker else 'pots'}"
    what = _liquid(draft, step, number)
    if cooker:
        title = f"Switch the {called} on high, lid on, with {what}"
        words = (
            "The meat that is browned goes straight in, lid on again each time, and it stays on "
            f"high until it is filled. {COOKING_SETTING}"
        )
    else:
        title = f"Bring {what} to a simmer in the {called}"
        words = ON_LOW
    return draft.job(
        step,
        "warm",
        title,
        1,
        load_techniques()[step.technique].skills,
        "slow cooker" if cooker else "pot",
        words=words,
    )


def straight_in(step: Step) -> str:
    """What is said at the browning of meat for a vessel that is hot already."""
    if step.technique == "slow-cook":
        return f"The {step.vessel} is on high by then; lid on again each time."
    return f"The {step.vessel} stays on low heat meanwhile, {KEPT_HOT}."


def _liquid(draft: Draft, step: Step, number: int) -> str:
    """So much of the step's broth or the like, for each vessel; hot water where it takes none."""
    poured = [each for each in draft.taken(step) if _pours(draft, each)]
    if not poured:
        return "a little hot water"
    most = max(poured, key=draft.grams)
    food = load_foods()[most.food]
    wanted = food.to_grams(_WARMED * number, None).to("gram")
    if float(wanted.magnitude) >= draft.grams(most):
        return f"its {food.plural}"
    return f"{describe(food, wanted, None, draft.dish.system)} of what it takes"


def _pours(draft: Draft, ingredient: Ingredient) -> bool:
    return load_foods()[ingredient.food].liquid and draft.kind(ingredient) in _POURED
