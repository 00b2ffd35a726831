"""Texts of a plan or a recipe as a metric kitchen reads them."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from typing import Final

from batchcook.complaints import InputFault
from batchcook.foodsafety.celsius import celsius

__all__ = ["metric_fault", "metric_words"]

_DEGREES: Final = re.compile(
    r"(?:(?<![\w./])(-?\d+)( to | and |-))?(?<![\w./])(-?\d+(?:\.\d+)?) degF\b"
)
_LENGTH: Final = re.compile(
    r"(?<![\w./])(?P<one>\d+(?: \d+/\d+|/\d+|\.\d+)?)(?P<by> x (?P<two>\d+))?"
    r"(?:(?P<hyphen>[- ])inch(?:es)?\b| in(?= deep\b))"
)
_ROOM: Final = re.compile(r"(?<![\w./])(\d+(?:\.\d+)?) cubic f(?:ee|oo)t\b")
_LITRES: Final = 28.316847
"""In a cubic foot: NIST Handbook 44, Appendix C."""
_LEAST_OF_A_RANGE: Final = 40
_WIDEST_RANGE: Final = 40
_WHOLE_FROM: Final = 10.0


def metric_words(text: str) -> str:
    """The text with its temperatures in degC, its lengths in cm and room in litres.

    A published temperature becomes the degC that is published beside it. Lengths are told to half
    a centimetre, from 10 cm to a whole one. Names of vessels that hold so many quarts stay.
    """
    told = _LENGTH.sub(_centimetres, _DEGREES.sub(_degrees, text))
    return _ROOM.sub(_litres, told)


def _litres(found: re.Match[str]) -> str:
    """To the nearest five: it comes from tenths of a cubic foot, which are three litres each."""
    return f"{max(5, 5 * round(float(found[1]) * _LITRES / 5))} litres"


def metric_fault(fault: InputFault) -> InputFault:
    """The fault with every complaint's words so."""
    return InputFault(
        [
            replace(each, what=metric_words(each.what), expected=metric_words(each.expected))
            for each in fault.complaints
        ]
    )


def _degrees(found: re.Match[str]) -> str:
    low, between, high = found.groups()
    said = f"{celsius(float(high))} degC"
    if low is None:
        return said
    # A count, as in "warm 2 to 165 degF": no range such as "34 to 40 degF" is so wide.
    if 0 < int(low) < _LEAST_OF_A_RANGE and float(high) - int(low) > _WIDEST_RANGE:
        return f"{low}{between}{said}"
    return f"{celsius(int(low))}{between}{said}"


def _centimetres(found: re.Match[str]) -> str:
    sides = [_half_centimetres(each) for each in (found["one"], found["two"]) if each]
    return f"{' x '.join(sides)} cm"


def _half_centimetres(inches: str) -> str:
    exact = float(sum(map(Fraction, inches.split()))) * 2.54
    rounded = round(exact) if exact >= _WHOLE_FROM else max(1, round(exact * 2)) / 2
    return f"{rounded:g}"
