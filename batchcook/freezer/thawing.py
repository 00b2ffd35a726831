"""Taking containers out to thaw, and freezing them again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from batchcook.complaints import Complaint, InputFault
from batchcook.freezer.changes import Moment, change_each
from batchcook.freezer.entries import MOVED, REFROZEN
from batchcook.freezer.refreezing import days_used_by
from batchcook.freezer.stock import Stored, refrozen
from batchcook.wording import day

if TYPE_CHECKING:
    from batchcook.foodsafety.thawing import ThawWay

__all__ = ["refreeze", "thaw"]


def thaw(
    place: Path, codes: Sequence[str], moment: Moment, by: ThawWay = "refrigerator"
) -> tuple[Stored, ...]:
    """Enter that containers were taken out to thaw.

    Args:
        place: The file.
        codes: Which.
        moment: When.
        by: How they thaw.

    Returns:
        The containers as they stand then.

    Raises:
        InputFault: With a complaint for each code that is wrong or was moved before, or that was
            not in the freezer yet on that day.
    """

    def details(stored: Stored) -> dict[str, Any]:
        if stored.place == "refrigerator":
            raise InputFault(
                Complaint(stored.code, "is in the refrigerator already", "one from the freezer")
            )
        since = stored.frozen_again_on or stored.packed_on
        if moment.on < since:
            what = f"{stored.code} went into the freezer on {day(since)}"
            raise InputFault(Complaint("--on", what, "that day or a later one"))
        return {} if by == "refrigerator" else {"by": by}

    return tuple(
        replace(each, place="refrigerator", moved_on=moment.on, thawed_by=by)
        for each in change_each(place, codes, moment, MOVED, details)
    )


def refreeze(place: Path, codes: Sequence[str], moment: Moment) -> tuple[Stored, ...]:
    """Enter that containers that thawed in the refrigerator were frozen again while they kept.

    The days that they have used are taken off those of the next thaw (FDA Food Code 3-501.17
    guidance: days before freezing and after thawing add up).

    Returns:
        The containers as they stand then.

    Raises:
        InputFault: With a complaint for each code that is wrong or must not be frozen again.
    """

    def details(stored: Stored) -> dict[str, Any]:
        return {"days_used": days_used_by(stored, moment.on)}

    return tuple(
        refrozen(each, moment.on, days_used_by(each, moment.on))
        for each in change_each(place, codes, moment, REFROZEN, details)
    )
