"""Thermal properties and coefficients of the cooling, freezing and thawing estimates."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from batchcook.foodsafety.tables import Source, source, table
from batchcook.quantities import Quantity, ureg

__all__ = ["ThermalValue", "si_value", "thermal_values"]


@dataclass(frozen=True)
class ThermalValue:
    """One property or coefficient.

    Attributes:
        name: Its name in the table.
        scope: What it is of.
        quantity: Its value.
        basis: Whether it is a handbook's value or an assumption, and how far such values range.
        source: Where it is from.
    """

    name: str
    scope: str
    quantity: Quantity
    basis: str
    source: Source


@cache
def thermal_values() -> Mapping[str, ThermalValue]:
    """Every value of the table, by name."""
    return {
        name: ThermalValue(
            name=name,
            scope=entry["scope"],
            quantity=ureg.Quantity(float(entry["value"]), entry["unit"]),
            basis=entry["basis"],
            source=source(entry["source"]),
        )
        for name, entry in table("thermal").items()
    }


@cache
def si_value(name: str) -> float:
    """A value as a plain number in SI base units, temperatures in degC.

    Raises:
        KeyError: No such value; a fault in our tables, not in an input.
    """
    quantity = thermal_values()[name].quantity
    if quantity.is_compatible_with("kelvin"):
        return float(quantity.to("degC").magnitude)
    return float(quantity.to_base_units().magnitude)
