"""Our storage rows against the copies of published charts."""

from __future__ import annotations

from batchcook.foodsafety.storage import storage_row, storage_rows

__all__ = ["agrees_with_chart", "rows_from"]


def agrees_with_chart(row: dict[str, str], source: str) -> None:
    """Our row has the days and months of a published row, and names its source."""
    ours = storage_row(row["row"], "published chart")
    assert ours.refrigerator_days == _span(row, "days")
    assert ours.freezer_months == _span(row, "months")
    assert ours.source.key == source


def rows_from(source: str) -> set[str]:
    """Our rows that come from a source."""
    return {row.name for row in storage_rows().values() if row.source.key == source}


def _span(row: dict[str, str], what: str) -> tuple[int, int] | None:
    low, high = row[f"{what}_low"], row[f"{what}_high"]
    return (int(low), int(high)) if low else None
