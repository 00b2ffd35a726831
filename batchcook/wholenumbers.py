"""Whole numbers as a cook types them."""

from __future__ import annotations

import re

__all__ = ["whole_number"]


def whole_number(text: str) -> int | None:
    """The number that is written in plain figures, None for anything else.

    Raised and circled figures count as digits for a computer but are no number that it can read,
    and a number of thousands of figures is one that it will not.
    """
    return int(text) if re.fullmatch(r"\s*[0-9]{1,9}\s*", text) else None
