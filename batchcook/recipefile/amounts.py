"""Every amount and temperature of a recipe file as a quantity."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Final

from batchcook.complaints import Complaint, InputFault
from batchcook.quantities import Quantity, parse_amount, parse_temperature, ureg
from batchcook.recipefile.sheet import Draft
from batchcook.tomlplaces import Location

__all__ = ["Amounts", "read_amounts"]

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
    return _temperature_between(text, where, *_OVEN)


def _center(text: str, where: str) -> Quantity:
    return _temperature_between(text, where, *_CENTER)


def _temperature_between(text: str, where: str, low: float, high: float) -> Quantity:
    found = parse_temperature(text, where=where)
    if not low <= float(found.magnitude) <= high:
        raise InputFault(
            Complaint(where, f"{text!r} is out of reason", f"{low:g} to {high:g} degF")
        )
    return found


def _food(text: str, where: str) -> Quantity:
    """An amount of a food: a weight, a volume or a count, within reason."""
    found = parse_amount(text, where=where)
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
    found = parse_amount(text, where=where)
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
    found = parse_amount(text, where=where)
    if not found.check("[volume]"):
        raise InputFault(
            Complaint(where, f"{text!r} is no volume", 'a volume such as "3 1/4 quart"')
        )
    return found
