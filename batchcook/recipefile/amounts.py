"""Every amount and temperature of a recipe file as a quantity."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Final

from batchcook.complaints import Complaint, InputFault
from batchcook.quantities import Quantity, parse_amount, ureg
from batchcook.recipefile.sheet import Draft
from batchcook.tomlplaces import Location

__all__ = ["Amounts", "parse_temperature", "read_amounts"]

_OVEN: Final = (200.0, 550.0)
_CENTER: Final = (120.0, 212.0)
_MOST_OF_ONE_FOOD: Final = ureg.Quantity(30, "pound")
_MOST_VOLUME: Final = ureg.Quantity(6, "gallon")


@dataclass(frozen=True)
class Amounts:
    """What was read, by its place in the file, and what could not be."""

    found: Mapping[Location, Quantity]
    complaints: tuple[Complaint, ...]

    def get(self, *location: int | str) -> Quantity | None:
        """The quantity at a place, or None where there is none or it is at fault."""
        return self.found.get(location)


def parse_temperature(text: str, where: str, *, low: float, high: float) -> Quantity:
    """A temperature such as ``"375 degF"`` or ``"190 degC"``, in degF.

    Args:
        text: As written.
        where: The place, for the message.
        low: The lowest that makes sense there, in degF.
        high: The highest, in degF.

    Raises:
        InputFault: It is no temperature, or out of reason.
    """
    written = re.fullmatch(r"\s*(-?\d+(?:\.\d+)?)\s*(?:deg|°)?\s*([FC])\s*", text)
    if written is None:
        raise InputFault(Complaint(where, f"{text!r} is no temperature", "one like '375 degF'"))
    found = ureg.Quantity(float(written[1]), f"deg{written[2]}").to("degF")
    if not low <= float(found.magnitude) <= high:
        raise InputFault(
            Complaint(where, f"{text!r} is out of reason", f"{low:g} to {high:g} degF")
        )
    return found


def read_amounts(draft: Draft) -> Amounts:
    """Every amount and temperature in a recipe file, and every complaint about one."""
    found: dict[Location, Quantity] = {}
    complaints: list[Complaint] = []
    for location, text, read in _written(draft):
        try:
            found[location] = read(text, draft.places.at(*location))
        except InputFault as fault:
            complaints.extend(fault.complaints)
    return Amounts(found, tuple(complaints))


_Reader = Callable[[str, str], Quantity]


def _written(draft: Draft) -> Iterator[tuple[Location, str, _Reader]]:
    """Each text that stands for a quantity, with its place and what reads it."""
    tables: list[tuple[Location, Mapping[str, Any], Mapping[str, _Reader]]] = [
        ((), draft.tables, {"makes": _finished}),
        (("night",), draft.night, {"oven": _oven}),
    ]
    tables += [
        (("vessels", name), each, {"holds": _volume}) for name, each in draft.vessels.items()
    ]
    tables += [(("ingredients", at), each, {"amount": _food}) for at, each in draft.ingredients]
    tables += [
        (("steps", at), each, {"oven": _oven, "cook_to": _center}) for at, each in draft.steps
    ]
    tables += [(("night", "add", at), each, {"amount": _food}) for at, each in draft.additions]
    for location, table, readers in tables:
        for key, read in readers.items():
            if isinstance(table.get(key), str):
                yield (*location, key), table[key], read


def _oven(text: str, where: str) -> Quantity:
    return parse_temperature(text, where, low=_OVEN[0], high=_OVEN[1])


def _center(text: str, where: str) -> Quantity:
    return parse_temperature(text, where, low=_CENTER[0], high=_CENTER[1])


def _food(text: str, where: str) -> Quantity:
    """An amount of a food: a weight, a volume or a count, above nothing and within reason."""
    found = _above_nothing(text, where)
    too_much = (found.check("[mass]") and found > _MOST_OF_ONE_FOOD) or (
        found.check("[volume]") and found > _MOST_VOLUME
    )
    if too_much:
        raise InputFault(
            Complaint(
                where, f"{text!r} is out of reason for one batch", "at most 30 lb or 6 gallon"
            )
        )
    return found


def _finished(text: str, where: str) -> Quantity:
    found = _above_nothing(text, where)
    if not (found.check("[mass]") or found.check("[volume]")):
        raise InputFault(
            Complaint(
                where,
                f"{text!r} is neither a volume nor a weight",
                'what one batch makes, such as "3 quart" or "4 lb"',
            )
        )
    return found


def _volume(text: str, where: str) -> Quantity:
    found = _above_nothing(text, where)
    if not found.check("[volume]"):
        raise InputFault(
            Complaint(where, f"{text!r} is no volume", 'a volume such as "3 1/4 quart"')
        )
    return found


def _above_nothing(text: str, where: str) -> Quantity:
    found = parse_amount(text, where=where)
    if not found.magnitude > 0:
        raise InputFault(Complaint(where, f"{text!r} is nothing", "more than zero"))
    return found
