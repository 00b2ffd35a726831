"""A word on standard error about a date that looks mistyped."""

from __future__ import annotations

import datetime as dt

import typer

__all__ = ["warn_of_date"]


def warn_of_date(packed_on: dt.date, where: str, *, ahead: bool = False) -> None:
    """Say what is odd about a packing date, and go on.

    Args:
        packed_on: The date.
        where: The place that gave it.
        ahead: Whether it may lie ahead.
    """
    from batchcook.day.packeddate import packed_date_fault  # noqa: PLC0415 - keeps --help quick

    today = dt.date.today()  # noqa: DTZ011 - the cook's own calendar
    found = packed_date_fault(packed_on, today, where, ahead=ahead)
    if found is not None:
        typer.echo(f"Note: {found}", err=True)
