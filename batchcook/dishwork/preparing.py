"""What is made ready before cooking, as jobs: ingredients cut, seasonings measured."""

from __future__ import annotations

from batchcook.cookbooks.recipe import Ingredient
from batchcook.dishwork.draft import Draft, ingredient_grams
from batchcook.dishwork.work import Job
from batchcook.foods import describe, load_foods
from batchcook.kitchens.techniques import CUTS, load_routines
from batchcook.scheduling.problem import Family

__all__ = ["draw_cut", "draw_measuring"]

_WORTH_MEASURING = 2
"""Seasonings from which on a dish has a cup of its own for them: common practice, no source."""


def draw_cut(draft: Draft, ingredient: Ingredient) -> None:
    """Cutting one ingredient: a part of the family of that food and cut."""
    cut = CUTS[str(ingredient.cut)]
    food = load_foods()[ingredient.food]
    weight = ingredient_grams(ingredient, draft.dish.batches)
    raw = food.kind.startswith("raw-")
    board = "raw" if raw else "produce"
    family = f"{cut.name} {food.key}"
    draft.families[family] = Family(family, cut.set_up, cut.clean_down)
    amount = describe(
        food, weight, cut.name, draft.dish.system, like=ingredient.amount, named=False
    )
    draft.prepared[ingredient.name] = draft.add(
        Job(
            id=draft.id("cut", ingredient.name),
            title=cut.say(food.plural),
            technique=cut.name,
            minutes=cut.minutes(food.key, weight),
            hands=frozenset({"knife", "raw meat"} if raw else {"knife"}),
            station="board",
            label=cut.say(food.plural),
            dishes={draft.dish.id: amount},
            uses={f"board:{board}": 1},
            words=ingredient.note,
            bowl=f"raw {draft.dish.bowl}" if raw else draft.dish.bowl,
            family=family,
            food=food.key,
            grams=float(weight.magnitude),
        )
    )


def draw_measuring(draft: Draft) -> None:
    """Seasonings measured out ahead, once for all dishes; what is added to taste is not."""
    routine = load_routines()["measure"]
    seasonings = [
        each
        for each in draft.recipe.ingredients
        if load_foods()[each.food].kind == "spice" and not each.to_taste and each.cut is None
    ]
    if len(seasonings) < _WORTH_MEASURING:
        return
    family = "measure seasonings"
    draft.families[family] = Family(family, routine.set_up, routine.clean_down)
    cup = draft.dish.bowl.replace(" bowl", " cup")
    job = draft.add(
        Job(
            id=draft.id("measure"),
            title=routine.title,
            technique="measure",
            minutes=routine.minutes(items=len(seasonings)),
            hands=frozenset(),
            station="counter",
            label="Measure seasonings",
            dishes={draft.dish.id: draft.batches_text()},
            amounts=draft.amounts(seasonings),
            bowl=cup,
            family=family,
        )
    )
    draft.prepared |= {each.name: job for each in seasonings}
