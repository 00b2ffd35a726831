"""The recipes at hand: the starter recipes and a household's own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from importlib import resources
from pathlib import Path

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.recipe import Recipe
from batchcook.recipefile.reading import read_recipe

__all__ = [
    "Cookbook",
    "find_recipe",
    "load_cookbook",
    "load_recipe",
    "recipe_files",
    "starter_folder",
]

Cookbook = Mapping[str, Recipe]
"""Recipe id to recipe, in alphabetical order."""

_SHARED_START = 3


def load_recipe(path: Path) -> Recipe:
    """The recipe in a file.

    Args:
        path: A TOML file in the recipe format.

    Raises:
        InputFault: It cannot be read, or with every fault found in it.
    """
    try:
        text = path.read_text("utf-8")
    except OSError as fault:
        what = f"cannot be read ({fault.strerror})"
        raise InputFault(Complaint(str(path), what, "a recipe file")) from None
    except UnicodeDecodeError as fault:
        what = f"is not UTF-8 text (byte {fault.start})"
        raise InputFault(Complaint(str(path), what, "a recipe file")) from None
    return read_recipe(text, path)


def load_cookbook(folders: Iterable[Path] = ()) -> Cookbook:
    """The starter recipes together with those of other folders.

    Args:
        folders: Folders of recipe files; a recipe in a later one replaces an earlier one of the
            same id, and any replaces a starter recipe.

    Raises:
        InputFault: With every fault found in any of the files.
    """
    complaints: list[Complaint] = []
    recipes: dict[str, Recipe] = {}
    for folder in (starter_folder(), *folders):
        if not folder.is_dir():
            complaints.append(Complaint(str(folder), "is no folder", "a folder of recipe files"))
            continue
        for path in recipe_files(folder):
            try:
                recipes[path.stem] = load_recipe(path)
            except InputFault as fault:
                complaints.extend(fault.complaints)
    if complaints:
        raise InputFault(complaints)
    return dict(sorted(recipes.items()))


def find_recipe(cookbook: Cookbook, name: str, where: str) -> Recipe:
    """The recipe with this id.

    Args:
        cookbook: The recipes at hand.
        name: A recipe's id.
        where: The place that named it, for the message.

    Raises:
        InputFault: There is none; suggests the nearest.
    """
    if name in cookbook:
        return cookbook[name]
    raise InputFault(
        Complaint(
            where,
            f"unknown recipe {name!r}",
            f"one of {', '.join(cookbook)}" if cookbook else "a recipe, but there are none",
            nearest(name, cookbook) or _sharing_a_word(name, cookbook),
        )
    )


def recipe_files(folder: Path) -> Iterator[Path]:
    """The recipe files of a folder, in alphabetical order; prep days are none."""
    for path in sorted(folder.glob("*.toml")):
        if "prep-day" not in path.stem:
            yield path


def starter_folder() -> Path:
    """Where the recipes that come with the program are: installed, or beside its source."""
    package = Path(str(resources.files("batchcook")))
    installed = package / "starter_recipes"
    return installed if installed.is_dir() else package.parent / "recipes"


def _sharing_a_word(name: str, cookbook: Cookbook) -> str:
    """The first recipe that has a word of the name in its own."""
    words = {word for word in name.lower().replace("_", "-").split("-") if len(word) > _SHARED_START}
    return next((id_ for id_ in cookbook if words & set(id_.split("-"))), "")
