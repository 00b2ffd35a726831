"""The terminal that the commands write tables to."""

from __future__ import annotations

from typing import IO

from rich.console import Console as _Console

__all__ = ["Console"]


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
