"""The recipes at hand: the starter recipes and a household's own."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import asdict, dataclass
from importlib import resources
from pathlib import Path

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.cookbooks.recipe import Recipe
from batchcook.dishwork.advice import RecipeWarning, recipe_warnings, told
from batchcook.foodsafety.storage import rows_for
from batchcook.quantities import say
from batchcook.recipefile.reading import read_recipe
from batchcook.tomlfiles import read_text

__all__ = [
    "CheckReport",
    "Cookbook",
    "check_recipes",
    "find_recipe",
    "load_cookbook",
    "load_recipe",
    "recipe_files",
    "starter_folder",
    "summaries",
]

Cookbook = Mapping[str, Recipe]
"""Recipe id to recipe, in alphabetical order."""

_SHARED_START = 3


@dataclass(frozen=True)
class CheckReport:
    """What checking recipe files came to.

    Attributes:
        files: The files that were checked.
        complaints: What is wrong with them, in the order of the files.
        warnings: What to tell the writers of those that load.
    """

    files: tuple[Path, ...]
    complaints: tuple[Complaint, ...]
    warnings: tuple[RecipeWarning, ...] = ()

    def raise_faults(self) -> None:
        """Raise what is wrong, if anything is.

        Raises:
            InputFault: With every complaint.
        """
        if self.complaints:
            raise InputFault(self.complaints)

    def in_words(self) -> str:
        """A line for a check that found nothing wrong, and one for each warning."""
        count = len(self.files)
        first = f"{count} recipe{'' if count == 1 else 's'} checked, nothing wrong."
        return "\n".join([first, *told(self.warnings, count)])

    def as_data(self) -> dict[str, object]:
        """The same for a script: file names, and complaints with their parts."""
        return {
            "files": [str(path) for path in self.files],
            "complaints": [asdict(each) for each in self.complaints],
            "warnings": [asdict(each) for each in self.warnings],
        }


def load_recipe(path: Path) -> Recipe:
    """The recipe in a file.

    Args:
        path: A TOML file in the recipe format.

    Raises:
        InputFault: It cannot be read, or with every fault found in it.
    """
    return read_recipe(read_text(path, "a recipe file"), path)


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
        recipes.update(_load_all(recipe_files(folder), complaints))
    if complaints:
        raise InputFault(complaints)
    return dict(sorted(recipes.items()))


def check_recipes(paths: Iterable[Path] = ()) -> CheckReport:
    """Everything that is wrong with recipe files.

    Args:
        paths: Recipe files, or folders of them, prep days left out; without any, the starter
            recipes.
    """
    files: list[Path] = []
    complaints: list[Complaint] = []
    for path in tuple(paths) or (starter_folder(),):
        inside = recipe_files(path) if path.is_dir() else (path,)
        found = [file for file in inside if not _is_prep_day(file)]
        if path.is_dir() and not found:
            complaints.append(Complaint(str(path), "holds no recipes", "recipe files, *.toml"))
        files += found
    sound = _load_all(files, complaints)
    warnings = [each for recipe in sound.values() for each in recipe_warnings(recipe)]
    return CheckReport(tuple(files), tuple(complaints), tuple(warnings))


def summaries(cookbook: Cookbook) -> list[dict[str, object]]:
    """One line a recipe, in plain values: what a list of them shows."""
    return [
        {
            "id": recipe.id,
            "title": recipe.title,
            "summary": recipe.summary,
            "servings": recipe.servings,
            "makes": say(recipe.makes),
            "state": recipe.state,
            "container": recipe.container,
            "portions_per_container": recipe.portions_per_container,
            "freezer_months": min(
                row.freezer_months[0]
                for row in rows_for(recipe.stored_as, str(recipe.path))
                if row.freezer_months is not None
            ),
        }
        for recipe in cookbook.values()
    ]


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
        if not _is_prep_day(path):
            yield path


def _is_prep_day(path: Path) -> bool:
    """Whether a file that lies among recipes is the order for a day: it has its tables.

    One that cannot be read is taken for a recipe, so that what is wrong with it is told.
    """
    try:
        tables = tomllib.loads(path.read_text("utf-8-sig"))
    except (OSError, ValueError, RecursionError):
        return False
    return bool(tables.keys() & {"day", "dishes"}) and not tables.keys() & {"steps", "ingredients"}


def starter_folder() -> Path:
    """Where the recipes that come with the program are: installed, or beside its source."""
    package = Path(str(resources.files("batchcook")))
    installed = package / "starter_recipes"
    return installed if installed.is_dir() else package.parent / "recipes"


def _load_all(paths: Iterable[Path], complaints: list[Complaint]) -> dict[str, Recipe]:
    """The sound recipes among some files, by id; what is wrong with others is added to the list."""
    recipes = {}
    for path in paths:
        try:
            recipes[path.stem] = load_recipe(path)
        except InputFault as fault:
            complaints.extend(fault.complaints)
    return recipes


def _sharing_a_word(name: str, cookbook: Cookbook) -> str:
    """The first recipe that has a word of the name in its own."""
    words = {
        word for word in name.lower().replace("_", "-").split("-") if len(word) > _SHARED_START
    }
    return next((id_ for id_ in cookbook if words & set(id_.split("-"))), "")
