"""A line on the terminal that says how the search goes, for anything over a second."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from batchcook.cli.console import Console

__all__ = ["shown"]

_WORDS = {
    "makespan": "the shortest day",
    "hands": "the least hands-on time",
    "waiting": "the least waiting of food",
    "hand-overs": "the fewest changes of hands",
}


@contextmanager
def shown() -> Iterator[Callable[[str, int, int], None]]:
    """A progress function while the block runs; it draws on a terminal only."""
    console = Console(stderr=True)
    began = time.monotonic()
    with console.status("Looking for the shortest day") as status:

        def progress(level: str, value: int, bound: int) -> None:
            words = _WORDS.get(level, level)
            gap = "proved" if value == bound else f"{value} min, not under {bound}"
            status.update(f"{words}: {gap} ({time.monotonic() - began:.0f} s)")

        yield progress
