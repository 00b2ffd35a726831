"""What every piece of a plan has in common."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated, Final

from pydantic import BaseModel, BeforeValidator, ConfigDict, PlainSerializer

from batchcook.shapewords import own_fault

__all__ = ["Instant", "Part"]

_INSTANT: Final = "a day and time such as 2027-01-16T08:00, without a time zone"
_FORM: Final = "%Y-%m-%dT%H:%M"


def _instant(given: object) -> datetime:
    """A wall-clock time as a plan has it; no count of seconds, which the library would take too."""
    if isinstance(given, datetime) and given.tzinfo is None:
        return given
    try:
        return datetime.strptime(str(given), _FORM)  # noqa: DTZ007 - wall-clock times have no zone
    except ValueError:
        raise own_fault(f"{given!r} does not fit here", _INSTANT) from None


Instant = Annotated[
    datetime,
    BeforeValidator(_instant),
    PlainSerializer(lambda at: at.isoformat(timespec="minutes"), return_type=str),
]
"""A local wall-clock time, written to the minute."""


class Part(BaseModel):
    """A frozen piece of a plan; unknown keys are faults."""

    model_config = ConfigDict(frozen=True, extra="forbid", populate_by_name=True)
