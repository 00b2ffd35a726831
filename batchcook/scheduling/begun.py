"""A task that has begun by the time the rest of a problem is looked at."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

__all__ = ["Begun"]


@dataclass(frozen=True)
class Begun:
    """A task that has begun, in minutes of the problem's origin; before it they are negative.

    Attributes:
        start: When it really began.
        end: When its work really ended or, while it runs, is expected to end.
        over: Whether its work has ended.
        mode: The mode it is done in.
        stays: Whether that mode goes on; where not, another may take over what is left.
        waits: Whether what is left may wait until it is taken over.
        clean: Whether its clean-down is done, or needless as another part continued it.
        cleaned_by: When the clean-down that is under way ends; None where none is.
        setting: The setting it is done at, or None.
        follows: The part of its family that it continues, or None.
        units: As in a schedule.
    """

    start: int
    end: int
    over: bool
    mode: str
    stays: bool = True
    waits: bool = False
    clean: bool = True
    cleaned_by: int | None = None
    setting: int | None = None
    follows: str | None = None
    units: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
