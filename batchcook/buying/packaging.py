"""How many tubs, bags and pans a plan fills, and how many of them have to be bought."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from batchcook.kitchens.containers import load_containers
from batchcook.plan import Container

__all__ = ["ContainersNeeded", "containers_needed"]


@dataclass(frozen=True)
class ContainersNeeded:
    """Containers of one kind.

    Attributes:
        name: The kind's key, or the words of the plan where the kind is no longer known.
        words: The kind in the plural, with its lids: ``"quart tubs with lids"``.
        count: How many the plan fills.
        at_hand: How many are at home.
    """

    name: str
    words: str
    count: int
    at_hand: int = 0

    @property
    def buy(self) -> int:
        """How many are missing."""
        return max(0, self.count - self.at_hand)


def containers_needed(
    containers: Sequence[Container], at_hand: Mapping[str, int]
) -> tuple[ContainersNeeded, ...]:
    """The containers of a plan by kind, in the order in which the plan has them.

    Args:
        containers: Every container of the plan.
        at_hand: Kind to how many are at home.
    """
    kinds = {kind.title: kind for kind in load_containers().values()}
    found = []
    for holds, count in Counter(each.holds for each in containers).items():
        kind = kinds.get(holds)
        if kind is None:
            found.append(ContainersNeeded(holds, holds, count))
            continue
        lids = kind.shape in {"tub", "pan"} and "lid" not in kind.plural
        words = kind.plural + (" with lids" if lids else "")
        found.append(ContainersNeeded(kind.name, words, count, at_hand.get(kind.name, 0)))
    return tuple(found)
