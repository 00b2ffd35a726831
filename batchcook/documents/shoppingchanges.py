"""What changed on a shopping list, as a page and as values."""

from __future__ import annotations

import csv
import dataclasses
import io
from collections.abc import Sequence

from batchcook.buying.purchasechanges import Change
from batchcook.documents.environment import render
from batchcook.documents.pdf import check_paper, to_pdf
from batchcook.plan import Plan

__all__ = ["changes_csv", "changes_html", "changes_pdf"]


def changes_html(plan: Plan, found: Sequence[Change]) -> str:
    """What to leave out, put back and add, as one page of HTML that needs nothing else.

    Args:
        plan: The day that is now cooked.
        found: The changes against the list in the cook's hand.
    """
    groups = [
        (what, [change for change in found if change.what == what])
        for what in ("leave out", "buy less", "buy more", "buy")
    ]
    return render(
        "shopping-changes.html", plan=plan, groups=[group for group in groups if group[1]]
    )


def changes_pdf(plan: Plan, found: Sequence[Change], paper: str = "letter") -> bytes:
    """The same as PDF.

    Raises:
        InputFault: There is no such paper.
        PdfUnavailable: Pango is missing.
    """
    size = check_paper(paper)
    return to_pdf(changes_html(plan, found), size, created=plan.date)


def changes_csv(found: Sequence[Change]) -> str:
    """The changes as comma-separated values, one a line."""
    written = io.StringIO()
    columns = [field.name for field in dataclasses.fields(Change)]
    writer = csv.DictWriter(written, columns, lineterminator="\n")
    writer.writeheader()
    writer.writerows(dataclasses.asdict(change) for change in found)
    return written.getvalue()
