"""The usual cautions in plain words, each once."""

from __future__ import annotations

from dataclasses import dataclass

from batchcook.foodsafety.tables import table

__all__ = ["PAPERS", "Caution", "cautions"]

PAPERS = ("run-sheet", "label", "readme")
"""The papers that carry cautions."""


@dataclass(frozen=True)
class Caution:
    """One caution.

    Attributes:
        name: Its name in the table.
        text: A sentence or two as printed.
        papers: The papers that carry it.
    """

    name: str
    text: str
    papers: tuple[str, ...]


def cautions(paper: str = "") -> tuple[Caution, ...]:
    """The cautions that a paper carries.

    Args:
        paper: One of :data:`PAPERS`; empty for all cautions.

    Raises:
        ValueError: There is no such paper.
    """
    if paper and paper not in PAPERS:
        raise ValueError(f"no paper {paper!r}: one of {', '.join(PAPERS)}")
    everything = (
        Caution(name, entry["text"], tuple(entry["where"]))
        for name, entry in table("cautions").items()
    )
    return tuple(each for each in everything if not paper or paper in each.papers)
