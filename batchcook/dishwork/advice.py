"""What a sound recipe may still be warned about: freezing, multiplying, temperatures, fills."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from batchcook.cookbooks.recipe import Ingredient, Recipe, Step, Vessel
from batchcook.dishwork.cooktowords import cook_to_words, foods_in
from batchcook.foods import load_foods
from batchcook.foodsafety.freezerquality import (
    FoodUse,
    QualityWarning,
    dose_warnings,
    freezing_warnings,
)
from batchcook.foodsafety.kinds import RAW_MEAT
from batchcook.foodsafety.limits import SLOW_COOKER_FILL
from batchcook.foodsafety.temperatures import cook_to
from batchcook.kitchens.techniques import load_techniques
from batchcook.kitchens.vessels import POT_FILL
from batchcook.quantities import Quantity, say, ureg

__all__ = ["RecipeWarning", "recipe_warnings", "told"]

_LARGEST_POT = ureg.Quantity(16, "quart")
"""The largest stockpot of an ordinary kitchen: common practice, no source."""

_LARGEST_COOKER = ureg.Quantity(8, "quart")
"""The largest ordinary slow cooker: common practice, no source."""

_BOILS = frozenset({"simmer", "boil"})
"""At a boil food passes its safe minimum; elsewhere a recipe should say where it ends."""

_IN_A_DISH = frozenset({"casserole", "egg-casserole", "soup-or-stew", "sauce-or-filling"})


@dataclass(frozen=True)
class RecipeWarning:
    """What to tell a recipe's writer, without making the recipe a fault.

    Attributes:
        recipe: The name of its file.
        about: The food, step or vessel.
        what: What happens, what to do instead, and who says so.
        note: Whether it is only worth knowing, not worth changing the recipe for.
    """

    recipe: str
    about: str
    what: str
    note: bool = False


def recipe_warnings(recipe: Recipe) -> tuple[RecipeWarning, ...]:
    """Everything to warn a recipe's writer about, with reason and source.

    Args:
        recipe: A recipe that loads.
    """
    return tuple(
        dict.fromkeys(
            (*_freezing(recipe), *_doses(recipe), *_temperatures(recipe), *_fills(recipe))
        )
    )


def told(warnings: Iterable[RecipeWarning], checked: int = 0) -> tuple[str, ...]:
    """Warnings a line each, what holds for several recipes said once; then the notes the same way.

    Args:
        warnings: Of all the recipes.
        checked: How many recipes there are, so that what holds for all of them names none.
    """
    recipes: dict[tuple[bool, str], dict[str, None]] = {}
    foods: dict[tuple[bool, str], dict[str, None]] = {}
    for each in warnings:
        key = each.note, each.what
        recipes.setdefault(key, {})[each.recipe] = None
        foods.setdefault(key, {})[each.about] = None
    lines = []
    for note, what in sorted(recipes, key=lambda key: key[0]):
        files, about = recipes[note, what], ", ".join(foods[note, what])
        if note:
            names = ", ".join(each.removesuffix(".toml") for each in files)
            among = f"all {checked} recipes" if 1 < checked == len(files) else names
            lines.append(f"Note: {about}: {what}. In {among}.")
        else:
            lines.append(f"{', '.join(files)}: {about}: {what}")
    return tuple(lines)


def _freezing(recipe: Recipe) -> Iterator[RecipeWarning]:
    """Foods that freezing changes, by how the dish uses them."""
    uses = [FoodUse(each.food, _use(recipe, each)) for each in recipe.ingredients]
    for each in freezing_warnings(uses):
        yield _of(recipe, each, f"frozen, it {each.what}; {each.advice}")


def _doses(recipe: Recipe) -> Iterator[RecipeWarning]:
    """Doses that are not simply multiplied; those marked to taste are already told to the cook."""
    uses = [FoodUse(each.food) for each in recipe.ingredients if not each.to_taste]
    for each in dose_warnings(uses, 2):
        yield _of(recipe, each, f"{each.what}; {each.advice}, or mark it to_taste")


def _of(recipe: Recipe, found: QualityWarning, what: str) -> RecipeWarning:
    sources = "; ".join(str(each) for each in found.sources)
    return RecipeWarning(
        recipe.path.name, found.food, f"{what} ({sources})", note=found.weight == "note"
    )


def _temperatures(recipe: Recipe) -> Iterator[RecipeWarning]:
    """Steps that cook something raw without boiling it, and say nothing of its middle."""
    for step in recipe.steps:
        if step.technique in _BOILS or step.cook_to is not None or "degF" in step.words:
            continue
        if not cook_to_words(recipe, step):
            continue
        kinds = set(foods_in(recipe, step).values()) & (RAW_MEAT | {"egg"})
        least = cook_to(kinds)
        if least is not None:
            what = f"no cook_to; {least.fahrenheit} degF is printed ({least.source})"
            yield RecipeWarning(recipe.path.name, f"step {step.name!r}", what)


def _fills(recipe: Recipe) -> Iterator[RecipeWarning]:
    """One batch that no ordinary vessel holds."""
    for vessel in recipe.vessels.values():
        most = _most(vessel)
        if vessel.holds is not None and most is not None and vessel.holds > most[0]:
            what = (
                f"{say(vessel.holds)} for one batch; an ordinary {most[1]} takes {say(most[0])} "
                "(common practice, no source)"
            )
            yield RecipeWarning(recipe.path.name, vessel.name, what)


def _most(vessel: Vessel) -> tuple[Quantity, str] | None:
    if vessel.kind == "pot":
        return _LARGEST_POT * POT_FILL, "pot, four fifths full,"
    if vessel.kind == "slow-cooker":
        return _LARGEST_COOKER * SLOW_COOKER_FILL[1], "slow cooker, two thirds full,"
    return None


def _use(recipe: Recipe, ingredient: Ingredient) -> str:
    """How the dish uses an ingredient by the time it is frozen."""
    steps = [step for step in recipe.steps if ingredient.name in step.takes]
    if not steps:
        return ""
    onwards = list(_onwards(recipe, steps[0]))
    techniques = {step.technique for step in onwards}
    kind = load_foods()[ingredient.food].kind
    if "mash" in techniques:
        return "mashed"
    hot = [step for step in onwards if _hot(step)]
    if not hot:
        return "raw"
    if kind == "dairy" and _in_pot(recipe, hot[0]):
        return "sauce"
    if kind == "dry-goods" and recipe.form in _IN_A_DISH:
        return "in a dish"
    return "cooked"


def _hot(step: Step) -> bool:
    technique = load_techniques()[step.technique]
    return technique.timed or "hot pans" in technique.skills


def _in_pot(recipe: Recipe, step: Step) -> bool:
    return step.vessel is not None and recipe.vessels[step.vessel].kind == "pot"


def _onwards(recipe: Recipe, step: Step) -> Iterator[Step]:
    """A step and all that take its outcome."""
    yield step
    for each in recipe.steps:
        if step.name in each.after:
            yield from _onwards(recipe, each)
