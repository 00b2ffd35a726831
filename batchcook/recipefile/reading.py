"""From the text of a recipe file to a recipe, or to everything that is wrong with it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from batchcook.complaints import Complaint, InputFault
from batchcook.cookbooks.recipe import Ingredient, Night, NightAddition, Recipe, Step, Vessel
from batchcook.quantities import Quantity
from batchcook.recipefile.amounts import Amounts, read_amounts
from batchcook.recipefile.jobnames import clashing_names
from batchcook.recipefile.names import unknown_names
from batchcook.recipefile.safety import unsafe
from batchcook.recipefile.sense import senseless
from batchcook.recipefile.sheet import Draft, RecipeSheet, draft_of
from batchcook.recipefile.steps import step_faults
from batchcook.tomlfiles import parse_toml
from batchcook.tomlplaces import Location, Places

__all__ = ["read_recipe"]


def read_recipe(text: str, path: Path) -> Recipe:
    """The recipe in the text of a file.

    Args:
        text: TOML in the recipe format.
        path: The file it comes from; its stem is the recipe's id.

    Raises:
        InputFault: With every fault found, from the top of the file to its end.
    """
    where = str(path)
    draft = draft_of(parse_toml(text, where), Places.of(where, text))
    amounts = read_amounts(draft)
    complaints = _complaints(draft, amounts)
    if complaints or draft.sheet is None:
        raise InputFault(complaints)
    return _recipe(draft.sheet, amounts, path)


def _complaints(draft: Draft, amounts: Amounts) -> Sequence[Complaint]:
    return draft.places.in_order(
        [
            *draft.complaints,
            *amounts.complaints,
            *unknown_names(draft),
            *step_faults(draft),
            *clashing_names(draft),
            *senseless(draft, amounts),
            *unsafe(draft, amounts),
        ]
    )


def _recipe(sheet: RecipeSheet, amounts: Amounts, path: Path) -> Recipe:
    return Recipe(
        id=path.stem,
        title=sheet.title,
        summary=sheet.summary,
        servings=sheet.servings,
        makes=_sure(amounts, "makes"),
        state=sheet.state,
        form=sheet.form,
        container=sheet.container,
        portions_per_container=sheet.portions_per_container,
        stored_as=tuple(sheet.stored_as),
        cool=sheet.cool,
        vessels=_vessels(sheet, amounts),
        ingredients=_ingredients(sheet, amounts),
        steps=_steps(sheet, amounts),
        night=_night(sheet, amounts),
        path=path,
        source_note=sheet.source_note,
    )


def _vessels(sheet: RecipeSheet, amounts: Amounts) -> dict[str, Vessel]:
    return {
        name: Vessel(
            name, each.kind, amounts.get("vessels", name, "holds"), each.size, each.per_batch
        )
        for name, each in sheet.vessels.items()
    }


def _ingredients(sheet: RecipeSheet, amounts: Amounts) -> tuple[Ingredient, ...]:
    return tuple(
        Ingredient(
            name=each.name or each.food,
            food=each.food,
            amount=_sure(amounts, "ingredients", at, "amount"),
            cut=each.cut,
            to_taste=each.to_taste,
            note=each.note,
        )
        for at, each in enumerate(sheet.ingredients)
    )


def _steps(sheet: RecipeSheet, amounts: Amounts) -> tuple[Step, ...]:
    return tuple(
        Step(
            name=each.name,
            technique=each.technique,
            takes=tuple(each.takes),
            after=tuple(each.after),
            vessel=each.in_,
            minutes=each.minutes,
            oven=amounts.get("steps", at, "oven"),
            strict=each.strict,
            heat=each.heat,
            words=each.words,
            cook_to=amounts.get("steps", at, "cook_to"),
        )
        for at, each in enumerate(sheet.steps)
    )


def _night(sheet: RecipeSheet, amounts: Amounts) -> Night:
    night = sheet.night
    return Night(
        thaw=night.thaw,
        finish=night.finish,
        oven=amounts.get("night", "oven"),
        minutes=night.minutes,
        minutes_from_frozen=night.minutes_from_frozen,
        add=tuple(
            NightAddition(
                each.food, _sure(amounts, "night", "add", at, "amount"), each.cut, each.note
            )
            for at, each in enumerate(night.add)
        ),
    )


def _sure(amounts: Amounts, *location: int | str) -> Quantity:
    """A required amount of a file without faults."""
    place: Location = location
    return amounts.found[place]
