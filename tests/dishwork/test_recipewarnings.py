"""What a recipe's writer is warned about."""

from __future__ import annotations

from dataclasses import replace

from batchcook.cookbook import load_cookbook
from batchcook.cookbooks.recipe import Ingredient, Recipe
from batchcook.dishwork.advice import RecipeWarning, recipe_warnings, told
from batchcook.quantities import ureg

COOKBOOK = load_cookbook()
STEW = COOKBOOK["beef-barley-stew"]


def warned(recipe: Recipe) -> list[str]:
    return [f"{each.about}: {each.what}" for each in recipe_warnings(recipe) if not each.note]


def with_food(food: str, step: str) -> Recipe:
    """The stew with one more food at a step."""
    more = Ingredient(food, food, ureg.Quantity(2, "cup"))
    steps = tuple(
        replace(each, takes=(*each.takes, food)) if each.name == step else each
        for each in STEW.steps
    )
    return replace(STEW, ingredients=(*STEW.ingredients, more), steps=steps)


def test_the_starter_recipes_have_notes_and_no_warnings() -> None:
    for recipe in COOKBOOK.values():
        assert warned(recipe) == []
        assert recipe_warnings(recipe)


def test_potatoes_in_pieces_are_warned_about_with_their_source() -> None:
    found = warned(with_food("potato", "simmer the beef"))
    assert len(found) == 1
    assert found[0].startswith("potato: frozen, it turns soft")
    assert "National Center for Home Food Preservation" in found[0]


def test_mashed_potatoes_are_not() -> None:
    assert warned(COOKBOOK["cottage-pie"]) == []


def test_a_dose_marked_to_taste_is_left_to_the_cook() -> None:
    doses = [each for each in recipe_warnings(STEW) if "multiplied" in each.what]
    assert {each.about for each in doses} == {"salt"}
    tasted = replace(
        STEW, ingredients=tuple(replace(each, to_taste=True) for each in STEW.ingredients)
    )
    assert not [each for each in recipe_warnings(tasted) if "multiplied" in each.what]


def test_a_bake_without_a_temperature_is_warned_about() -> None:
    recipe = COOKBOOK["turkey-meatballs"]
    silent = replace(
        recipe, steps=tuple(replace(each, cook_to=None, words="") for each in recipe.steps)
    )
    assert any("no cook_to; 165 degF is printed" in each for each in warned(silent))


def test_a_batch_that_no_ordinary_pot_holds_is_warned_about() -> None:
    vessels = {
        name: replace(vessel, holds=ureg.Quantity(14, "quart")) if vessel.kind == "pot" else vessel
        for name, vessel in STEW.vessels.items()
    }
    assert any("14 quarts for one batch" in each for each in warned(replace(STEW, vessels=vessels)))


def test_notes_that_say_the_same_are_told_in_one_line() -> None:
    notes = [RecipeWarning(f"{name}.toml", "salt", "weakens", note=True) for name in ("a", "b")]
    other = RecipeWarning("a.toml", "potato", "turns soft")
    assert told([*notes, other]) == (
        "a.toml: potato: turns soft",
        "Note: salt: weakens. In a, b.",
    )


def test_a_warning_for_several_recipes_is_told_once_before_the_notes() -> None:
    warnings = [RecipeWarning(f"{name}.toml", "potato", "turns soft") for name in ("a", "b")]
    note = RecipeWarning("a.toml", "salt", "weakens", note=True)
    assert told([note, *warnings]) == (
        "a.toml, b.toml: potato: turns soft",
        "Note: salt: weakens. In a.",
    )


def test_what_holds_for_every_recipe_names_none() -> None:
    notes = [RecipeWarning(f"{name}.toml", "salt", "weakens", note=True) for name in ("a", "b")]
    assert told(notes, checked=2) == ("Note: salt: weakens. In all 2 recipes.",)
    assert told(notes[:1], checked=1) == ("Note: salt: weakens. In a.",)
