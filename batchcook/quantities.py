"""The units of the kitchen, and amounts as they are written."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import Any, Final, TypeAlias

import pint

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.marks import Mark, Tail, cooks_marks, scale_marks

__all__ = [
    "COUNTS",
    "Quantity",
    "System",
    "kitchen_round",
    "parse_amount",
    "parse_temperature",
    "say",
    "ureg",
]

Quantity: TypeAlias = pint.Quantity[Any]
System: TypeAlias = str
"""``"us"`` or ``"metric"``."""

COUNTS: Final[Mapping[str, str]] = {
    "each": "each",
    "small": "small",
    "medium": "medium",
    "large": "large",
    "clove": "cloves",
    "head": "heads",
    "stalk": "stalks",
    "bunch": "bunches",
    "leaf": "leaves",
    "slice": "slices",
    "stick": "sticks",
    "fillet": "fillets",
    "can": "cans",
    "package": "packages",
}
"""Household counts, each with its plural. What one weighs is a matter of the food."""


def _registry() -> pint.UnitRegistry[Any]:
    """US customary measures as in NIST Handbook 44, Appendix C, and household counts.

    Each count is a dimension of its own: a clove and a bunch are never added up unweighed.
    """
    registry: pint.UnitRegistry[Any] = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
    for name in COUNTS:
        registry.define(f"{name} = [count_of_{name}]")
    return registry


ureg: Final = _registry()

_SPELLINGS: Final[Mapping[str, tuple[str, ...]]] = {
    "teaspoon": ("tsp", "teaspoon"),
    "tablespoon": ("tbsp", "tablespoon"),
    "fluid_ounce": ("fl oz", "fluid ounce"),
    "cup": ("cup",),
    "pint": ("pint", "pt"),
    "quart": ("quart", "qt"),
    "gallon": ("gallon", "gal"),
    "millilitre": ("mL", "millilitre", "milliliter"),
    "litre": ("L", "litre", "liter"),
    "cubic_foot": ("cubic_foot", "cubic foot", "cubic feet"),
    "gram": ("g", "gram"),
    "kilogram": ("kg", "kilogram"),
    "ounce": ("oz", "ounce"),
    "pound": ("lb", "pound"),
    "inch": ("inch", "in", "inches"),
    "centimetre": ("cm", "centimetre", "centimeter"),
    "millimetre": ("mm", "millimetre", "millimeter"),
}
_UNITS: Final[Mapping[str, str]] = {
    **{
        spelling.lower(): unit
        for unit, spellings in _SPELLINGS.items()
        for each in spellings
        for spelling in (each, each + "s")
    },
    **{each: name for name, plural in COUNTS.items() for each in (name, plural)},
}
_NAMES: Final = (*(each for spellings in _SPELLINGS.values() for each in spellings), *COUNTS)
"""Units as they are suggested: in the singular."""

_WRITTEN = re.compile(
    r"(?:(?P<decimal>\d{1,20}(?:\.\d{1,20})?)"
    r"|(?:(?P<whole>\d{1,20})\s+)?(?P<top>\d{1,20})\s*/\s*(?P<bottom>\d{1,20}))"
    r"\s*(?P<unit>[A-Za-z][A-Za-z_ ]*)?"
)
_MOST: Final = 10_000
_EXAMPLES: Final = 'an amount such as "1 1/2 cup", "350 g" or "2 clove"'


def parse_amount(text: str, *, where: str) -> Quantity:
    """An amount as a cook writes it, such as ``"1 1/3 cups"``, ``"350 g"`` or ``"2 clove"``.

    Args:
        text: A number, whole, decimal or with a fraction, and a unit.
        where: The place, for the message.

    Raises:
        InputFault: It is no such amount, not above zero, or absurdly large; an unknown unit comes
            with the nearest known one.
    """
    stripped = text.strip()
    if stripped.startswith("-"):
        raise InputFault(Complaint(where, f"{text!r} is below zero", _EXAMPLES))
    written = _WRITTEN.fullmatch(stripped)
    if written is None or int(written["bottom"] or 1) == 0:
        raise InputFault(Complaint(where, f"{text!r} is no amount", _EXAMPLES))
    number = _number(written)
    if number == 0:
        raise InputFault(Complaint(where, f"{text!r} is nothing", "more than zero"))
    if number > _MOST:
        raise InputFault(
            Complaint(where, f"{text!r} is more than any kitchen has", f"at most {_MOST:,}")
        )
    return ureg.Quantity(float(number), _unit(written["unit"], text, where))


def parse_temperature(text: str, *, where: str) -> Quantity:
    """A temperature such as ``"375 degF"`` or ``"190 degC"``, in degF.

    Raises:
        InputFault: It is no temperature.
    """
    written = re.fullmatch(r"\s*(-?\d{1,5}(?:\.\d{1,9})?)\s*(?:deg)?\s*([FC])\s*", text)
    if written is None:
        raise InputFault(Complaint(where, f"{text!r} is no temperature", 'one like "375 degF"'))
    return ureg.Quantity(float(written[1]), f"deg{written[2]}").to("degF")


def kitchen_round(
    quantity: Quantity, system: System = "us", *, weigh: bool = False, up: bool = False
) -> Quantity:
    """The nearest amount that a cook can measure, in the unit it is measured in.

    Never zero. The rounding changes an amount by at most a seventh of it, once it is above
    3/4 teaspoon, an ounce, 4 grams or 3 of a count; below that by at most half the smallest
    measure's gap to the next (1/8 teaspoon, 1/4 ounce, a gram, 1/4 of a count).

    Args:
        quantity: A mass, a volume or a household count.
        system: ``"us"`` (spoons, cups, quarts, ounces, pounds) or ``"metric"`` (spoons up to 3
            tablespoons, then millilitres; grams, kilograms).
        weigh: For a scale: finer, in ounces or grams, within a thirtieth above 10 ounces or 100 g.
        up: Never down by more than a fiftieth: for shopping.

    Raises:
        ValueError: It is none of those, or below zero.
    """
    number, unit = _rounded(quantity, system, weigh=weigh, up=up)
    return ureg.Quantity(float(number), unit)


def say(
    quantity: Quantity,
    system: System = "us",
    *,
    weigh: bool = False,
    up: bool = False,
    solid: bool = False,
) -> str:
    """A kitchen amount in words, rounded by :func:`kitchen_round`: ``"1 1/3 cups"``, ``"5 lb"``.

    With ``weigh``, pounds come with ounces: ``"2 lb 5 oz"``; with ``solid``, cups never become
    quarts. A plain count has no unit: ``"12"``.

    Raises:
        ValueError: It is no mass, volume or count, or below zero.
    """
    number, unit = _rounded(quantity, system, weigh=weigh, up=up, solid=solid)
    if unit == "ounce" and number >= _OUNCES:
        pounds, ounces = divmod(number, _OUNCES)
        return f"{pounds} lb" + (f" {_fraction(ounces)} oz" if ounces else "")
    if unit in {"gram", "kilogram", "millilitre", "litre"}:
        return f"{float(number):g} {_SPELLINGS[unit][0]}"
    if unit == "each":
        return _fraction(number)
    return f"{_fraction(number)} {_unit_word(unit, number)}"


_OUNCES: Final = 16
_NOT_WORTH_MORE: Final = 0.02


def _number(written: re.Match[str]) -> Fraction:
    if written["decimal"]:
        return Fraction(written["decimal"])
    return int(written["whole"] or 0) + Fraction(int(written["top"]), int(written["bottom"]))


def _unit(written: str | None, text: str, where: str) -> str:
    if written is None:
        raise InputFault(
            Complaint(where, f"{text!r} has no unit", 'a unit after it; a plain count is "3 each"')
        )
    name = " ".join(written.split())
    unit = _UNITS.get(name.lower())
    if unit is None:
        raise InputFault(
            Complaint(where, f"unknown unit {name!r}", _EXAMPLES, nearest(name, _NAMES))
        )
    return unit


def _rounded(
    quantity: Quantity, system: System, *, weigh: bool, up: bool, solid: bool = False
) -> Mark:
    """The number and unit of the mark that an amount is rounded to."""
    if system not in {"us", "metric"}:
        raise ValueError(f"no system of measures {system!r}")
    kind, base = _kind(quantity)
    value = float(quantity.to(base).magnitude)
    if not value >= 0:
        raise ValueError(f"no amount: {quantity}")
    if weigh and kind == "mass":
        marks = scale_marks(system)
    else:
        marks = cooks_marks(system, "solid" if solid and kind == "volume" else kind)
    number, unit = _nearest_mark(value, *marks, up=up)
    return number, base if kind == "count" else unit


def _kind(quantity: Quantity) -> tuple[str, str]:
    """What an amount is an amount of, and the unit that its marks are counted in."""
    if quantity.check("[mass]"):
        return "mass", "gram"
    if quantity.check("[volume]"):
        return "volume", "teaspoon"
    name = str(quantity.units)
    if name in COUNTS:
        return "count", name
    raise ValueError(f"neither a mass, a volume nor a household count: {quantity}")


def _nearest_mark(value: float, marks: Mapping[float, Mark], tail: Tail, *, up: bool) -> Mark:
    """The mark nearest to a value, both in the unit of the marks; or the nearest not below."""
    hair = _NOT_WORTH_MORE * value if up else 1e-9 * value
    if value + hair >= tail.begins:
        steps = (value - hair) / tail.step
        count = -int(-steps // 1) if up else round(value / tail.step)
        return count * tail.number, tail.unit
    if up:
        found = next((at for at in marks if at >= value - hair), tail.begins)
    else:
        found = min((*marks, tail.begins), key=lambda at: abs(at - value))
    return marks.get(found, (round(tail.begins / tail.step) * tail.number, tail.unit))


def _fraction(number: Fraction) -> str:
    whole, part = divmod(number, 1)
    if not part:
        return str(whole)
    return f"{whole} {part}" if whole else str(part)


def _unit_word(unit: str, number: Fraction) -> str:
    if unit in COUNTS:
        return unit if number <= 1 else COUNTS[unit]
    spelling = _SPELLINGS[unit][0]
    return spelling + "s" if unit in {"cup", "quart"} and number > 1 else spelling
