"""The foods table as a file: its shape, and the complaints where it breaks it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, TypeAdapter, ValidationError, model_validator

from batchcook.complaints import Complaint, InputFault
from batchcook.foodsafety.kinds import FOOD_KINDS
from batchcook.quantities import COUNTS, Quantity, parse_amount
from batchcook.shapewords import fault_words
from batchcook.tomlfiles import key_path, parse_toml

__all__ = ["Allergen", "FoodEntry", "MeasureEntry", "Section", "read_food_table"]

Allergen = Literal[
    "milk",
    "egg",
    "fish",
    "crustacean shellfish",
    "tree nut",
    "peanut",
    "wheat",
    "soybean",
    "sesame",
]
"""The nine major food allergens: FALCPA 2004 and, for sesame, the FASTER Act 2021."""

Section = Literal[
    "produce",
    "meat and fish",
    "dairy and eggs",
    "canned and jarred",
    "dry goods",
    "spices",
    "bakery",
    "frozen",
]
_VOLUMES = {"tsp": "teaspoon", "tbsp": "tablespoon", "cup": "cup", "quart": "quart"}
_SIZE = re.compile(r"(?P<before>[0-9][0-9/. ]* (?:fl oz|\w+)) \w+|\w+ of (?P<after>.+)")
_Words = Annotated[str, Field(min_length=1)]


class _Strict(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class MeasureEntry(_Strict):
    """One household measure of a food."""

    unit: _Words
    cut: str = ""
    grams: float = Field(gt=0)
    amount: float = Field(1, gt=0)
    sr26: str = ""
    ours: bool = False

    @model_validator(mode="before")
    @classmethod
    def _full_unit(cls, entry: object) -> object:
        """Short names of spoons are written out."""
        if isinstance(entry, dict) and entry.get("unit") in _VOLUMES:
            return {**entry, "unit": _VOLUMES[entry["unit"]]}
        return entry

    @model_validator(mode="after")
    def _sound(self) -> MeasureEntry:
        if self.unit not in {*_VOLUMES.values(), *COUNTS}:
            raise ValueError(f"unknown unit {self.unit!r}")
        if bool(self.sr26) == self.ours:
            raise ValueError("a figure is either of SR26 or ours")
        return self


class FoodEntry(_Strict):
    """One food of the table."""

    plural: _Words
    kind: _Words
    section: Section
    buy: tuple[_Words, ...] = Field(min_length=1)
    buy_metric: tuple[_Words, ...] = ()
    also: tuple[_Words, ...] = ()
    ndb: str | None = Field(None, pattern=r"^\d{5}$")
    sr26: str = ""
    refuse: float = Field(0, ge=0, lt=100)
    bought_whole: bool = False
    liquid: bool = False
    scales: Literal["", "to taste"] = ""
    shop: Literal["", "count", "weight"] = ""
    bought_as: tuple[_Words, _Words] | None = None
    ask_for: str = ""
    allergens: tuple[Allergen, ...] = ()
    measures: tuple[MeasureEntry, ...] = ()
    keep: str = ""

    @model_validator(mode="after")
    def _sound(self) -> FoodEntry:
        if self.kind not in FOOD_KINDS:
            raise ValueError(f"unknown kind {self.kind!r}")
        if bool(self.ndb) != bool(self.sr26):
            raise ValueError("an NDB number comes with its description")
        if any(each.sr26 for each in self.measures) and not self.ndb:
            raise ValueError("an SR26 figure needs its NDB number")
        if self.liquid and not any(each.unit == "cup" for each in self.measures):
            raise ValueError("a liquid needs the weight of its cup")
        return self

    def sizes(self, *, metric: bool = False) -> Iterator[tuple[str, Quantity | None]]:
        """Each size it is sold in, in words and as an amount where it is a fixed one."""
        for words in (self.buy_metric or self.buy) if metric else self.buy:
            found = _SIZE.fullmatch(words)
            held = found and (found["before"] or found["after"])
            yield words, parse_amount(held, where=f"size {words!r}") if held else None


def read_food_table(text: str, where: str) -> Mapping[str, FoodEntry]:
    """The entries of a foods table, by key.

    Args:
        text: The table, in TOML.
        where: What to call the file.

    Raises:
        InputFault: With every complaint about it.
    """
    try:
        return TypeAdapter(dict[str, FoodEntry]).validate_python(parse_toml(text, where))
    except ValidationError as fault:
        raise InputFault(
            [
                Complaint(f"{where}, {key_path(error['loc'])}", *fault_words(error))
                for error in fault.errors()
            ]
        ) from None
