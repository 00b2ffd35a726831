"""What a checker rejects is withheld: that fault is the program's own, not its input's."""

from __future__ import annotations

__all__ = ["Withheld"]


class Withheld(Exception):  # noqa: N818 - what happens to the plan, as the cook is told it
    """What was found did not pass its own check, so nobody is to cook by it."""

    @property
    def told(self) -> str:
        """What to tell the cook, in a line."""
        first = str(self).partition("\n")[0]
        return (
            "What was found did not pass its own check, so it is withheld and nothing was written: "
            f"a fault of the program, not yours ({first}). Running it again may do."
        )
