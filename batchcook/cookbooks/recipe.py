"""What a recipe is: one batch of a dish, its steps, and how it is served later."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from batchcook.quantities import Quantity

__all__ = [
    "Cooling",
    "Form",
    "Heat",
    "Ingredient",
    "Night",
    "NightAddition",
    "Recipe",
    "State",
    "Step",
    "Thaw",
    "Vessel",
    "VesselKind",
]

State = Literal["cooked", "part-baked", "raw-kit"]
Form = Literal[
    "soup-or-stew", "sauce-or-filling", "casserole", "egg-casserole", "pieces", "raw-kit"
]
Cooling = Literal["liquid", "thick", "pieces", "none"]
VesselKind = Literal["pot", "skillet", "slow-cooker", "baking-dish", "sheet-pan", "bowl"]
Heat = Literal["low", "high"]
Thaw = Literal["refrigerator", "from-frozen", "either"]


@dataclass(frozen=True)
class Ingredient:
    """So much of one food.

    Attributes:
        name: How steps call it: the food, or a name of its own where a food appears twice.
        food: Its key in the foods table.
        amount: For one batch, prepared as the cut says: peeled, trimmed, drained.
        cut: How it is cut, or None.
        to_taste: Scaled with the batches, but adjusted by taste.
        note: What the cook should know, or an empty string.
    """

    name: str
    food: str
    amount: Quantity
    cut: str | None = None
    to_taste: bool = False
    note: str = ""


@dataclass(frozen=True)
class Vessel:
    """Something a step cooks in, as the recipe asks for it.

    Attributes:
        holds: A pot or slow cooker: the volume of one batch at its fullest.
        size: A baking dish: length and width, as written, ``"9x13 inch"``.
        per_batch: Baking dishes and sheet pans of one batch.
    """

    name: str
    kind: VesselKind
    holds: Quantity | None = None
    size: str | None = None
    per_batch: int = 1


@dataclass(frozen=True)
class Step:
    """A step of the recipe.

    Attributes:
        takes: Names of the ingredients that go in at this step.
        after: Names of the steps whose outcome it takes.
        vessel: The vessel's name, or None for work at the counter.
        minutes: Time at heat, where the technique has none of its own.
        oven: The oven's temperature.
        strict: Whether that temperature may not be moved to suit another dish.
        heat: The slow cooker's setting.
        words: What the cook reads.
        cook_to: Temperature at the center that the recipe itself asks for.
    """

    name: str
    technique: str
    takes: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    vessel: str | None = None
    minutes: int | None = None
    oven: Quantity | None = None
    strict: bool = False
    heat: Heat | None = None
    words: str = ""
    cook_to: Quantity | None = None


@dataclass(frozen=True)
class NightAddition:
    """What is bought and added on the evening the dish is eaten; the amount is for one batch."""

    food: str
    amount: Quantity
    cut: str | None = None
    note: str = ""

    @property
    def told(self) -> str:
        """How it is cut, and the note."""
        return ", ".join(each for each in (self.cut, self.note) if each)


@dataclass(frozen=True)
class Night:
    """How the dish is served later.

    Attributes:
        thaw: In the refrigerator, not at all, or either.
        finish: What to do, in words.
        oven: Oven temperature, or None.
        minutes: Time once thawed, or None.
        minutes_from_frozen: Time straight from the freezer, or None.
        add: What is added then.
    """

    thaw: Thaw
    finish: str
    oven: Quantity | None = None
    minutes: int | None = None
    minutes_from_frozen: int | None = None
    add: tuple[NightAddition, ...] = ()


@dataclass(frozen=True)
class Recipe:
    """One batch of a dish.

    Attributes:
        id: The stem of its file.
        servings: People that one batch feeds; a portion is for one of them.
        makes: Finished volume or weight of one batch.
        state: As it goes into the freezer.
        container: Key of the container it is packed in.
        stored_as: Rows of the cold-storage table; the shortest wins.
        cool: Which way it may cool.
        path: The file it was read from.
    """

    id: str
    title: str
    summary: str
    servings: int
    makes: Quantity
    state: State
    form: Form
    container: str
    portions_per_container: int
    stored_as: tuple[str, ...]
    cool: Cooling
    vessels: Mapping[str, Vessel]
    ingredients: tuple[Ingredient, ...]
    steps: tuple[Step, ...]
    night: Night
    path: Path
    source_note: str = ""

    def ingredient(self, name: str) -> Ingredient:
        """The ingredient that steps call ``name``.

        Raises:
            KeyError: There is none; loading a recipe rules that out for its own steps.
        """
        for ingredient in self.ingredients:
            if ingredient.name == name:
                return ingredient
        raise KeyError(name)

    def step(self, name: str) -> Step:
        """The step called ``name``.

        Raises:
            KeyError: There is none; loading a recipe rules that out for its own steps.
        """
        for step in self.steps:
            if step.name == name:
                return step
        raise KeyError(name)
