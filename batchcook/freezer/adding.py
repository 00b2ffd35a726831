"""What the journal keeps of something that no plan made."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence
from typing import Any

from batchcook.complaints import Complaint, InputFault
from batchcook.foodsafety.storage import dates, rows_for
from batchcook.freezer.stock import Stored

__all__ = ["corrected_details", "details_of_addition"]


def details_of_addition(
    title: str,
    *,
    packed_on: dt.date,
    rows: Sequence[str],
    use_by: dt.date | None,
    portions: int,
    main: str,
    raw: bool,
    thaw_days: int,
) -> dict[str, Any]:
    """The details of a container that is put in by hand.

    Args:
        title: What it is.
        packed_on: The day on which it was frozen.
        rows: Rows of the cold-storage charts that it falls under; the strictest decides.
        use_by: The date on a package, where there is one; it stands if it is the earlier.
        portions: How many it feeds.
        main: Its main ingredient, or an empty string.
        raw: Whether it is not cooked yet.
        thaw_days: Days that it thaws in the refrigerator; 0 for what is heated from frozen.

    Raises:
        InputFault: No row and no date, a row that is none, or one whose food is not frozen.
    """
    if not title.strip():
        raise InputFault(Complaint("what it is", "is empty", "a few words"))
    if not rows:
        raise InputFault(
            Complaint(
                "--keeps-as", "missing", "a row of the cold-storage charts, such as soup-or-stew"
            )
        )
    keeps = dates(rows_for(rows, "--keeps-as"), packed_on)
    last = min(keeps.use_by, use_by) if use_by else keeps.use_by
    return {
        "dish": re.sub(r"[^a-z0-9]+", "-", title.lower()).strip("-") or "dish",
        "title": title.strip(),
        "portions": portions,
        "packed_on": packed_on.isoformat(),
        "best_by": min(keeps.best_by, last).isoformat(),
        "use_by": last.isoformat(),
        "state": "raw-kit" if raw else "cooked",
        "thaw": "refrigerator" if thaw_days else "from-frozen",
        "thaw_days": thaw_days,
        "keeps_thawed_days": keeps.refrigerator_days_after_thaw,
        "main": main.strip().lower(),
        "storage_rows": list(rows),
    }


def corrected_details(
    stored: Stored,
    *,
    title: str = "",
    portions: int | None = None,
    packed_on: dt.date | None = None,
    main: str | None = None,
) -> dict[str, Any]:
    """What shall stand about a container instead; its dates follow from a new day of packing.

    Raises:
        InputFault: Nothing was named to be set right, or its rows are not known for new dates.
    """
    told: dict[str, Any] = {}
    if title:
        told["title"] = title
    if portions is not None:
        told["portions"] = portions
    if main is not None:
        told["main"] = main.strip().lower()
    if packed_on is not None:
        keeps = dates(rows_for(stored.storage_rows, stored.code), packed_on)
        told["packed_on"] = packed_on.isoformat()
        told["best_by"] = keeps.best_by.isoformat()
        told["use_by"] = keeps.use_by.isoformat()
    if not told:
        raise InputFault(Complaint(stored.code, "nothing was named to be set right", "an option"))
    return told
