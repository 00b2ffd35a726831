"""Ways to feed a table from one dish: so many containers of each size."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import ceil

__all__ = ["Serving", "servings"]


@dataclass(frozen=True)
class Serving:
    """One way.

    Attributes:
        dish: The dish.
        counts: Size in portions and how many of that size, largest first.
    """

    dish: str
    counts: tuple[tuple[int, int], ...]

    @property
    def portions(self) -> int:
        """What it comes to."""
        return sum(size * count for size, count in self.counts)

    def count(self, size: int) -> int:
        """How many containers of one size."""
        return dict(self.counts).get(size, 0)


def servings(dish: str, there: Mapping[int, int], people: int) -> tuple[Serving, ...]:
    """Every way without a container more than it takes; those that do not feed all among them.

    Args:
        dish: The dish.
        there: Size in portions to how many containers of it there are.
        people: People at the table.
    """
    found = []
    for counts in _counts(sorted(there.items(), reverse=True), people):
        used = tuple((size, count) for size, count in counts if count)
        total = sum(size * count for size, count in used)
        if used and total - min(size for size, _ in used) < people:
            found.append(Serving(dish, used))
    return tuple(found)


def _counts(sizes: list[tuple[int, int]], people: int) -> Iterator[tuple[tuple[int, int], ...]]:
    if not sizes:
        yield ()
        return
    (size, there), *rest = sizes
    for count in range(min(there, ceil(people / size)) + 1):
        for others in _counts(rest, people - count * size) if people - count * size > 0 else [()]:
            yield ((size, count), *others)
