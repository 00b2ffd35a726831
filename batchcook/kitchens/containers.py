"""What dishes are packed in: tubs, bags and pans, described by size."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any, Literal, cast

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.quantities import Quantity, parse_amount

__all__ = ["Container", "FreezeShape", "find_container", "load_containers"]

FreezeShape = Literal["tub", "flat bag", "pan", "tray"]
"""How food freezes in it; ``tray`` is pieces frozen apart and bagged when hard."""


@dataclass(frozen=True)
class Container:
    """A kind of container.

    Attributes:
        name: Its key, as recipes write it.
        title: How labels and lists call one.
        plural: How they call several.
        capacity: Volume of food it takes, filled to its headspace.
        length: What it takes up one way, rim included.
        width: The other way.
        fill_depth: How deep the food stands at its thickest.
        height: What it takes up upwards, lid included.
        headspace: Room left for the food to expand.
        shape: How food freezes in it.
        loose: Whether it holds pieces with air between them.
    """

    name: str
    title: str
    plural: str
    capacity: Quantity
    length: Quantity
    width: Quantity
    fill_depth: Quantity
    height: Quantity
    headspace: Quantity
    shape: FreezeShape
    loose: bool = False

    @property
    def outside(self) -> Quantity:
        """The room it takes up in a freezer, as a volume."""
        return cast("Quantity", self.length * self.width * self.height)


@cache
def load_containers() -> Mapping[str, Container]:
    """Every kind of container, by its name."""
    text = resources.files("batchcook.data").joinpath("containers.toml").read_text("utf-8")
    return {name: _container(name, entry) for name, entry in tomllib.loads(text).items()}


def find_container(name: str, where: str) -> Container:
    """The container with this name.

    Args:
        name: Its key.
        where: The place that named it, for the message.

    Raises:
        InputFault: There is none; suggests the nearest.
    """
    containers = load_containers()
    if name not in containers:
        raise InputFault(
            Complaint(
                where,
                f"unknown container {name!r}",
                f"one of {', '.join(containers)}",
                nearest(name, containers),
            )
        )
    return containers[name]


def _container(name: str, entry: Mapping[str, Any]) -> Container:
    def measure(text: str) -> Quantity:
        return parse_amount(text, where=f"containers.toml, {name}")

    length, width = entry["footprint"]
    return Container(
        name=name,
        title=entry["title"],
        plural=entry["plural"],
        capacity=measure(entry["capacity"]),
        length=measure(length),
        width=measure(width),
        fill_depth=measure(entry["fill_depth"]),
        height=measure(entry["height"]),
        headspace=measure(entry["headspace"]),
        shape=entry["shape"],
        loose=entry.get("loose", False),
    )
