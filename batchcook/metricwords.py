"""Texts of a plan or a recipe as a metric kitchen reads them."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Final

from batchcook.foodsafety.celsius import celsius

__all__ = ["metric_words"]

_DEGREES: Final = re.compile(
    r"(?:(?<![\w./])(-?\d+)( to | and |-))?(?<![\w./])(-?\d+(?:\.\d+)?) degF\b"
)
_LENGTH: Final = re.compile(
    r"(?<![\w./])(?P<one>\d+(?: \d+/\d+|/\d+|\.\d+)?)(?P<by> x (?P<two>\d+))?"
    r"(?:(?P<hyphen>[- ])inch(?:es)?\b| in(?= deep\b))"
)
_LEAST_OF_A_RANGE: Final = 40
_WIDEST_RANGE: Final = 40
_WHOLE_FROM: Final = 10.0


def metric_words(text: str) -> str:
    """The text with its temperatures in degC and its lengths in cm.

    A published temperature becomes the degC that is published beside it. Lengths are told to half
    a centimetre, from 10 cm to a whole one. Names of vessels that hold so many quarts stay.
    """
    return _LENGTH.sub(_centimetres, _DEGREES.sub(_degrees, text))


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
