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
    (0.191, 0.238, "'"),
    (0.223, 0.278, "ijl"),
    (0.260, 0.280, "|"),
    (0.278, 0.278, " ,./I\\·\u00a0"),
    (0.278, 0.333, "!:;[]ft"),
    (0.333, 0.333, "()-`"),
    (0.334, 0.390, "r{}"),
    (0.355, 0.475, '"'),
    (0.390, 0.390, "*"),
    (0.400, 0.400, "°"),
    (0.470, 0.584, "^"),
    (0.500, 0.500, "z"),
    (0.500, 0.557, "Jcksvxyç"),
    (0.557, 0.557, "#$0123456789_aeéèäàâá"),
    (0.557, 0.611, "?Lbdghnopquüñóôúö"),
    (0.584, 0.584, "+<=>~"),
    (0.611, 0.611, "FTZ"),
    (0.667, 0.667, "EPSVXY"),
    (0.667, 0.723, "&ABKÄ"),
    (0.723, 0.723, "CDHNRU"),
    (0.723, 0.778, "w"),
    (0.778, 0.778, "GOQÖ"),
    (0.833, 0.833, "M"),
    (0.833, 0.890, "m"),
    (0.834, 0.834, "½¼¾⅓⅔"),
    (0.890, 0.890, "%"),
    (0.944, 0.944, "W"),
)
"""Widths in em, plain and bold, of groups of letters, the last digit rounded up (read from the
files of Liberation Sans; the thirds, which it lacks, taken for as wide as the quarters)."""

_PLAIN: Final = {letter: plain for plain, _, letters in _WIDTHS for letter in letters}
_BOLD: Final = {letter: bold for _, bold, letters in _WIDTHS for letter in letters}
_UNKNOWN: Final = 1.05

_SAME: Final = 1.005
_OTHER: Final = 1.03
"""How much wider a text may be in another font than the sample is: a choice of ours."""

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
    return worst if worst < _SAME else worst * _OTHER


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
