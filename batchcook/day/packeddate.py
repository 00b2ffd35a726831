"""Whether a packing date can be meant: dates are mistyped by a year or a month."""

from __future__ import annotations

import datetime as dt

from batchcook.complaints import Complaint

__all__ = ["packed_date_fault"]

_FAR_PAST = 366
"""Days after which packing is taken for a slip: no chart keeps a dish longer for its quality."""


def packed_date_fault(
    packed_on: dt.date, today: dt.date, where: str, *, ahead: bool = False
) -> Complaint | None:
    """What is odd about a packing date, or None.

    Args:
        packed_on: The date.
        today: The day on which it is looked at.
        where: The place that gave it, for the message.
        ahead: Whether it may lie ahead, as a planned prep day's does: by a year at most.
    """
    days = (today - packed_on).days
    if days > 0 and ahead:
        return Complaint(
            where, f"{_said(packed_on)} is past", f"{_said(today)} or a day to come, to cook on it"
        )
    if days > _FAR_PAST:
        return Complaint(
            where,
            f"packed on {_said(packed_on)}, more than a year ago",
            "the day on which it went into the container; older food is safe at 0 degF, but past "
            "every quality date",
        )
    if days < 0 and not ahead:
        return Complaint(
            where,
            f"packed on {_said(packed_on)}, which is yet to come",
            f"{_said(today)} or before",
        )
    if days < -_FAR_PAST:
        return Complaint(
            where, f"{_said(packed_on)} is more than a year ahead", "a day within the year"
        )
    return None


def _said(day: dt.date) -> str:
    return f"{day:%a} {day.day} {day:%b %Y}"
