"""A recipe in words, for any number of batches: what a cook reads before the prep day."""

from __future__ import annotations

from dataclasses import dataclass

from batchcook.cookbooks.packing import container_count
from batchcook.cookbooks.recipe import Ingredient, NightAddition, Recipe, Step
from batchcook.foods import describe, load_foods
from batchcook.foodsafety.storage import rows_for
from batchcook.foodsafety.thawing import ON_A_TRAY
from batchcook.kitchens.containers import load_containers
from batchcook.kitchens.techniques import load_techniques
from batchcook.metricwords import metric_words
from batchcook.quantities import Quantity, say

__all__ = ["CardLine", "RecipeCard", "recipe_card"]


@dataclass(frozen=True)
class CardLine:
    """An ingredient: how much of what, and what to know about it."""

    amount: str
    note: str


@dataclass(frozen=True)
class RecipeCard:
    """Everything that is printed of a recipe.

    Attributes:
        facts: What it is and makes, as pairs of a word and a text.
        ingredients: What goes in.
        steps: What is done, as pairs of a heading and words.
        night: How it is served later.
        add: What is bought for that evening.
    """

    title: str
    summary: str
    facts: tuple[tuple[str, str], ...]
    ingredients: tuple[CardLine, ...]
    steps: tuple[tuple[str, str], ...]
    night: str
    add: tuple[CardLine, ...]


def recipe_card(recipe: Recipe, batches: int, system: str) -> RecipeCard:
    """A recipe in words.

    Args:
        recipe: The recipe.
        batches: How many times it is made at once.
        system: ``"us"`` or ``"metric"``.

    Raises:
        InputFault: The foods table has no figure to weigh one of its measures by.
    """
    return RecipeCard(
        title=recipe.title,
        summary=recipe.summary,
        facts=_facts(recipe, batches, system),
        ingredients=tuple(_ingredient(each, batches, system) for each in recipe.ingredients),
        steps=tuple(_step(recipe, each, system) for each in recipe.steps),
        night=_night(recipe, system),
        add=tuple(_addition(each, batches, system) for each in recipe.night.add),
    )


def _facts(recipe: Recipe, batches: int, system: str) -> tuple[tuple[str, str], ...]:
    container = load_containers()[recipe.container]
    count = container_count(recipe, batches)
    called = container.title if count == 1 else container.plural
    months = [
        row.freezer_months
        for row in rows_for(recipe.stored_as, str(recipe.path))
        if row.freezer_months is not None
    ]
    best, use = min(span[0] for span in months), min(span[1] for span in months)
    return (
        ("Batches", str(batches)),
        ("Serves", str(recipe.servings * batches)),
        ("Makes", say(recipe.makes * batches, system)),
        (
            "Packed in",
            _told(f"{count} {called}, {recipe.portions_per_container} portions in each", system),
        ),
        ("Goes into the freezer", recipe.state.replace("-", " ")),
        ("Best by", _told(_best_by(best, use), system)),
    )


def _best_by(best: int, use: int) -> str:
    later = "" if use == best else f"; use by {_months(use)}"
    return f"{_months(best)} at 0 degF, for quality{later}"


def _months(count: int) -> str:
    return "1 month" if count == 1 else f"{count} months"


def _ingredient(ingredient: Ingredient, batches: int, system: str) -> CardLine:
    own_name = ingredient.name if ingredient.name != ingredient.food else ""
    notes = [_told(each, system) for each in (ingredient.cut, own_name, ingredient.note) if each]
    if ingredient.to_taste:
        notes.append("to taste" if batches == 1 else "start with less, then to taste")
    return CardLine(
        _amount(ingredient.food, ingredient.amount, ingredient.cut, batches, system),
        "; ".join(notes),
    )


def _addition(addition: NightAddition, batches: int, system: str) -> CardLine:
    amount = _amount(addition.food, addition.amount, addition.cut, batches, system)
    return CardLine(amount, addition.told)


def _amount(key: str, amount: Quantity, cut: str | None, batches: int, system: str) -> str:
    food = load_foods()[key]
    return describe(food, food.to_grams(amount * batches, cut), cut, system, like=amount)


def _step(recipe: Recipe, step: Step, system: str) -> tuple[str, str]:
    heading = [load_techniques()[step.technique].title]
    if step.vessel is not None:
        on_it = recipe.vessels[step.vessel].kind == "sheet-pan"
        heading.append(f"{'on' if on_it else 'in'} the {step.vessel}")
    if step.oven is not None:
        heading.append(f"at {_temperature(step.oven, system)}")
    if step.heat is not None:
        heading.append(f"on {step.heat}")
    if step.minutes is not None:
        heading.append(f"for {_minutes(step.minutes)}")
    told = " ".join(heading)
    if step.takes:
        told += f": {', '.join(_called(recipe.ingredient(name)) for name in step.takes)}"
    if step.after:
        told += f" (after {' and '.join(step.after)})"
    words = step.words
    if step.cook_to is not None:
        words += f" To {_temperature(step.cook_to, system)} at the center."
    return told, _told(words, system)


def _called(ingredient: Ingredient) -> str:
    """An ingredient by its own name, else as the food is spoken of."""
    own = ingredient.name != ingredient.food
    return ingredient.name if own else load_foods()[ingredient.food].plural


def _night(recipe: Recipe, system: str) -> str:
    night = recipe.night
    where = f", {ON_A_TRAY}" if recipe.state == "raw-kit" else ""
    ways = {
        "refrigerator": f"Thaw it in the refrigerator{where}.",
        "from-frozen": "Do not thaw it.",
        "either": f"Thaw it in the refrigerator{where}, or take it straight from the freezer.",
    }
    told = [ways[night.thaw], _told(night.finish, system)]
    times = [
        f"{_minutes(minutes)} {state}"
        for minutes, state in ((night.minutes, "thawed"), (night.minutes_from_frozen, "frozen"))
        if minutes is not None
    ]
    if night.oven is not None:
        times.insert(0, f"oven {_temperature(night.oven, system)}")
    if times:
        told.append(f"({', '.join(times)})")
    return " ".join(told)


_HOUR = 60


def _minutes(minutes: int) -> str:
    """Minutes as a cook says them: 45 min, 8 h, 1 h 15 min."""
    hours, rest = divmod(minutes, _HOUR)
    return " ".join(
        [*([f"{hours} h"] if hours else []), *([f"{rest} min"] if rest or not hours else [])]
    )


def _temperature(temperature: Quantity, system: str) -> str:
    return _told(f"{float(temperature.to('degF').magnitude):g} degF", system)


def _told(text: str, system: str) -> str:
    """A text of the recipe in the measures of the kitchen."""
    return metric_words(text) if system == "metric" else text
