"""The terminal that the commands write tables to."""

from __future__ import annotations

from collections.abc import Sequence
from typing import IO, TYPE_CHECKING, Final

from rich.cells import cell_len
from rich.console import Console as _Console

if TYPE_CHECKING:
    from rich.table import Table

__all__ = ["Console", "widths"]

_FRAME: Final = 3
"""What a column takes beside its words: a space on either side and a line."""


_NARROWEST: Final = 5
"""Characters of a column in a terminal that is too narrow for its words."""


class Console(_Console):
    """A console that takes words as they are: titles come from files, and may hold brackets.

    Left to itself the library reads ``[/x]`` as markup and stops, and ``:egg:`` as a picture.
    """

    def __init__(
        self, *, stderr: bool = False, highlight: bool = True, file: IO[str] | None = None
    ) -> None:
        """A console on standard output.

        Args:
            stderr: On standard error instead.
            highlight: Whether numbers and the like are coloured.
            file: Where else to write.
        """
        super().__init__(stderr=stderr, highlight=highlight, file=file, markup=False, emoji=False)

    def print_table(self, table: Table) -> None:
        """Print a table of plain words with no word cut short; what is not wrapped stays whole.

        Left to itself the library takes from every column alike, and ends a word that is longer
        than its column with dots. Where not even the words fit, those held together by a hard
        space are parted, then words go on in the next line.
        """
        lines = [
            [line for cell in (column.header, *column.cells) for line in str(cell).splitlines()]
            for column in table.columns
        ]
        whole = [max(map(cell_len, each), default=0) for each in lines]
        floors = [
            [
                every if column.no_wrap else min(every, most, longest_word(cells, between))
                for column, cells, every in zip(table.columns, lines, whole, strict=True)
            ]
            for between, most in ((" ", self.width), (None, self.width), (None, _NARROWEST))
        ]
        room = self.width - 1 - _FRAME * len(lines)
        for column, width in zip(table.columns, widths(whole, floors, room), strict=True):
            column.width, column.overflow = width, "fold"
        self.print(table)


def longest_word(lines: Sequence[str], between: str | None) -> int:
    """Characters of the longest word; words are parted by a space, or by any if None."""
    return max((cell_len(word) for line in lines for word in line.split(between)), default=0)


def widths(natural: Sequence[int], floors: Sequence[Sequence[int]], room: int) -> tuple[int, ...]:
    """How wide each column is to be: whichever is widest above its floor gives way first.

    Args:
        natural: The longest cell of each column, in characters.
        floors: What each keeps, where the one before is still too wide for the room.
        room: Characters for all of them.
    """
    found = list(natural)
    for least in floors:
        while sum(found) > room:
            spare = [width > floor for width, floor in zip(found, least, strict=True)]
            if not any(spare):
                break
            found[max(range(len(found)), key=lambda place: (spare[place], found[place]))] -= 1
    return tuple(found)
