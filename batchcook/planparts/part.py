"""What every piece of a plan has in common."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated

from pydantic import BaseModel, ConfigDict, PlainSerializer

__all__ = ["Instant", "Part"]

Instant = Annotated[
    datetime, PlainSerializer(lambda at: at.isoformat(timespec="minutes"), return_type=str)
]
"""A local wall-clock time, written to the minute."""


class Part(BaseModel):
    """A frozen piece of a plan; unknown keys are faults."""

    model_config = ConfigDict(frozen=True, extra="forbid", populate_by_name=True)
