"""Containers of the stock as the choice of dinners sees them."""

from __future__ import annotations

import datetime as dt

from batchcook.freezer.nights import Lot
from batchcook.freezer.stock import Stored

__all__ = ["lot_of"]


def lot_of(each: Stored, today: dt.date, first: dt.date, *, unwanted: bool = False) -> Lot:
    """The lot that a container is one of; how many are alike is not counted yet.

    Args:
        each: The container.
        today: The first day on which it could go to the refrigerator.
        first: The first evening that is planned.
        unwanted: Whether the household wants no more of the dish.
    """
    from_day, best_by, last_day = _window(each, today)
    return Lot(
        dish=each.dish,
        main=each.main,
        portions=each.portions,
        count=0,
        from_day=max(from_day, first),
        best_by=best_by,
        last_day=last_day,
        unwanted=unwanted,
    )


def _window(each: Stored, today: dt.date) -> tuple[dt.date, dt.date, dt.date]:
    """First evening, last evening that is in time, last evening at all."""
    if each.eat_by is not None and each.thawed_on is not None:
        return max(today, each.thawed_on), each.eat_by, each.eat_by
    needs_days = each.thaw_days if each.thaw == "refrigerator" else 0
    return today + dt.timedelta(days=needs_days), each.best_by, each.use_by
