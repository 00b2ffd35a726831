"""Values as they are written in kitchen and prep-day files, checked as the file is read."""

from __future__ import annotations

from datetime import time

from pydantic import AfterValidator, BeforeValidator

from batchcook.complaints import Complaint, InputFault
from batchcook.quantities import Quantity, ureg
from batchcook.shapewords import own_fault

__all__ = [
    "END_OF_SPAN",
    "TIME_OF_DAY",
    "clock",
    "ends_after",
    "measure",
    "no_warmer_than",
    "parse_clock",
    "within",
]

_TIME_OF_DAY = "one like 08:30"


def parse_clock(text: str, where: str) -> time:
    """A time of day written as 08:00.

    Raises:
        InputFault: It is written otherwise.
    """
    try:
        return clock(text)
    except ValueError:
        raise InputFault(Complaint(where, f"{text!r} is no time of day", _TIME_OF_DAY)) from None


def clock(text: str) -> time:
    """A time of day written as 08:00.

    Raises:
        ValueError: It is written otherwise.
    """
    hour, minute = text.split(":")
    return time(int(hour), int(minute))


def measure(text: str, unit: str) -> Quantity:
    """A measure such as ``"12 quart"`` in a unit.

    Raises:
        ValueError: It is no measure, or of another kind.
    """
    number, _, name = text.strip().partition(" ")
    try:
        return ureg.Quantity(float(number), name.strip() or "dimensionless").to(unit)
    except Exception:  # noqa: BLE001 - pint raises many kinds of error for one wrong word
        raise ValueError(text) from None


def within(unit: str, low: float, high: float) -> AfterValidator:
    """A check that a text is a measure in reason.

    Args:
        unit: The unit of both bounds, as pint reads it.
        low: The least.
        high: The most.
    """

    def check(text: str) -> str:
        try:
            found = measure(text, unit)
        except ValueError:
            expected = f"something like '{low:g} {unit}'"
            raise own_fault(f"{text!r} is no measure", expected) from None
        if not low <= float(found.magnitude) <= high:
            between = f"between {low:g} and {high:g} {unit}"
            raise own_fault(f"{text!r} is out of reason", between)
        return text

    return AfterValidator(check)


def no_warmer_than(limit: Quantity, what: str) -> AfterValidator:
    """A check that a refrigerator or freezer is cold enough; stands after :func:`within`.

    Args:
        limit: The highest temperature at which it does its work.
        what: What it is too warm for, as in "to keep food".
    """

    def check(text: str) -> str:
        degrees = measure(text, "degF").magnitude
        if degrees > limit.to("degF").magnitude:
            most = f"{limit.to('degF').magnitude:g} degF or below"
            raise own_fault(f"{text!r} is too warm {what}", most)
        return text

    return AfterValidator(check)


def _check_clock(text: str) -> str:
    try:
        clock(text)
    except ValueError:
        raise own_fault(f"{text!r} is no time of day", _TIME_OF_DAY) from None
    return text


TIME_OF_DAY = AfterValidator(_check_clock)
"""A check that a text is a time of day."""


def _before_midnight(written: object) -> object:
    return "23:59" if written == "24:00" else written


END_OF_SPAN = BeforeValidator(_before_midnight)
"""Stands after :data:`TIME_OF_DAY` where a span may last until midnight, written 24:00: a minute
before it, for want of a time of day that is later."""


def ends_after(start: str, end: str) -> None:
    """See that a span of the day ends after it begins.

    Raises:
        PydanticCustomError: It does not; for a check of a model to raise.
    """
    if clock(end) <= clock(start):
        raise own_fault(f"ends at {clock(end):%H:%M}, before it begins")
