"""Every file that a plan becomes, on paper, screen and calendar."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from batchcook.documents.kitchenscreen import kitchen_screen_html
from batchcook.documents.labels import labels_pdf
from batchcook.documents.labelsheets import DEFAULT_SHEETS, load_sheets
from batchcook.documents.pdf import PdfUnavailable, check_paper
from batchcook.documents.runsheet import run_sheet_html, run_sheet_pdf
from batchcook.documents.shoppinglist import shopping_csv, shopping_pdf
from batchcook.plan import Plan
from batchcook.plans.milestones import prep_day_ics

__all__ = ["NAMES", "PdfUnavailable", "documents"]

NAMES: Final = (
    "run-sheet.html",
    "shopping-list.csv",
    "kitchen-screen.html",
    "prep-day.ics",
    "run-sheet.pdf",
    "labels.pdf",
    "shopping-list.pdf",
)
"""The files that a plan becomes."""


def documents(
    plan: Plan, paper: str = "letter", *, on_paper: Plan | None = None
) -> Mapping[str, bytes]:
    """File name to content: run sheet, labels, shopping list, kitchen screen and calendar.

    Args:
        plan: The day.
        paper: letter or a4.
        on_paper: The day as it hangs on the cupboard, where that is not the whole of it; the
            kitchen screen knows what is done.

    Raises:
        InputFault: There is no such paper, a label cannot hold what must be on it, or the plan does
            not fit its own resources.
        PdfUnavailable: Pango is missing; carries the files that do without.
    """
    size = check_paper(paper)
    told = on_paper or plan
    page = run_sheet_html(told, size)
    files = {
        "run-sheet.html": page.encode(),
        "shopping-list.csv": shopping_csv(told).encode(),
        "kitchen-screen.html": kitchen_screen_html(plan).encode(),
        "prep-day.ics": prep_day_ics(told),
    }
    try:
        files["run-sheet.pdf"] = run_sheet_pdf(told, size, html=page)
        files["labels.pdf"] = labels_pdf(told.containers, load_sheets()[DEFAULT_SHEETS[size]])
        files["shopping-list.pdf"] = shopping_pdf(told, size)
    except PdfUnavailable:
        raise PdfUnavailable(files) from None
    return files
