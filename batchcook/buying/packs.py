"""The sizes in which a store sells a food, and how many of each to take."""

from __future__ import annotations

import itertools
import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Final

from batchcook.foods import Food, load_foods
from batchcook.quantities import COUNTS, Quantity, say, ureg

__all__ = ["Choice", "Size", "choice_words", "choose", "fewer", "more", "sizes"]

_SHORT: Final = 0.02
"""A fiftieth too little is enough: no one buys another can for it."""

_AS_GOOD: Final = 0.1
"""Left over within a tenth of the need of the least possible counts as the least."""

_JAR: Final = ureg.Quantity(0.5, "cup")
"""What a jar of a spice holds: common practice, no source."""

_LOOSE_STEPS: Final[Mapping[str, Quantity]] = {
    "by the pound": ureg.Quantity(0.25, "pound"),
    "by the kilo": ureg.Quantity(100, "gram"),
}
"""What is weighed at the counter comes in steps of this."""

_ANOTHER_CAN: Final = 1 / 15
"""How much less a can of 400 g may hold than one of 15 oz: a recipe that takes a can gets a can."""


@dataclass(frozen=True)
class Size:
    """One thing that a store sells.

    Attributes:
        words: As it stands in the foods table: ``"28 oz can"``, ``"each"``, ``"by the pound"``.
        grams: How much to use is in one; for what is weighed, one step of the scale.
        loose: Whether it is picked or weighed by itself, not packed.
        short: The share of the need that may be missing with it.
    """

    words: str
    grams: float
    loose: bool = False
    short: float = _SHORT


@dataclass(frozen=True)
class Choice:
    """How many of each size.

    Attributes:
        counts: Size to how many, none of them 0.
    """

    counts: Mapping[Size, int]

    @property
    def grams(self) -> float:
        """All that is in them."""
        return sum(size.grams * count for size, count in self.counts.items())

    @property
    def pieces(self) -> int:
        """How many things are put in the cart."""
        return sum(self.counts.values())

    def covers(self, need: float) -> bool:
        """Whether it is enough for so many grams."""
        short = max((size.short for size in self.counts), default=_SHORT)
        return self.grams >= need * (1 - short)

    def cost(self, prices: Mapping[Size, float]) -> float | None:
        """What they cost, or None where a price is missing."""
        if any(size not in prices for size in self.counts):
            return None
        return round(sum(prices[size] * count for size, count in self.counts.items()), 2)


def sizes(name: str, system: str = "us") -> tuple[Size, ...]:
    """The sizes in which a food is sold, packed ones first, with the weight as purchased in each.

    A can whose own measure weighs less than the label says holds liquid that is poured off: what is
    left counts.

    Args:
        name: The food's key.
        system: ``"us"`` or ``"metric"``: packs are told in ounces and pounds, or in grams and
            litres.
    """
    return _sizes(name, system == "metric")


@cache
def _sizes(name: str, metric: bool) -> tuple[Size, ...]:
    food = load_foods()[name]
    kept = _share_kept(food)
    found = []
    for each in food.buy_metric if metric else food.buy:
        short = _ANOTHER_CAN if metric and each.words.endswith(" can") else _SHORT
        if each.amount is None:
            found.append(_unmeasured(food, each.words))
        elif each.amount.check("[mass]"):
            grams = float(each.amount.to("gram").magnitude) * kept
            found.append(Size(each.words, grams, short=short))
        else:
            grams = _purchased(food, food.to_grams(each.amount))
            found.append(Size(each.words, grams, short=short))
    return tuple(sorted(found, key=lambda size: size.loose))


def choose(need: float, sold: Sequence[Size], prices: Mapping[Size, float] | None = None) -> Choice:
    """The least waste; where that is alike, the lowest cost if all prices are known, fewest things.

    Every choice of counts is tried: a food has three sizes at most. Packs of one size that come out
    even go before fewer of mixed sizes: a recipe that takes four cans gets four.

    Args:
        need: Grams as purchased.
        sold: The sizes; not empty.
        prices: What one of a size costs, for those whose price is known.
    """
    if need <= 0:
        return Choice({})
    packed = [size for size in sold if not size.loose]
    loose = next((size for size in sold if size.loose), None)
    ranges = [range(math.ceil(need / size.grams) + 1) for size in packed]
    found = [
        choice
        for counts in itertools.product(*ranges)
        if (choice := _filled(need, dict(zip(packed, counts, strict=True)), loose)) is not None
    ]
    least = min(choice.grams for choice in found)
    known = prices or {}
    priced = all(size in known for size in sold)

    def rank(choice: Choice) -> tuple[float, bool, int, float]:
        cost = (choice.cost(known) or 0.0) if priced else 0.0
        alike = len(choice.counts) == 1 and loose not in choice.counts
        even = alike and choice.grams <= need * (1 + _SHORT)
        return cost, not even, choice.pieces, choice.grams

    return min((each for each in found if each.grams <= least + _AS_GOOD * need), key=rank)


