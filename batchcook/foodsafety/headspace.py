"""Room left at the top of a container for food that swells as it freezes."""

from __future__ import annotations

from typing import Literal

from batchcook.foodsafety.limits import limit
from batchcook.quantities import Quantity, ureg

__all__ = ["Pack", "headspace"]

Pack = Literal["liquid", "dry"]


def headspace(size: Quantity, *, pack: Pack = "liquid", wide_top: bool = True) -> Quantity:
    """Headspace of a container (National Center for Home Food Preservation).

    Args:
        size: The container's nominal volume.
        pack: Food in liquid, or dry pieces.
        wide_top: Whether the opening is as wide as the container.

    Returns:
        Inches. Published for pints and quarts: a size up to a pint takes the pint's, every larger
        one the quart's.
    """
    if pack == "dry":
        return limit("headspace-dry").quantity
    top = "wide" if wide_top else "narrow"
    volume = "pint" if size <= ureg.Quantity(1, "pint") else "quart"
    return limit(f"headspace-{top}-{volume}").quantity
