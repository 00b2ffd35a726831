"""What is at hand, and what things cost: a file of the cook's own, and the words of ``--have``."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

from batchcook.buying.packs import Size, sizes
from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.foods import food
from batchcook.kitchens.containers import find_container, load_containers
from batchcook.quantities import parse_amount
from batchcook.tomlfiles import parse_toml, read_text
from batchcook.tomlplaces import Places, read_table
from batchcook.wholenumbers import whole_number

__all__ = ["Pantry", "load_pantry", "parse_have", "together"]


@dataclass(frozen=True)
class Pantry:
    """What need not be bought, and what the rest costs.

    Attributes:
        foods: Food key to grams at hand, as purchased.
        containers: Container name to how many are at hand.
        prices: Food key to what one of a size costs, for the sizes whose price is known.
        currency: Stands before an amount of money.
    """

    foods: Mapping[str, float] = field(default_factory=dict)
    containers: Mapping[str, int] = field(default_factory=dict)
    prices: Mapping[str, Mapping[Size, float]] = field(default_factory=dict)
    currency: str = "$"


class _PantryTable(BaseModel):
    model_config = ConfigDict(extra="forbid")

    currency: Annotated[str, Field(max_length=4)] | None = None
    have: dict[str, str | list[str]] = Field(
        {}, description='amounts of foods, as onion = "2 kg" or onion = ["1 kg", "3 medium"]'
    )
    containers: dict[str, Annotated[int, Field(ge=0)]] = Field(
        {}, description='how many, as "quart tub" = 12'
    )
    prices: dict[str, dict[str, Annotated[float, Field(ge=0)]]] = Field(
        {}, description='a table a food, as onion = { "3 lb bag" = 3.49 }'
    )


def load_pantry(path: Path) -> Pantry:
    """The pantry in a file: ``currency`` and the tables ``have``, ``containers``, ``prices``.

    Raises:
        InputFault: With every fault found in it.
    """
    where = str(path)
    text = read_text(path, "a pantry file, as `batchcook shop --template` prints one")
    found = parse_toml(text, where)
    places = Places.of(where, text)
    return _read(read_table(_PantryTable, found, places), places)


def parse_have(words: Sequence[str]) -> Pantry:
    """What the command line says is at hand, each as ``"onion 2 kg"`` or ``"quart tub 12"``.

    Raises:
        InputFault: With every word that cannot be read.
    """
    foods: dict[str, float] = {}
    containers: dict[str, int] = {}
    complaints: list[Complaint] = []
    for each in words:
        try:
            _have(each, foods, containers)
        except InputFault as fault:
            complaints += fault.complaints
    if complaints:
        raise InputFault(complaints)
    return Pantry(foods, containers)


def together(pantries: Sequence[Pantry]) -> Pantry:
    """Several as one: what is at hand adds up; a later price or currency stands."""
    foods: dict[str, float] = {}
    containers: dict[str, int] = {}
    prices: dict[str, dict[Size, float]] = {}
    currency = "$"
    for each in pantries:
        for name, grams in each.foods.items():
            foods[name] = foods.get(name, 0.0) + grams
        for name, count in each.containers.items():
            containers[name] = containers.get(name, 0) + count
        for name, costs in each.prices.items():
            prices[name] = {**prices.get(name, {}), **costs}
        currency = each.currency if each.currency != "$" else currency
    return Pantry(foods, containers, prices, currency)


def _read(table: _PantryTable, places: Places) -> Pantry:
    """The table's names looked up and its amounts weighed."""
    complaints: list[Complaint] = []
    foods: dict[str, float] = {}
    for name, amounts in table.have.items():
        where = places.at("have", name)
        try:
            foods[name] = sum(
                _grams(name, amount, where)
                for amount in ([amounts] if isinstance(amounts, str) else amounts)
            )
        except InputFault as fault:
            complaints += fault.complaints
    for name in table.containers:
        try:
            find_container(name, places.at("containers", name))
        except InputFault as fault:
            complaints += fault.complaints
    prices: dict[str, Mapping[Size, float]] = {}
    for name, costs in table.prices.items():
        try:
            prices[name] = _prices(name, costs, places)
        except InputFault as fault:
            complaints += fault.complaints
    if complaints:
        raise InputFault(complaints)
    return Pantry(foods, table.containers, prices, table.currency or "$")


def _have(words: str, foods: dict[str, float], containers: dict[str, int]) -> None:
    """Adds what one ``--have`` says to what is at hand."""
    where = f"--have {words!r}"
    text = " ".join(words.split())
    kind = next((each for each in load_containers() if text.startswith(f"{each} ")), None)
    count = None if kind is None else whole_number(text[len(kind) :])
    if kind is not None and count is not None:
        containers[kind] = containers.get(kind, 0) + count
        return
    split = re.fullmatch(r"(?P<name>[^\d]+?)[ =]+(?P<amount>-?\d.*)", text)
    if split is None:
        raise InputFault(
            Complaint(where, "has no amount", 'a food and an amount, as in "onion 2 kg"')
        )
    name = split["name"]
    if split["amount"].startswith("-"):
        what = f"{split['amount']} is below zero"
        raise InputFault(Complaint(where, what, "what is at home, 0 or more"))
    grams = _grams(name, split["amount"], where)
    foods[name] = foods.get(name, 0.0) + grams


def _grams(name: str, amount: str, where: str) -> float:
    """Weight at hand, as purchased: what is weighed still has its skin, what is measured has not.

    Raises:
        InputFault: No such food or amount, or the table cannot weigh it.
    """
    found = food(name, where)
    quantity = parse_amount(amount, where=where)
    weight = found.to_grams(quantity, where=where)
    bought = weight if quantity.check("[mass]") else found.as_purchased(weight)
    return float(bought.to("gram").magnitude)


def _prices(name: str, costs: Mapping[str, float], places: Places) -> Mapping[Size, float]:
    """What one of each size costs.

    Raises:
        InputFault: No such food, or it is not sold in such a size.
    """
    found = food(name, places.at("prices", name))
    sold = {size.words: size for system in ("us", "metric") for size in sizes(found.key, system)}
    unknown = [
        Complaint(
            places.at("prices", name, words),
            f"{name} is not sold by {words!r}",
            f"one of {', '.join(sold)}",
            nearest(words, sold),
        )
        for words in costs
        if words not in sold
    ]
    if unknown:
        raise InputFault(unknown)
    return {
        sold[words]: cost * (sold[words].grams / _PRICED[words] if words in _PRICED else 1)
        for words, cost in costs.items()
    }


_PRICED = {"by the pound": 453.59237, "by the kilo": 1000.0}
"""Grams that a price at the counter is for: NIST Handbook 44, Appendix C."""
