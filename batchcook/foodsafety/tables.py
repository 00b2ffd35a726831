"""The tables of published figures, read from TOML, and the sources that they name."""

from __future__ import annotations

import datetime as dt
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

__all__ = ["Source", "source", "sources", "table"]


@dataclass(frozen=True)
class Source:
    """Where a figure was published.

    Attributes:
        key: The short name by which tables refer to it.
        title: Its full title.
        checked: The day on which our figures were last compared with it.
        from_memory: Whether the comparison was with memory rather than with a printed copy.
    """

    key: str
    title: str
    checked: dt.date
    from_memory: bool = False

    def __str__(self) -> str:
        """The title, and that it is from memory where it is."""
        return f"{self.title} (from memory)" if self.from_memory else self.title


@cache
def table(name: str) -> Mapping[str, Any]:
    """The table ``name`` of this folder as it stands in its TOML file.

    Args:
        name: File name without its ending, ``"cold_storage"`` say.

    Returns:
        Key to entry, in the file's order.
    """
    path = resources.files("batchcook.foodsafety").joinpath("tables", f"{name}.toml")
    return tomllib.loads(path.read_text(encoding="utf-8"))


@cache
def sources() -> Mapping[str, Source]:
    """Every source by its key."""
    return {
        key: Source(key, entry["title"], entry["checked"], entry.get("from_memory", False))
        for key, entry in table("sources").items()
    }


def source(key: str, *, from_memory: bool = False) -> Source:
    """The source with this key.

    Args:
        key: Its key in ``sources.toml``.
        from_memory: Marks one figure as from memory although the source as a whole is not.

    Raises:
        KeyError: No table names such a source; a fault in our tables, not in an input.
    """
    found = sources()[key]
    if from_memory and not found.from_memory:
        return Source(found.key, found.title, found.checked, from_memory=True)
    return found
