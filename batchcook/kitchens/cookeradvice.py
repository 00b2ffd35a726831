"""What would hold a dish that no slow cooker at hand holds."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from math import ceil, floor

from batchcook.kitchens.kitchen import Kitchen
from batchcook.kitchens.vessels import cooker_options
from batchcook.quantities import Quantity, say, ureg

__all__ = ["cookers_that_would_do"]

_MOST_MORE = 3
_LARGEST = 10
"""Quarts of the largest slow cooker that households buy: common practice, no source."""


def cookers_that_would_do(
    kitchen: Kitchen, volume: Quantity, batches: int, fill: tuple[float, float], system: str
) -> str:
    """Fewer batches, more slow cookers or another size, each seen to do; else the oven or a pot.

    Args:
        kitchen: Where the cookers are.
        volume: All that is to be slow-cooked, of so many batches.
        batches: So many.
        fill: The least and greatest share of its size that a cooker is filled to.
        system: us or metric.
    """
    words = [*_fewer(kitchen, volume, batches, fill), *_more(kitchen, volume, fill, system)]
    return ", or ".join([*words, "the oven or a pot instead of the slow cooker"])


def _fewer(
    kitchen: Kitchen, volume: Quantity, batches: int, fill: tuple[float, float]
) -> Iterable[str]:
    """The most batches that the cookers at hand hold."""
    for number in range(batches - 1, 0, -1):
        if cooker_options(kitchen, volume * number / batches, *fill):
            yield f"{number} {'batch' if number == 1 else 'batches'}"
            return


def _more(
    kitchen: Kitchen, volume: Quantity, fill: tuple[float, float], system: str
) -> Iterable[str]:
    """The fewest more of a size at hand; where none would do, one of a size that would."""
    for number in range(1, _MOST_MORE + 1):
        for cookers in kitchen.slow_cookers:
            there = replace(cookers, count=cookers.count + number)
            if cooker_options(replace(kitchen, slow_cookers=(there,)), volume, *fill):
                size = say(cookers.size, system)
                yield f"{number} more slow {'cooker' if number == 1 else 'cookers'} of {size}"
                return
    lowest, highest = fill
    quarts = float(volume.to("quart").magnitude)
    smallest, largest = ceil(quarts / highest - 1e-6), floor(quarts / lowest + 1e-6)
    if smallest <= min(largest, _LARGEST):
        yield f"a slow cooker of {say(ureg.Quantity(smallest, 'quart'), system)}"
