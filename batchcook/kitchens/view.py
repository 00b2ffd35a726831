"""A kitchen in rows of plain words."""

from __future__ import annotations

from collections.abc import Sequence

from batchcook.kitchens.kitchen import Kitchen, Vessels
from batchcook.kitchens.pans import Pans
from batchcook.quantities import Quantity

__all__ = ["kitchen_rows"]


_ANYBODY = "rinsing, measuring, mixing, labels, washing up"
"""What takes no skill."""


def kitchen_rows(kitchen: Kitchen) -> list[tuple[str, str]]:
    """What is in the kitchen, a row a kind."""
    cooks = [
        f"{cook.name} ({', '.join(sorted(cook.skills)) or _ANYBODY})"
        + "".join(f", away {a.start:%H:%M} to {a.end:%H:%M}" for a in cook.away)
        for cook in kitchen.cooks
    ]
    power = kitchen.burners.power
    return [
        ("cooks", "; ".join(cooks)),
        (
            "burners",
            (
                f"{kitchen.burners.count}, {kitchen.burners.kind}, "
                f"{float(power.to('BTU/hour').magnitude):.0f} BTU/hour "
                f"({float(power.to('kilowatt').magnitude):.1f} kW) each"
            ),
        ),
        ("ovens", "; ".join(f"{oven.shelves} shelves" for oven in kitchen.ovens) or "none"),
        ("slow cookers", _vessels(kitchen.slow_cookers)),
        ("skillets", _vessels(kitchen.skillets)),
        ("pots", _vessels(kitchen.pots)),
        ("sheet pans", _pans(kitchen.sheet_pans)),
        ("baking dishes", _pans(kitchen.baking_dishes)),
        ("boards", ", ".join(f"{count} for {name}" for name, count in kitchen.boards.items())),
        (
            "ice",
            (
                f"{kitchen.ice_baths} ice bath{'' if kitchen.ice_baths == 1 else 's'}; "
                f"large pans for a dish on ice: {kitchen.ice_pans}; "
                f"makes {_about(kitchen.ice)} lb of ice"
            ),
        ),
        ("refrigerator", _cold(kitchen.refrigerator.free, kitchen.refrigerator.temperature)),
        ("freezer", _cold(kitchen.freezer.free, kitchen.freezer.temperature)),
        ("room", f"{_about(kitchen.room)} degF"),
    ]


def _vessels(all_: Sequence[Vessels]) -> str:
    return (
        ", ".join(f"{each.count} of {_about(each.size)} {each.size.units}" for each in all_)
        or "none"
    )


def _pans(all_: Sequence[Pans]) -> str:
    return ", ".join(f"{each.count} of {each.size}" for each in all_) or "none"


def _cold(free: Quantity, temperature: Quantity) -> str:
    return f"{_about(free)} cubic feet free, at {_about(temperature)} degF"


def _about(quantity: Quantity) -> str:
    """The number to a tenth: a kitchen told in litres and degC has no round one."""
    return f"{round(float(quantity.magnitude), 1):g}"
