"""Whether a thawed container may be frozen again, and which of its days it has used by then."""

from __future__ import annotations

import datetime as dt

from batchcook.complaints import Complaint, InputFault
from batchcook.foodsafety.thawing import days_used, may_refreeze
from batchcook.freezer.stock import Stored
from batchcook.wording import day

__all__ = ["days_used_by"]


def days_used_by(stored: Stored, on: dt.date) -> int:
    """Days in the refrigerator that count where a container is frozen again on a day.

    Raises:
        InputFault: It must not be frozen again: it is not thawed, did not thaw in the refrigerator,
            was kept too long, or has no day left for another thaw.
    """
    if stored.moved_on is None or stored.last_day is None:
        raise InputFault(Complaint(stored.code, "is in the freezer", "one that was thawed"))
    if on < stored.moved_on:
        what = f"{stored.code} was moved on {day(stored.moved_on)}"
        raise InputFault(Complaint("--on", what, "that day or a later one"))
    if on > stored.last_day:
        what = f"was kept too long: its last day was {day(stored.last_day)}"
        raise InputFault(Complaint(stored.code, what, "to be thrown out"))
    may = may_refreeze(stored.thawed_by)
    if not may.allowed:
        what = f"must not be frozen again as it is. {may.words}"
        raise InputFault(Complaint(stored.code, what, "to be cooked at once"))
    used = days_used(stored.moved_on, stored.thaw_days, on)
    at_most = stored.keeps_thawed_at_most
    if used > (stored.keeps_thawed_days if at_most is None else at_most):
        what = f"has no day left for another thaw: its last day is {day(stored.last_day)}"
        raise InputFault(
            Complaint(stored.code, what, f"to be {'cooked' if stored.raw else 'eaten'} by then")
        )
    return used
