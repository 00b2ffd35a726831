"""Every file that a plan becomes on paper."""

from __future__ import annotations

from collections.abc import Mapping

from batchcook.documents.labels import labels_pdf
from batchcook.documents.labelsheets import DEFAULT_SHEETS, load_sheets
from batchcook.documents.pdf import PdfUnavailable, check_paper
from batchcook.documents.runsheet import run_sheet_html, run_sheet_pdf
from batchcook.documents.shoppinglist import shopping_csv, shopping_pdf
from batchcook.plan import Plan

__all__ = ["PdfUnavailable", "documents"]


def documents(plan: Plan, paper: str = "letter") -> Mapping[str, bytes]:
    """File name to content: run sheet, labels and shopping list.

    Args:
        plan: The day.
        paper: letter or a4.

    Raises:
        InputFault: There is no such paper, or a label cannot hold what must be on it.
        PdfUnavailable: Pango is missing; carries the files that do without.
    """
    size = check_paper(paper)
    page = run_sheet_html(plan)
    files = {"run-sheet.html": page.encode(), "shopping-list.csv": shopping_csv(plan).encode()}
    try:
        files["run-sheet.pdf"] = run_sheet_pdf(plan, size, html=page)
        files["labels.pdf"] = labels_pdf(plan.containers, load_sheets()[DEFAULT_SHEETS[size]])
        files["shopping-list.pdf"] = shopping_pdf(plan, size)
    except PdfUnavailable:
        raise PdfUnavailable(files) from None
    return files
