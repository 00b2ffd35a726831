"""What a cook can measure: the marks on spoons, cups, jugs and scales.

The gaps between marks are our choice: common practice, no source. Sizes of the measures are
those of NIST Handbook 44, Appendix C.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Final, TypeAlias

__all__ = ["Mark", "Tail", "cooks_marks", "scale_marks"]

Mark: TypeAlias = tuple[Fraction, str]
"""A number and the unit it is read in."""


@dataclass(frozen=True)
class Tail:
    """Marks at even steps without end.

    Attributes:
        begins: Where the first is, in the unit of the marks before.
        step: From one to the next, in that unit.
        number: The same step as it is read.
        unit: The unit it is read in.
    """

    begins: float
    step: float
    number: Fraction
    unit: str


Marks: TypeAlias = tuple[Mapping[float, Mark], Tail]

_TEASPOONS: Final[Mapping[str, Fraction]] = {
    "teaspoon": Fraction(1),
    "tablespoon": Fraction(3),
    "cup": Fraction(48),
    "quart": Fraction(192),
    "millilitre": 1 / Fraction("4.92892159375"),
    "litre": 1000 / Fraction("4.92892159375"),
}
_GRAMS: Final[Mapping[str, Fraction]] = {
    "gram": Fraction(1),
    "kilogram": Fraction(1000),
    "ounce": Fraction("28.349523125"),
    "pound": Fraction("453.59237"),
}
_SPOONS: Final = (
    ("teaspoon", "1/8 1/4 1/2 3/4 1 5/4 3/2 7/4 2 5/2"),
    ("tablespoon", "1"),
    ("teaspoon", "4"),
    ("tablespoon", "3/2 2 5/2 3"),
)
_PART_CUPS: Final = (
    ("cup", "1/4 1/3"),
    ("tablespoon", "6"),
    ("cup", "1/2 2/3 3/4"),
)
_PARTS_OF_A_CUP: Final = tuple(map(Fraction, ("0", "1/4", "1/3", "1/2", "2/3", "3/4")))
_CUPS_IN_CUPS: Final = 8


@cache
def cooks_marks(system: str, kind: str) -> Marks:
    """Marks for measuring and buying, in teaspoons, grams or pieces.

    Args:
        system: ``"us"`` or ``"metric"``.
        kind: ``"volume"``, ``"solid"`` (a volume of pieces, in cups whatever its size), ``"mass"``
            or ``"count"``.
    """
    return {
        ("us", "volume"): _us_volume,
        ("us", "solid"): _us_solid,
        ("metric", "volume"): _metric_volume,
        ("metric", "solid"): _metric_volume,
        ("us", "mass"): _us_mass,
        ("metric", "mass"): _metric_mass,
    }.get((system, kind), _count)()


@cache
def scale_marks(system: str) -> Marks:
    """Marks of a kitchen scale, in grams.

    Args:
        system: ``"us"`` or ``"metric"``.
    """
    if system == "us":
        ounces = (("ounce", _steps("1/4", "2", "1/4")), ("ounce", _steps("5/2", "31/2", "1/2")))
        return _laid_out(ounces, _GRAMS), _tail("ounce", "16", "1", _GRAMS)
    marks = (
        ("gram", _steps("1", "20", "1")),
        ("gram", _steps("25", "200", "5")),
        ("gram", _steps("210", "990", "10")),
    )
    return _laid_out(marks, _GRAMS), _tail("kilogram", "1", "1/20", _GRAMS)


def _us_volume() -> Marks:
    cups = [whole + part for whole in range(1, _CUPS_IN_CUPS) for part in _PARTS_OF_A_CUP]
    marks = _laid_out((*_written(_SPOONS), *_written(_PART_CUPS), ("cup", cups)), _TEASPOONS)
    return marks, _tail("quart", "2", "1/4", _TEASPOONS)


def _us_solid() -> Marks:
    return _us_volume()[0], _tail("cup", "8", "1/2", _TEASPOONS)


def _metric_volume() -> Marks:
    jug = (
        ("millilitre", _steps("50", "100", "5")),
        ("millilitre", _steps("110", "250", "10")),
        ("millilitre", _steps("275", "500", "25")),
        ("millilitre", _steps("550", "950", "50")),
    )
    marks = _laid_out((*_written(_SPOONS), *jug), _TEASPOONS)
    return marks, _tail("litre", "1", "1/20", _TEASPOONS)


def _us_mass() -> Marks:
    marks = (("ounce", _steps("1/4", "2", "1/4")), ("ounce", _steps("5/2", "31/2", "1/2")))
    return _laid_out(marks, _GRAMS), _tail("pound", "1", "1/4", _GRAMS)


def _metric_mass() -> Marks:
    marks = (
        ("gram", [*_steps("1", "10", "1"), Fraction(12)]),
        ("gram", _steps("15", "100", "5")),
        ("gram", _steps("110", "250", "10")),
        ("gram", _steps("275", "500", "25")),
        ("gram", _steps("550", "950", "50")),
    )
    return _laid_out(marks, _GRAMS), _tail("kilogram", "1", "1/20", _GRAMS)


def _count() -> Marks:
    pieces = {"each": Fraction(1)}
    marks = (("each", _steps("1/4", "2", "1/4")), ("each", _steps("5/2", "7/2", "1/2")))
    return _laid_out(marks, pieces), _tail("each", "4", "1", pieces)


def _written(lines: Iterable[tuple[str, str]]) -> Iterator[tuple[str, list[Fraction]]]:
    for unit, numbers in lines:
        yield unit, [Fraction(number) for number in numbers.split()]


def _steps(first: str, last: str, step: str) -> list[Fraction]:
    """Numbers at even steps, both ends included."""
    start, by = Fraction(first), Fraction(step)
    return [start + by * n for n in range(int((Fraction(last) - start) / by) + 1)]


def _laid_out(
    marks: Iterable[tuple[str, Iterable[Fraction]]], sizes: Mapping[str, Fraction]
) -> Mapping[float, Mark]:
    """Each mark by its place, from the smallest up."""
    return {
        float(number * sizes[unit]): (number, unit) for unit, numbers in marks for number in numbers
    }


def _tail(unit: str, begins: str, step: str, sizes: Mapping[str, Fraction]) -> Tail:
    size = sizes[unit]
    return Tail(float(Fraction(begins) * size), float(Fraction(step) * size), Fraction(step), unit)
