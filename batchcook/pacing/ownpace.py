"""A day's hands-on work at the household's own pace, and with something to spare."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

from batchcook.dishwork.work import Job, Work

__all__ = ["at_own_pace"]


def at_own_pace(work: Work, pace: Mapping[str, float], pad: int = 0) -> Work:
    """The work with its hands-on minutes stretched or shortened; what goes by itself stays.

    Args:
        work: All the work of a day by the table.
        pace: Technique to its factor: above 1 is slower than the table.
        pad: Percent by which all hands-on minutes are longer besides.
    """
    if not pace and not pad:
        return work
    return replace(work, jobs=tuple(_paced(job, pace, pad) for job in work.jobs))


def _paced(job: Job, pace: Mapping[str, float], pad: int) -> Job:
    """A job at its pace, at least a minute."""
    if job.hands is None or job.ends_at is not None:
        return job
    factor = pace.get(job.technique, 1.0) * (1 + pad / 100)
    return replace(job, minutes=max(1, math.floor(job.minutes * factor + 0.5)))
