"""Our limits of handling against the copies of published figures, whatever their source."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from batchcook.foodsafety.limits import limit, limits
from batchcook.quantities import ureg

__all__ = ["agrees", "copied", "names_with_numbers"]


def copied(name: str) -> list[dict[str, str]]:
    """The rows of a copy in ``data/``."""
    file = Path(__file__).parent / "data" / f"{name}.csv"
    return list(csv.DictReader(file.read_text(encoding="utf-8").splitlines()))


def agrees(row: dict[str, str], source: str) -> None:
    """Our limit has the figures of a published row, and names its source."""
    ours = limit(row["limit"])
    high = ureg.Quantity(float(row["high"]), row["unit"])
    low = ureg.Quantity(float(row["low"] or row["high"]), row["unit"])
    assert ours.quantity.to(row["unit"]).magnitude == pytest.approx(high.magnitude, rel=1e-6)
    assert ours.lower.to(row["unit"]).magnitude == pytest.approx(low.magnitude, rel=1e-6)
    assert ours.source.key == source


def names_with_numbers(source: str) -> set[str]:
    """Our limits that have a number from a source."""
    return {
        each.name
        for each in limits().values()
        if each.source.key == source and each.high is not None
    }
