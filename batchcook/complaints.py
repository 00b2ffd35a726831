"""What is wrong with an input, said so that a cook can mend it.

Every stage that reads something collects complaints instead of stopping at the first, and
raises them together in one :class:`InputFault`.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

__all__ = ["Complaint", "InputFault", "nearest"]

_LONGEST = 1000
"""Letters of what is wrong that are shown; what stands there may be of any length."""


@dataclass(frozen=True)
class Complaint:
    """One fault in an input.

    Attributes:
        where: The place: a file, a key path or line in it, or an option of the command.
        what: What is wrong there.
        expected: What would have been right, or an empty string where it is plain.
        suggestion: The nearest valid name, or an empty string.
    """

    where: str
    what: str
    expected: str = ""
    suggestion: str = ""

    def __str__(self) -> str:
        """One line: where, what, what was expected, the nearest valid name."""
        what = self.what
        if len(what) > _LONGEST:  # a whole file was given where a word was expected
            what = f"{what[: _LONGEST // 2]} ... {what[-_LONGEST // 2 :]}"
        text = f"{self.where}: {what}"
        if self.expected:
            text += f"; expected {self.expected}"
        if self.suggestion:
            text += f". Did you mean {self.suggestion!r}?"
        return text


class InputFault(Exception):  # noqa: N818 - the trade's word: the input is at fault, not the program
    """The input is at fault; carries every complaint that was found."""

    def __init__(self, complaints: Sequence[Complaint] | Complaint) -> None:
        """Collect one complaint or several."""
        self.complaints = (complaints,) if isinstance(complaints, Complaint) else tuple(complaints)
        super().__init__("\n".join(str(complaint) for complaint in self.complaints))


def nearest(name: str, valid: Iterable[str]) -> str:
    """The valid name most like ``name``, or an empty string when none is close."""
    by_letters: dict[str, str] = {}
    for each in valid:
        by_letters.setdefault(each.lower(), each)
    found = difflib.get_close_matches(name.lower(), by_letters, n=1, cutoff=0.55)
    return by_letters[found[0]] if found else ""
