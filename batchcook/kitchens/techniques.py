"""How long each piece of work keeps hands busy, what it needs, and whose hands may do it."""

from __future__ import annotations

import math
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from importlib import resources
from typing import Any

from batchcook.quantities import Quantity

__all__ = ["CUTS", "Cut", "Technique", "load_routines", "load_techniques"]


@dataclass(frozen=True)
class Cut:
    """A way of making food ready before it is cooked: cutting it, mostly.

    Attributes:
        name: As recipes write it.
        title: The verb on the run sheet.
        set_up: Minutes to lay out board and knife.
        clean_down: Minutes to wash board, knife and hands afterwards.
        per_kg: Minutes of cutting a kilogram.
        foods: The same for foods that differ.
        knife: Whether it takes one who may use a knife.
    """

    name: str
    title: str
    set_up: int
    clean_down: int
    per_kg: float
    foods: Mapping[str, float] = field(default_factory=dict)
    knife: bool = True

    def say(self, what: str) -> str:
        """The work in words: "Dice onions", "Cut beef chuck into 1-inch cubes"."""
        verb, into, shape = self.title.partition(" into ")
        return f"{verb} {what.removesuffix(', drained')}{into}{shape}"

    def minutes(self, food: str, weight: Quantity) -> int:
        """Whole minutes of cutting ``weight`` (a mass) of ``food``, at least one."""
        rate = self.foods.get(food, self.per_kg)
        return max(1, math.ceil(rate * float(weight.to("kilogram").magnitude) - 1e-9))


@dataclass(frozen=True)
class Technique:
    """A kind of kitchen work.

    Attributes:
        name: As recipes write it.
        title: The verb on the run sheet.
        vessels: Kinds of vessel it can be done in; empty for work at the counter.
        skills: What the cook must be able to do.
        fixed: Hands-on minutes whatever the amount.
        per_kg: Further hands-on minutes a kilogram.
        foods: The same for foods that differ.
        per_litre: Further hands-on minutes a litre.
        per_load: Hands-on minutes of one vessel's load, for work done in loads.
        per_container: Further hands-on minutes a container.
        per_item: Further hands-on minutes an ingredient.
        set_up: Minutes before the first part of a run of shared work.
        clean_down: Minutes after its last part.
        timed: The recipe's step says how long it stays at heat.
        oven: The recipe's step says at which oven temperature.
        shared: Work of several dishes on the same food is done as one run.
        sink: It needs the sink.
    """

    name: str
    title: str
    vessels: frozenset[str] = frozenset()
    skills: frozenset[str] = frozenset()
    fixed: float = 0.0
    per_kg: float = 0.0
    foods: Mapping[str, float] = field(default_factory=dict)
    per_litre: float = 0.0
    per_load: float = 0.0
    per_container: float = 0.0
    per_item: float = 0.0
    set_up: int = 0
    clean_down: int = 0
    timed: bool = False
    oven: bool = False
    shared: bool = False
    sink: bool = False

    def minutes(
        self,
        *,
        weight: Quantity | None = None,
        volume: Quantity | None = None,
        containers: int = 0,
        items: int = 0,
        of: Mapping[str, float] | None = None,
        goes: int = 1,
    ) -> int:
        """Whole hands-on minutes for so much food, at least one.

        Args:
            weight: Of all the food.
            volume: Of it.
            containers: That are filled with it.
            items: Ingredients.
            of: Food key to grams, as far as foods may differ; part of the weight.
            goes: In how many goes it is done, each with its fixed minutes.
        """
        total = (
            self.fixed * goes
            + self.per_load
            + self.per_container * containers
            + self.per_item * items
        )
        if weight is not None:
            total += self.per_kg * float(weight.to("kilogram").magnitude)
        for food, grams in (of or {}).items():
            total += (self.foods.get(food, self.per_kg) - self.per_kg) * grams / 1000
        if volume is not None:
            total += self.per_litre * float(volume.to("litre").magnitude)
        return max(1, math.ceil(total - 1e-9))


@cache
def _table() -> Mapping[str, Any]:
    text = resources.files("batchcook.data").joinpath("techniques.toml").read_text("utf-8")
    return tomllib.loads(text)


def _techniques(section: str) -> Mapping[str, Technique]:
    return {name: _technique(name, entry) for name, entry in _table()[section].items()}


def _technique(name: str, entry: Mapping[str, Any]) -> Technique:
    fields: dict[str, Any] = {
        key: frozenset(value) if isinstance(value, list) else value for key, value in entry.items()
    }
    return Technique(name=name, **fields)


@cache
def load_techniques() -> Mapping[str, Technique]:
    """What a recipe's steps may name."""
    return _techniques("techniques")


@cache
def load_routines() -> Mapping[str, Technique]:
    """The work that every prep day needs and no recipe names."""
    return _techniques("routine")


CUTS: Mapping[str, Cut] = {
    name: Cut(name=name, **entry) for name, entry in _table()["cuts"].items()
}
