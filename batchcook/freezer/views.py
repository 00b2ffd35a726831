"""Everything that a list of the stock shows, read at once."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from batchcook.freezer.codes import short_codes
from batchcook.freezer.standing import Standing, due, standings
from batchcook.freezer.stock import Stock, stock_of
from batchcook.freezer.store import read_journal

__all__ = ["View", "view"]


@dataclass(frozen=True)
class View:
    """The stock on a day.

    Attributes:
        stock: What there is.
        listed: How each container stands, in the order of the list.
        codes: Key to the shortest code that means only that container.
    """

    stock: Stock
    listed: tuple[Standing, ...]
    codes: Mapping[str, str]


def view(place: Path, today: dt.date, due_within: int | None = None) -> View:
    """What the file says of the stock.

    Args:
        place: The file.
        today: The day.
        due_within: Only what is due within so many days; None for everything.

    Raises:
        InputFault: The file is at fault.
    """
    stock = stock_of(read_journal(place))
    listed = standings(stock, today)
    if due_within is not None:
        listed = due(listed, today, due_within)
    return View(stock, listed, short_codes(stock))