def more(held: Choice, need: float, sold: Sequence[Size]) -> Choice:
    """What to add to a choice so that both together meet a need.

    Args:
        held: What is in the cart.
        need: Grams as purchased, of both.
        sold: The sizes; not empty.
    """
    # What may be missing is a share of the whole need, not of the rest.
    enough = 1 - max(size.short for size in sold)
    return choose(need - held.grams / enough, sold)


def fewer(held: Choice, need: float) -> Choice:
    """What is left of a choice when as much as possible is put back and the need is still met.

    Args:
        held: What is in the cart.
        need: Grams as purchased.
    """
    options = itertools.product(*(range(count + 1) for count in held.counts.values()))
    found = [
        Choice({size: count for size, count in zip(held.counts, counts, strict=True) if count})
        for counts in options
    ]
    enough = [each for each in found if each.covers(need)]
    return min(enough, key=lambda each: (each.grams, each.pieces), default=held)


def choice_words(name: str, choice: Choice, system: str) -> str:
    """A choice as one asks for it: ``"2 bags of 3 lb"``, ``"1 can of 28 oz and 2 cans of 15 oz"``.

    Args:
        name: The food's key.
        choice: How many of each size.
        system: ``"us"`` or ``"metric"``, for what is weighed at the counter.
    """
    food = load_foods()[name]
    return " and ".join(
        _size_words(food, size, count, system) for size, count in choice.counts.items()
    )


def _filled(need: float, counts: Mapping[Size, int], loose: Size | None) -> Choice | None:
    """These packs, with loose ones for the rest; None where they fall short."""
    taken = {size: count for size, count in counts.items() if count}
    packed = Choice(taken)
    if packed.covers(need):
        return packed
    if loose is None:
        return None
    missing = need * (1 - _SHORT) - packed.grams
    return Choice({**taken, loose: math.ceil(missing / loose.grams)})


def _share_kept(food: Food) -> float:
    """Of the weight on a can's label, the share that is used."""
    can = next((each for each in food.measures if each.unit == "can"), None)
    labels = [
        float(each.amount.to("gram").magnitude)
        for each in food.buy
        if each.amount is not None and each.amount.check("[mass]")
    ]
    if can is None or not labels:
        return 1.0
    share = float(can.weight.magnitude) / min(labels)
    return share if share < _POURED_OFF else 1.0


_POURED_OFF: Final = 0.9
"""A can's contents that weigh less than this share of its label were drained."""


def _unmeasured(food: Food, words: str) -> Size:
    """What is sold without a weight on it: by the pound, a piece, a bunch, a loaf, a jar."""
    if words in _LOOSE_STEPS:
        return Size(words, float(_LOOSE_STEPS[words].to("gram").magnitude), loose=True)
    if words == "jar":
        return Size(words, _purchased(food, food.to_grams(_JAR)))
    unit = words if words in COUNTS else "each"
    return Size(words, _purchased(food, food.to_grams(ureg.Quantity(1, unit))), words == "each")


def _purchased(food: Food, used: Quantity) -> float:
    grams = food.as_purchased(used)
    return float(grams.to("gram").magnitude)


def _size_words(food: Food, size: Size, count: int, system: str) -> str:
    if size.words in _LOOSE_STEPS:
        return say(ureg.Quantity(size.grams * count, "gram"), system)
    if size.words == "each":
        return _pieces(food, count)
    packed = re.fullmatch(r"(?P<before>[0-9][0-9/. ]* (?:fl oz|\w+)) (?P<pack>\w+)", size.words)
    if packed:
        return f"{count} {_plural(packed['pack'], count)} of {packed['before']}"
    pack, _, held = size.words.partition(" of ")
    inside = "" if pack in {"bunch", "head"} or not held else f" of {held.removesuffix(' each')}"
    return f"{count} {_plural(pack, count)}{inside}"


def _pieces(food: Food, count: int) -> str:
    """So many pieces; of a fruit that is bought for its juice, the number alone."""
    units = (each.unit for each in food.measures if each.unit in {"each", "medium"})
    unit = "each" if food.bought_as else next(units, "each")
    return say(ureg.Quantity(count, unit))


def _plural(pack: str, count: int) -> str:
    if count == 1:
        return pack
    if pack == "loaf":
        return "loaves"
    return pack + ("es" if pack.endswith(("ch", "sh", "x", "s")) else "s")
