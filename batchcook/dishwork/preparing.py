"""What is made ready before cooking, as jobs: ingredients cut, seasonings measured."""

from __future__ import annotations

from collections import Counter

from batchcook.cookbooks.recipe import Ingredient
from batchcook.dishwork.bowls import containers_of
from batchcook.dishwork.draft import Draft, ingredient_grams
from batchcook.dishwork.streams import cold_once_handled
from batchcook.dishwork.work import Job
from batchcook.foods import describe, load_foods
from batchcook.kitchens.techniques import CUTS, load_routines
from batchcook.scheduling.problem import Family

__all__ = ["draw_cuts", "draw_measuring"]

_MEASURING = "measure seasonings"
_BROWNS = frozenset({"potato"})
_IN_THE_COLD = "Cover it, and back into the refrigerator until it is wanted"
_IN_WATER = "Into cold water until they are boiled; over 2 hours ahead, in the refrigerator"
"""Common practice, no source."""

_WORTH_MEASURING = 2
"""Seasonings from which on a cup is used for them: common practice, no source."""


def draw_cuts(draft: Draft) -> None:
    """Cutting every ingredient that is cut, into the bowls in which it waits."""
    cut = [each for each in draft.recipe.ingredients if each.cut is not None]
    raw = [each for each in cut if draft.kind(each).startswith("raw-")]
    for lot, bowl in ((cut, draft.dish.bowl), (raw, f"raw {draft.dish.bowl}")):
        weights = {each.name: draft.grams(each) for each in lot if lot is raw or each not in raw}
        draft.waits_in |= containers_of(bowl, draft.order, draft.recipe, "bowl", weights)
    for each in cut:
        _draw_cut(draft, each)


def _draw_cut(draft: Draft, ingredient: Ingredient) -> None:
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
            hands=frozenset({"knife"} if cut.knife else ()) | ({"raw meat"} if raw else set()),
            station="board",
            label=cut.say(food.plural),
            dishes={draft.dish.id: amount},
            uses={f"board:{board}": 1},
            words=_words(draft, ingredient, cold=cold_once_handled(food.kind)),
            bowl=draft.waits_in[ingredient.name],
            family=family,
            food=food.key,
            grams=float(weight.magnitude),
        )
    )


def _words(draft: Draft, ingredient: Ingredient, *, cold: bool) -> str:
    """The recipe's note, and where it waits: in the cold again, or in water if it browns in air."""
    boiled = any(ingredient.name in step.takes and step.technique == "boil" for step in draft.order)
    in_water = boiled and ingredient.food in _BROWNS
    waits = _IN_THE_COLD if cold else _IN_WATER if in_water else ""
    if not waits:
        return ingredient.note
    told = (each[:1].upper() + each[1:] for each in (ingredient.note, waits) if each)
    return f"{'. '.join(told)}."


def draw_measuring(draft: Draft) -> None:
    """Seasonings measured out ahead, once for all dishes; what is added to taste is not.

    Those that go in at one time are mixed in one cup; a single one comes straight from its jar.
    """
    routine = load_routines()["measure"]
    weights = {
        each.name: draft.grams(each)
        for each in draft.recipe.ingredients
        if draft.kind(each) == "spice" and not each.to_taste and each.cut is None
    }
    cups = containers_of(draft.dish.bowl, draft.order, draft.recipe, "cup", weights)
    mixed = Counter(cups.values())
    cups = {name: cup for name, cup in cups.items() if mixed[cup] >= _WORTH_MEASURING}
    if not cups:
        return
    draft.families[_MEASURING] = Family(_MEASURING, routine.set_up, routine.clean_down)
    several = len(set(cups.values())) > 1
    listed = map(draft.recipe.ingredient, cups)
    job = draft.add(
        Job(
            id=draft.id("measure"),
            title=routine.title,
            technique="measure",
            minutes=routine.minutes(items=len(cups)),
            hands=frozenset(),
            station="counter",
            label="Measure seasonings",
            dishes={draft.dish.id: draft.batches_text()},
            amounts=draft.gathered(listed, cups if several else {}),
            bowl=draft.dish.bowl.removesuffix("bowl") + ("cups" if several else "cup"),
            family=_MEASURING,
        )
    )
    draft.waits_in |= cups
    draft.prepared |= dict.fromkeys(cups, job)
