"""HTML to PDF, the same bytes for the same page.

WeasyPrint needs Pango from the system, so it is loaded only when a PDF is wanted.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from contextlib import suppress
from datetime import date
from functools import cache
from typing import TYPE_CHECKING, Final, Literal

from batchcook.complaints import Complaint, InputFault, nearest

if TYPE_CHECKING:
    from weasyprint import CSS  # type: ignore[import-untyped]  # it ships no types
    from weasyprint.text.fonts import (  # type: ignore[import-untyped]  # the same
        FontConfiguration,
    )

__all__ = ["PAPERS", "Paper", "PdfUnavailable", "check_paper", "text_end_px", "to_pdf", "warm_up"]

Paper = Literal["letter", "a4"]

PAPERS: Final[Mapping[str, tuple[float, float]]] = {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}
"""Width and height in millimetres."""

_INSTALL: Final = """\
PDF files need the Pango library, which was not found. To install it:
  Debian, Ubuntu: apt install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0
  macOS:          brew install pango
  Windows:        install MSYS2, then in its shell: pacman -S mingw-w64-x86_64-pango"""


class PdfUnavailable(Exception):  # noqa: N818 - the system lacks a library, the program is sound
    """Pango is missing; says what to install, and carries what was made without it.

    Attributes:
        without_pdf: File name to content, of the files that need no PDF.
    """

    def __init__(self, without_pdf: Mapping[str, bytes] | None = None) -> None:
        """Say what to install on each system."""
        self.without_pdf: dict[str, bytes] = dict(without_pdf or {})
        super().__init__(_INSTALL)


def check_paper(paper: str) -> Paper:
    """The paper of that name.

    Raises:
        InputFault: There is no such paper.
    """
    known: dict[str, Paper] = {"letter": "letter", "a4": "a4"}
    if paper.lower() in known:
        return known[paper.lower()]
    raise InputFault(
        Complaint("paper", f"{paper!r} is not known", "letter or a4", nearest(paper, known))
    )


def to_pdf(html: str, paper: Paper | None, *, created: date) -> bytes:
    """A page as PDF; equal pages give equal bytes.

    Args:
        html: The whole page, its styles within it.
        paper: What to print on; None where the page sets its own size.
        created: The day that the file says it was made on, so that no clock enters it.

    Raises:
        PdfUnavailable: Pango is missing.
    """
    html_class, fonts = _printer()
    sheets = [] if paper is None else [_size(paper)]
    document = html_class(string=html).render(stylesheets=sheets, font_config=fonts)
    document.metadata.created = document.metadata.modified = created.isoformat()
    identifier = hashlib.sha256(f"{paper} {html}".encode()).hexdigest()[:32]
    content: bytes = document.write_pdf(pdf_identifier=identifier.encode())
    return content


def text_end_px(html: str) -> float:
    """Where, from the left of the page in CSS pixels, the element named ``end`` stands.

    Raises:
        PdfUnavailable: Pango is missing.
    """
    html_class, fonts = _printer()
    page = html_class(string=html).render(font_config=fonts).pages[0]
    return float(page.anchors["end"][0])


def warm_up() -> None:
    """Load what PDFs need ahead of time, in a thread beside other work; a lack is told later."""
    with suppress(PdfUnavailable):
        _printer()


@cache
def _printer() -> tuple[type, FontConfiguration]:
    """WeasyPrint's page class, and one font configuration for all pages."""
    try:
        from weasyprint import HTML  # noqa: PLC0415 - needs Pango, and loads slowly
        from weasyprint.text.fonts import FontConfiguration  # noqa: PLC0415 - the same
    except OSError:
        raise PdfUnavailable from None
    return HTML, FontConfiguration()


@cache
def _size(paper: Paper) -> CSS:
    """The style that sets the paper's size, upright and on its side."""
    from weasyprint import CSS  # noqa: PLC0415 - needs Pango

    return CSS(string=f"@page {{ size: {paper} }} @page wide {{ size: {paper} landscape }}")
