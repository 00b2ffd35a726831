"""How wide a text will be, so that it is wrapped or made smaller before it is set.

The pages ask for a plain sans of the usual widths. Where a system has only a wider one, its
share of extra width is measured once and every estimate grows by it.
"""

from __future__ import annotations

from functools import cache, lru_cache
from typing import Final

from batchcook.documents.pdf import PdfUnavailable, text_end_px

__all__ = ["FONTS", "SVG_FONTS", "text_width", "wider", "wider_if_known", "wrap"]

FONTS: Final = "'Liberation Sans', Arial, Helvetica, 'Nimbus Sans', Arimo, FreeSans, sans-serif"
"""Families that share one set of widths, then whatever the system has."""

SVG_FONTS: Final = FONTS.replace("'", "")
"""The same, as an attribute of a picture."""

_WIDTHS: Final = (
    (0.20, 0.24, "'"),
    (0.23, 0.28, "ijl"),
    (0.28, 0.34, "I,./\\ ·|ft!:;[]\u00a0"),
    (0.34, 0.39, "()-`r{}"),
    (0.40, 0.48, '*°"'),
    (0.50, 0.56, "cksvxyJz"),
    (0.56, 0.59, "0123456789ae#$_^+<=>~éèäàâáç"),
    (0.57, 0.62, "bdghnopquL?öüñóôúFTZ"),
    (0.67, 0.73, "EPSVXYABK&Ä"),
    (0.73, 0.78, "CDHNRUw"),
    (0.84, 0.84, "GOQMÖ½¼¾⅓⅔"),
    (0.84, 0.89, "m%"),
    (0.95, 0.95, "W"),
)
"""Widths in em, plain and bold, of groups of letters, rounded up (read from Liberation Sans)."""

_PLAIN: Final = {letter: plain for plain, _, letters in _WIDTHS for letter in letters}
_BOLD: Final = {letter: bold for _, bold, letters in _WIDTHS for letter in letters}
_UNKNOWN: Final = 1.05

_SAMPLE: Final = "Warm it over a medium heat, stirring, until 165 in the middle; 2 1/2 cups, 16 Jan"


@lru_cache(maxsize=8192)
def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """Width of a text at a type size, in the unit of the size; rather too wide than too narrow."""
    widths = _BOLD if bold else _PLAIN
    return sum(widths.get(letter, _UNKNOWN) for letter in text) * size


@cache
def wider() -> float:
    """How much wider than estimated the system's font sets text; 1 where it does not.

    Raises:
        PdfUnavailable: Pango is missing, so nothing can be set.
    """
    worst = 1.0
    for weight, bold in (("normal", False), ("bold", True)):
        end = text_end_px(
            f"<style>@page {{ size: 2000px 100px; margin: 0 }} body {{ margin: 0; white-space: "
            f"nowrap; font: {weight} 20px {FONTS} }}</style>{_SAMPLE}<a id=end>.</a>"
        )
        worst = max(worst, end / text_width(_SAMPLE, 20.0, bold=bold))
    return worst


def wider_if_known() -> float:
    """The same; 1 where nothing can be set to measure it by, for a page that a browser sets."""
    try:
        return wider()
    except PdfUnavailable:
        return 1.0


@lru_cache(maxsize=8192)
def wrap(text: str, width: float, size: float, *, bold: bool = False) -> tuple[str, ...]:
    """The text in lines no wider than ``width``; a word that is too long is cut in pieces."""
    lines: list[str] = []
    line = ""
    for word in text.split(" "):
        for piece in _pieces(word, width, size, bold=bold):
            longer = f"{line} {piece}" if line else piece
            if not line or text_width(longer, size, bold=bold) <= width:
                line = longer
            else:
                lines.append(line)
                line = piece
    return (*lines, line) if line else tuple(lines)


def _pieces(word: str, width: float, size: float, *, bold: bool) -> list[str]:
    """The word, or pieces of it that are each narrow enough."""
    pieces = [""]
    for letter in word:
        if pieces[-1] and text_width(pieces[-1] + letter, size, bold=bold) > width:
            pieces.append("")
        pieces[-1] += letter
    return pieces
