"""What the journal keeps of something that no plan made."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence
from typing import Any, Final

from batchcook.complaints import Complaint, InputFault
from batchcook.foodsafety.limits import limit
from batchcook.foodsafety.rawfood import cook_raw_to, is_raw, rows_if_raw
from batchcook.foodsafety.storage import StorageDates, dates, rows_for
from batchcook.foodsafety.thawing import thaw_days as days_by_weight
from batchcook.freezer.stock import Stored
from batchcook.quantities import Quantity, parse_amount, ureg

__all__ = ["corrected_details", "details_of_addition", "weight_of"]

_LONGEST: Final = 100
"""Letters of what something is; more fit no list."""

_LONGER: Final = 1
"""Days more than by its weight that a thick piece may thaw; ours, no source. The days that it keeps
count from the end of them, so that they may not be any number."""


def details_of_addition(
    title: str,
    *,
    packed_on: dt.date,
    rows: Sequence[str],
    use_by: dt.date | None,
    portions: int,
    main: str,
    raw: bool,
    thaw_days: int | None = None,
    weight: Quantity | None = None,
    days_before: int = 0,
) -> dict[str, Any]:
    """The details of a container that is put in by hand.

    Args:
        title: What it is.
        packed_on: The day on which it was frozen.
        rows: Rows of the cold-storage charts that it falls under; the strictest decides.
        use_by: The date on a package, where there is one; it stands if it is the earlier.
        portions: How many it feeds.
        main: Its main ingredient, or an empty string.
        raw: Whether it is not cooked yet; a row of raw food says so too.
        thaw_days: Days that it thaws in the refrigerator; 0 for what is heated from frozen. None:
            those that its weight asks for, and a day where neither is known.
        weight: What it weighs, or None.
        days_before: Days that it was in the refrigerator before it was frozen; they count against
            those once it is thawed.

    Raises:
        InputFault: No row and no date, a row that is none, or one whose food is not frozen; or the
            food was kept too long before; or nothing says for how long a large piece thaws, or
            too short a time; or its package's date is before the day on which it was frozen.
    """
    title = _legible(title)
    if not rows:
        raise InputFault(
            Complaint(
                "--keeps-as", "missing", "a row of the cold-storage charts, such as soup-or-stew"
            )
        )
    if use_by is not None and use_by < packed_on:
        what = f"{use_by.isoformat()} is before it was frozen, {packed_on.isoformat()}"
        raise InputFault(Complaint("--use-by", what, "a date on or after that day"))
    given = rows_for(rows, "--keeps-as")
    raw = raw or is_raw(row for row in given if row.name in rows)
    kept_as = rows_if_raw(rows, "--keeps-as") if raw else tuple(rows)
    carried = rows_for(kept_as, "--keeps-as")
    keeps = dates(carried, packed_on, refrigerated_days_before=days_before)
    days = _days_to_thaw(thaw_days, weight, large=any(row.large for row in given))
    cook = cook_raw_to((row for row in carried if row.name in kept_as), f"{title} {main}")
    last = min(keeps.use_by, use_by) if use_by else keeps.use_by
    return {
        "dish": re.sub(r"[^a-z0-9]+", "-", title.lower()).strip("-") or "dish",
        "title": title,
        "portions": portions,
        "packed_on": packed_on.isoformat(),
        **_labelled(keeps, last),
        "state": "raw-kit" if raw else "cooked",
        **_thawing(days),
        "keeps_thawed_days": keeps.refrigerator_days_after_thaw,
        "keeps_thawed_at_most": keeps.refrigerator_days_after_thaw_at_most,
        "cook_to_fahrenheit": cook.fahrenheit if cook else None,
        "rest_minutes": cook.rest_minutes if cook else 0,
        "main": main.strip().lower(),
        "grams": _grams(weight),
        "storage_rows": list(kept_as),
        **({"package_use_by": use_by.isoformat()} if use_by else {}),
    }


def _legible(title: str) -> str:
    """What it is, in words for a list and a label."""
    words = " ".join(title.split())
    if not words or len(words) > _LONGEST or not words.isprintable():
        what = "is empty, very long, or cannot be printed"
        raise InputFault(Complaint("what it is", what, f"a few words, {_LONGEST} letters at most"))
    return words


def weight_of(text: str) -> Quantity | None:
    """A weight such as ``14 lb``; None where it is empty.

    Raises:
        InputFault: It is no weight.
    """
    if not text.strip():
        return None
    weight = parse_amount(text, where="--weight")
    if not weight.check("[mass]"):
        raise InputFault(Complaint("--weight", f"{text!r} is no weight", 'one like "14 lb"'))
    return weight


def corrected_details(
    stored: Stored,
    *,
    title: str = "",
    portions: int | None = None,
    packed_on: dt.date | None = None,
    main: str | None = None,
    thaw_days: int | None = None,
    weight: Quantity | None = None,
) -> dict[str, Any]:
    """What shall stand about a container instead; its dates follow from a new day of packing.

    A date on its package stands where that is the earlier, and its days to thaw follow from a new
    weight.

    Raises:
        InputFault: Nothing was named to be set right, its rows are not known for new dates, it
            thaws for longer than was said, or it would have been frozen after the date on its
            package or after it began to thaw.
    """
    told: dict[str, Any] = {}
    if title:
        told["title"] = _legible(title)
    if portions is not None:
        told["portions"] = portions
    if main is not None:
        told["main"] = main.strip().lower()
    if packed_on is not None:
        keeps, before = (
            dates(rows_for(stored.storage_rows, stored.code), day)
            for day in (packed_on, stored.packed_on)
        )
        package = stored.package_use_by
        if package is None and stored.use_by < before.use_by:
            package = stored.use_by
        _check_still_frozen(stored, packed_on, package)
        last = min(keeps.use_by, package) if package else keeps.use_by
        told["packed_on"] = packed_on.isoformat()
        told |= _labelled(keeps, last)
    told |= _thawing_instead(stored, thaw_days, weight)
    if weight is not None:
        told["grams"] = _grams(weight)
    if not told:
        raise InputFault(Complaint(stored.code, "nothing was named to be set right", "an option"))
    return told


def _check_still_frozen(stored: Stored, packed_on: dt.date, package: dt.date | None) -> None:
    """See that it was frozen before what ends its time in the freezer."""
    ends = (
        (package, "the date on its package"),
        (stored.moved_on, "the day it went to the refrigerator"),
    )
    for day, what in ends:
        if day is not None and day < packed_on:
            told = f"{packed_on.isoformat()} is after {what}, {day.isoformat()}"
            raise InputFault(Complaint("--frozen-on", told, "that day or an earlier one"))


def _labelled(keeps: StorageDates, last: dt.date) -> dict[str, Any]:
    """Both quality dates, neither past the last."""
    return {"best_by": min(keeps.best_by, last).isoformat(), "use_by": last.isoformat()}


def _thawing(days: int) -> dict[str, Any]:
    return {"thaw": "refrigerator" if days else "from-frozen", "thaw_days": days}


def _thawing_instead(
    stored: Stored, thaw_days: int | None, weight: Quantity | None
) -> dict[str, Any]:
    """How it thaws by what was said anew; nothing where that changes nothing."""
    if thaw_days is None and (weight is None or stored.thaw == "from-frozen"):
        return {}
    by = weight or (ureg.Quantity(stored.grams, "gram") if stored.grams else None)
    days = _days_to_thaw(thaw_days, by, large=False)
    if thaw_days is None and stored.holds:
        # A plan has reckoned with the shape of its container too.
        days = max(days, stored.thaw_days)
    found = _thawing(days)
    return {**found, "thaw": stored.thaw} if days and stored.thaw == "either" else found


def _grams(weight: Quantity | None) -> int:
    return 0 if weight is None else round(float(weight.to("gram").magnitude))


def _days_to_thaw(asked: int | None, weight: Quantity | None, *, large: bool) -> int:
    """Days in the refrigerator: those asked for, unless the weight needs more.

    Args:
        asked: As the cook says, 0 for from frozen; None where not said.
        weight: Its weight, or None.
        large: Whether days would be a guess for it without a weight.
    """
    if weight is None:
        if large and asked != 0:
            what = "missing: a large piece thaws for days in the refrigerator, by its weight"
            raise InputFault(Complaint("--weight", what, 'one like "14 lb"'))
        if asked is not None and asked > 1 + _LONGER:
            what = f"{asked} days are not known to be needed"
            raise InputFault(
                Complaint("--thaw-days", what, f"at most {1 + _LONGER}, or a --weight")
            )
        return 1 if asked is None else asked
    least = days_by_weight(weight)
    if asked is None:
        return least
    if 0 < asked < least:
        pounds = f"{float(weight.to('pound').magnitude):.3g} lb"
        raise InputFault(
            Complaint(
                "--thaw-days",
                f"{asked} for {pounds}",
                f"{least} or more: {limit('thaw-refrigerator').figure} in the refrigerator",
            )
        )
    if asked > least + _LONGER:
        what = f"{asked} days, but it is thawed sooner and its days count from then"
        raise InputFault(Complaint("--thaw-days", what, f"at most {least + _LONGER}"))
    return asked
