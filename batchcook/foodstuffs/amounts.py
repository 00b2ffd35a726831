"""A food, and what amounts of it weigh."""

from __future__ import annotations

from dataclasses import dataclass

from batchcook.complaints import Complaint, InputFault
from batchcook.foodstuffs.measures import Measure, best_measure
from batchcook.quantities import Quantity, ureg

__all__ = ["Food", "PurchaseSize", "ratio"]


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
        plural: How lists and sheets call it, with its capitals.
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
        buy_metric: Sizes it is sold in where packs are told in grams and litres.
        to_taste: Whether it is adjusted by taste when a recipe is multiplied.
        shop: Whether a list counts it, weighs it, or takes the form that suits.
        bought_as: What is bought for it, singular and plural, where that is another food.
        ask_for: Which form of it to buy, ``"boneless, skinless"``, or an empty string.
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
    buy_metric: tuple[PurchaseSize, ...]
    to_taste: bool
    shop: str
    bought_as: tuple[str, str] | None
    ask_for: str
    also: tuple[str, ...]
    keep: str

    @property
    def singular(self) -> str:
        """How lists and sheets call one of it: ``"red bell pepper"``, ``"Italian sausage"``."""
        name, _, kind = self.key.partition(", ")
        proper = {word.lower(): word for word in self.plural.split() if word[0].isupper()}
        words = f"{kind} {name}".split()
        return " ".join(proper.get(word, word) for word in words)

    @property
    def at_the_store(self) -> str:
        """How it is asked for, several of it: ``"boneless, skinless chicken thighs"``."""
        return f"{self.ask_for} {self.plural}".strip().removesuffix(", drained")

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
            count = ratio(quantity, ureg.Quantity(1, measure.unit))
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
        return ureg.Quantity(ratio(grams, cup), "cup")

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


def ratio(amount: Quantity, one: Quantity) -> float:
    """How many times one amount is another of its kind."""
    return float((amount / one).to("").magnitude)
