"""Foods: what their household measures weigh, how they are bought, how their amounts are told."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.foodmeasures import Measure, best_measure
from batchcook.foodsafety.kinds import KEEPS_IN_THE_CUPBOARD
from batchcook.foodtable import FoodEntry, read_food_table
from batchcook.quantities import COUNTS, Quantity, say, ureg

__all__ = ["Food", "PurchaseSize", "add_amounts", "describe", "food", "load_foods", "shopping_text"]


@dataclass(frozen=True)
class PurchaseSize:
    """A size in which a store sells a food.

    Attributes:
        words: As it stands on the shelf: ``"14 1/2 oz can"``, ``"carton of 12 large"``.
        amount: What one holds, or None where it is sold loose or by the piece of any size.
    """

    words: str
    amount: Quantity | None


@dataclass(frozen=True)
class Food:
    """A food.

    Attributes:
        key: Its trade name, as recipes write it.
        plural: How lists and sheets call it.
        kind: What it is as far as safety goes.
        section: Where a store keeps it.
        measures: What its household measures weigh.
        ndb: Its number in USDA SR26, or None where its figures are ours.
        sr26: Its description there.
        refuse_percent: Share of it as purchased that is thrown away.
        bought_whole: Whether it is bought with that share.
        liquid: Whether it is measured by volume in any system.
        allergens: Which of the nine major allergens it carries.
        buy: Sizes it is sold in.
        to_taste: Whether it is adjusted by taste when a recipe is multiplied.
        shop: Whether a list counts it, weighs it, or takes the form that suits.
        bought_as: What is bought for it, singular and plural, where that is another food.
        also: Other names for it.
        keep: How it keeps, or an empty string.
    """

    key: str
    plural: str
    kind: str
    section: str
    measures: tuple[Measure, ...]
    ndb: str | None
    sr26: str
    refuse_percent: float
    bought_whole: bool
    liquid: bool
    allergens: tuple[str, ...]
    buy: tuple[PurchaseSize, ...]
    to_taste: bool
    shop: str
    bought_as: tuple[str, str] | None
    also: tuple[str, ...]
    keep: str

    @property
    def perishable(self) -> bool:
        """Whether it may not stand at room temperature before it is cooked."""
        return self.kind not in KEEPS_IN_THE_CUPBOARD

    @property
    def density(self) -> Quantity | None:
        """Weight by volume of a liquid, from its cup; None for anything else."""
        if not self.liquid:
            return None
        density: Quantity = self._measure("cup", None, self.key).weight / ureg.Quantity(1, "cup")
        return density

    def to_grams(self, quantity: Quantity, cut: str | None = None, *, where: str = "") -> Quantity:
        """What an amount weighs, in grams.

        A volume takes the figure of its cut: the nearest kind of cut that the table has (diced:
        diced, else chopped, cubed, as it comes, sliced), and of its measures the one nearest in
        size. A count takes its own figure; ``each`` stands for the medium one, else the large.

        Args:
            quantity: A mass, a volume or a household count.
            cut: How it is cut, or None.
            where: The place that asks, for the message; the food's name when empty.

        Raises:
            InputFault: The table has no figure for that measure.
        """
        if quantity.check("[mass]"):
            return quantity.to("gram")
        unit = "cup" if quantity.check("[volume]") else str(quantity.units)
        if quantity.check("[volume]") and str(quantity.units) in {"teaspoon", "tablespoon"}:
            unit = str(quantity.units)
        measure = self._measure(unit, cut, where or self.key)
        if measure.is_volume:
            count = _ratio(quantity, ureg.Quantity(1, measure.unit))
        else:
            count = float(quantity.magnitude)
        weight: Quantity = measure.weight * count
        return weight

    def to_cups(self, grams: Quantity, cut: str | None = None) -> Quantity:
        """The volume of a weight, in cups of that cut; the same rule as :meth:`to_grams`.

        Raises:
            InputFault: The table has no volume for it.
        """
        cup = self.to_grams(ureg.Quantity(1, "cup"), cut)
        return ureg.Quantity(_ratio(grams, cup), "cup")

    def as_purchased(self, grams: Quantity) -> Quantity:
        """The weight to buy for a weight to use: grown by the refuse share if bought whole."""
        weight: Quantity = grams.to("gram") / self._share_used
        return weight

    def as_used(self, grams: Quantity) -> Quantity:
        """The weight to use of a weight as purchased: :meth:`as_purchased` backwards."""
        weight: Quantity = grams.to("gram") * self._share_used
        return weight

    def has(self, unit: str) -> bool:
        """Whether the table can weigh a measure of it."""
        return best_measure(self.measures, unit, None) is not None

    @property
    def _share_used(self) -> float:
        return 1 - self.refuse_percent / 100 if self.bought_whole else 1.0

    def _measure(self, unit: str, cut: str | None, where: str) -> Measure:
        found = best_measure(self.measures, unit, cut)
        if found is None:
            known = dict.fromkeys(each.unit for each in self.measures)
            raise InputFault(
                Complaint(
                    where,
                    f"the foods table does not say what 1 {unit} of {self.key} weighs",
                    "a weight" + (f", or one of {', '.join(known)}" if known else ""),
                )
            )
        return found


@cache
def load_foods() -> Mapping[str, Food]:
    """Every food of the table, by its key, in the table's order.

    Raises:
        InputFault: The table is at fault; with every complaint.
    """
    text = resources.files("batchcook.data").joinpath("foods.toml").read_text("utf-8")
    return {key: _food(key, entry) for key, entry in read_food_table(text, "foods.toml").items()}


def food(name: str, where: str) -> Food:
    """The food with this key.

    Args:
        name: Its key.
        where: The place that named it, for the message.

    Raises:
        InputFault: There is none; suggests the one that also goes by that name, or the nearest.
    """
    foods = load_foods()
    if name in foods:
        return foods[name]
    names = {also: key for key, each in foods.items() for also in (key, each.plural, *each.also)}
    close = nearest(name, names)
    raise InputFault(
        Complaint(where, f"unknown food {name!r}", "a food of our table", names.get(close, ""))
    )


def add_amounts(food: Food, amounts: Iterable[tuple[Quantity, str | None]]) -> Quantity:
    """The weight of amounts in any units and cuts together, in grams.

    Raises:
        InputFault: The table has no figure for one of them.
    """
    total = ureg.Quantity(0.0, "gram")
    for quantity, cut in amounts:
        total = total + food.to_grams(quantity, cut)
    return total


def describe(
    food: Food,
    grams: Quantity,
    cut: str | None,
    system: str,
    like: Quantity | None = None,
    *,
    named: bool = True,
) -> str:
    """An amount that a cook can measure: ``"4 cups (640 g) onions"``, ``"2 tbsp canola oil"``.

    Args:
        food: The food.
        grams: Its weight as used.
        cut: How it is cut, or None.
        system: ``"us"`` or ``"metric"``.
        like: An amount in the form to use, volume, weight or count, as its recipe writes it;
            without one, volume where the table has it.
        named: Whether the food's name follows.

    Raises:
        InputFault: The table has no figure for that form.
    """
    amount = _in_form(food, grams, cut, system, like)
    return f"{amount} {_named(food, like, grams)}" if named else amount


def shopping_text(food: Food, purchased: Quantity, system: str) -> str:
    """What to buy, rounded up: ``"5 lb (about 20 medium)"``, ``"12 large"``, ``"3 cups"``.

    Args:
        food: The food.
        purchased: The weight to buy, as from :meth:`Food.as_purchased`.
        system: ``"us"`` or ``"metric"``.
    """
    used = food.as_used(purchased)
    piece = None if food.shop == "weight" else _piece(food)
    if piece and food.shop == "count":
        return _pieces(food, used, piece)
    spoken = food.liquid or (food.has("teaspoon") and food.kind == "spice") or food.bought_as
    amount = (
        say(_volume(food, used, None), system, up=True)
        if spoken
        else say(purchased, system, up=True)
    )
    return f"{amount} (about {_pieces(food, used, piece)})" if piece else amount


def _food(key: str, entry: FoodEntry) -> Food:
    return Food(
        key=key,
        plural=entry.plural,
        kind=entry.kind,
        section=entry.section,
        measures=tuple(
            Measure(each.unit, each.cut, each.grams, each.amount, each.sr26, each.ours)
            for each in entry.measures
        ),
        ndb=entry.ndb,
        sr26=entry.sr26,
        refuse_percent=entry.refuse,
        bought_whole=entry.bought_whole,
        liquid=entry.liquid,
        allergens=entry.allergens,
        buy=tuple(PurchaseSize(words, amount) for words, amount in entry.sizes()),
        to_taste=entry.scales == "to taste",
        shop=entry.shop,
        bought_as=entry.bought_as,
        also=entry.also,
        keep=entry.keep,
    )


_LEAST_CUPS = 0.24
"""Just under a quarter: less is measured in spoons."""

_PIECES = ("each", "large", "medium", "head", "bunch", "stalk")
"""Counts by which a store sells."""


def _in_form(
    food: Food, grams: Quantity, cut: str | None, system: str, like: Quantity | None
) -> str:
    if like is not None and str(like.units) in COUNTS:
        unit = str(like.units)
        count = _ratio(grams, food.to_grams(ureg.Quantity(1, unit), cut))
        return say(ureg.Quantity(count, "each" if unit in food.key else unit), system)
    by_volume = food.has("cup") if like is None else like.check("[volume]")
    if not by_volume:
        return say(grams, system)
    volume = _volume(food, grams, cut)
    if food.liquid or str(volume.units) != "cup":
        return say(volume, system, solid=not food.liquid)
    weight = say(grams, "metric", weigh=True)
    return weight if system == "metric" else f"{say(volume, system, solid=True)} ({weight})"


def _volume(food: Food, grams: Quantity, cut: str | None) -> Quantity:
    """By the measure nearest in size: spoons and cups of a food may differ a little."""
    count = 0.0
    for unit, least in (("cup", _LEAST_CUPS), ("tablespoon", 1.0), ("teaspoon", 0.0)):
        count = _ratio(grams, food.to_grams(ureg.Quantity(1, unit), cut))
        if count >= least:
            return ureg.Quantity(count, unit)
    return ureg.Quantity(count, "teaspoon")


def _named(food: Food, like: Quantity | None, grams: Quantity) -> str:
    """The food's name, singular where the amount is one piece or less of it."""
    if like is None or str(like.units) not in {"each", "small", "medium", "large", "leaf"}:
        return food.plural
    one = food.to_grams(ureg.Quantity(1, like.units), None)
    return food.key if food.bought_whole and grams <= one * _ABOUT_ONE else food.plural


_ABOUT_ONE = 1.01


def _piece(food: Food) -> str | None:
    """The count by which a store sells it, the first that the table has."""
    return next((each.unit for each in food.measures if each.unit in _PIECES), None)


def _pieces(food: Food, grams: Quantity, unit: str) -> str:
    """Whole pieces, rounded up."""
    count = max(1, math.ceil(_ratio(grams, food.to_grams(ureg.Quantity(1, unit))) - _HAIR))
    if food.bought_as:
        return f"{count} {food.bought_as[0] if count == 1 else food.bought_as[1]}"
    return say(ureg.Quantity(count, unit))


_HAIR = 0.02
"""A fiftieth of a piece is not worth another one."""


def _ratio(amount: Quantity, one: Quantity) -> float:
    return float((amount / one).to("").magnitude)
