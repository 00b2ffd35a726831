"""A recipe file as it is written: its keys and their types, nothing of its sense."""

from __future__ import annotations

import copy
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from batchcook.complaints import Complaint
from batchcook.cookbooks.recipe import Cooling, Form, Heat, State, Thaw, VesselKind
from batchcook.shapewords import ONE_LINE
from batchcook.tomlplaces import Location, Places, shape_complaints

__all__ = ["Draft", "RecipeSheet", "draft_of"]

_AMOUNT = 'an amount such as "2 1/2 lb" or "3/4 cup", in quotes'
_TEMPERATURE = 'a temperature such as "375 degF", in quotes'

Words = Annotated[str, Field(min_length=1)]
Name = Annotated[str, ONE_LINE]
Minutes = Annotated[int, Field(ge=1, le=1440)]
Count = Annotated[int, Field(ge=1, le=100)]


class _Table(BaseModel):
    model_config = ConfigDict(extra="forbid", strict=True, frozen=True)


class _VesselTable(_Table):
    kind: VesselKind
    holds: Words | None = Field(None, description='a volume such as "3 1/4 quart", in quotes')
    size: Words | None = Field(None, description='length and width such as "9x13 inch", in quotes')
    per_batch: Count = Field(1, description="a whole number of pans for one batch")


class _IngredientTable(_Table):
    food: Words = Field(description="a food of the foods table, in quotes")
    amount: Words = Field(description=_AMOUNT)
    cut: Words | None = Field(None, description='a cut such as "diced", in quotes')
    name: Name | None = Field(None, description="a name of its own, in quotes")
    to_taste: bool = Field(default=False, description="true or false")
    note: str = Field("", description="words for the cook, in quotes")


class _StepTable(_Table):
    name: Name = Field(description="a name that no other step has, in quotes")
    technique: Words = Field(description='a technique such as "simmer", in quotes')
    takes: list[Words] = Field([], description="a list of ingredients")
    after: list[Words] = Field([], description="a list of earlier steps")
    in_: Words | None = Field(None, alias="in", description="a vessel of [vessels], in quotes")
    minutes: Minutes | None = Field(
        None, description="whole minutes at heat, 1 to 1440, without quotes"
    )
    oven: Words | None = Field(None, description=_TEMPERATURE)
    strict: bool = Field(default=False, description="true or false")
    heat: Heat | None = None
    words: Words = Field(description="a sentence or two for the cook, in quotes")
    cook_to: Words | None = Field(None, description=_TEMPERATURE)


class _AdditionTable(_Table):
    food: Words = Field(description="a food of the foods table, in quotes")
    amount: Words = Field(description=_AMOUNT)
    cut: Words | None = Field(None, description='a cut such as "grated", in quotes')
    note: str = Field("", description="words for the cook, in quotes")


class _NightTable(_Table):
    thaw: Thaw
    finish: Words = Field(description="how it is finished on the night, in quotes")
    oven: Words | None = Field(None, description=_TEMPERATURE)
    minutes: Minutes | None = Field(None, description="whole minutes, 1 to 1440, without quotes")
    minutes_from_frozen: Minutes | None = Field(
        None, description="whole minutes, 1 to 1440, without quotes"
    )
    add: list[_AdditionTable] = Field([], description="a list of foods and their amounts")


class RecipeSheet(_Table):
    """The whole file; what each key should hold stands in its description."""

    title: Name = Field(description="the name of the dish, in quotes")
    summary: str = Field(description="one line for the list, in quotes")
    servings: Count = Field(description="a whole number of people, 1 to 100, without quotes")
    makes: Words = Field(description='a volume or weight such as "3 quart", in quotes')
    state: State
    form: Form
    container: Words = Field(description='a container such as "quart tub", in quotes')
    portions_per_container: Count = Field(description="a whole number, 1 to 100, without quotes")
    stored_as: list[Words] = Field(
        min_length=1, description="a list of rows of the cold-storage table, at least one"
    )
    cool: Cooling
    source_note: str = Field("", description="words, in quotes")
    vessels: dict[str, _VesselTable] = Field({}, description="a table of vessels")
    ingredients: list[_IngredientTable] = Field(
        min_length=1, description="[[ingredients]], at least one"
    )
    steps: list[_StepTable] = Field(min_length=1, description="[[steps]], at least one")
    night: _NightTable = Field(description="a table [night]: how it is served later")


@dataclass(frozen=True)
class Draft:
    """What could be read of a recipe file, faulty values left out, for the checks of its sense.

    Attributes:
        tables: The file's tables; what was of the wrong type is None.
        places: Where things stand in the file.
        sheet: The same, typed, when its shape is right throughout.
        complaints: What is wrong with its shape.
    """

    tables: dict[str, Any]
    places: Places
    sheet: RecipeSheet | None
    complaints: tuple[Complaint, ...]

    def value(self, location: Location) -> object:
        """What stands at a place, or None where nothing sound does."""
        found: Any = self.tables
        for key in location:
            if isinstance(found, list) and isinstance(key, int):
                found = found[key]
            else:
                found = found.get(key) if isinstance(found, dict) else None
        return found

    def texts(self, *location: int | str) -> list[str]:
        """The sound texts of a list of texts."""
        found = self.value(location)
        return [each for each in found if isinstance(each, str)] if isinstance(found, list) else []

    def listed(self, *location: str) -> list[tuple[int, dict[str, Any]]]:
        """The sound tables of a list of tables, each with its position."""
        found = self.value(location)
        entries = found if isinstance(found, list) else []
        return [(at, entry) for at, entry in enumerate(entries) if isinstance(entry, dict)]

    @property
    def ingredients(self) -> list[tuple[int, dict[str, Any]]]:
        """The ingredients that are tables."""
        return self.listed("ingredients")

    @property
    def steps(self) -> list[tuple[int, dict[str, Any]]]:
        """The steps that are tables."""
        return self.listed("steps")

    @property
    def additions(self) -> list[tuple[int, dict[str, Any]]]:
        """What is added on the night."""
        return self.listed("night", "add")

    @property
    def vessels(self) -> dict[str, dict[str, Any]]:
        """The vessels that are tables."""
        found = self.tables.get("vessels")
        if not isinstance(found, dict):
            return {}
        return {name: entry for name, entry in found.items() if isinstance(entry, dict)}

    @property
    def night(self) -> dict[str, Any]:
        """The night, empty where it is not a table."""
        found = self.tables.get("night")
        return found if isinstance(found, dict) else {}


def draft_of(tables: dict[str, Any], places: Places) -> Draft:
    """A recipe file's tables with every fault of their shape."""
    try:
        sheet = RecipeSheet.model_validate(tables)
    except ValidationError as fault:
        sound = copy.deepcopy(tables)
        for error in fault.errors(include_url=False):
            if error["type"] != "missing":
                _blank(sound, error["loc"])
        return Draft(sound, places, None, tuple(shape_complaints(fault, places, RecipeSheet)))
    return Draft(tables, places, sheet, ())


def _blank(tables: Any, location: Location) -> None:  # noqa: ANN401 - TOML values have no common type
    """Take out what stands at a location, leaving positions in lists as they are."""
    *outer, last = location
    for key in outer:
        tables = tables[key]
    tables[last] = None
