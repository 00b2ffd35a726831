"""What the jobs of a dish are called in a plan: after the steps and vessels of its recipe."""

from __future__ import annotations

from typing import Final

__all__ = ["OWN_JOBS", "OWN_VESSELS", "slug"]

OWN_JOBS: Final = frozenset(
    {"bath", "cut", "ice", "measure", "plate", "portion", "put-away", "wash"}
)
"""Jobs that every dish may have besides its steps; no step may be called like one of them."""

OWN_VESSELS: Final = frozenset({"cold-pans", "ice-bath", "tools"})
"""What is kept or washed besides the vessels of a recipe."""


def slug(name: str) -> str:
    """A name of a recipe as a part of a job's id."""
    return name.replace(" ", "-")
