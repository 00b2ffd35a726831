"""Containers of one dish and one size in the order in which they are eaten: oldest first."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from batchcook.freezer.nights import Lot

__all__ = ["Queue", "Waiting", "queues_of"]


@dataclass(frozen=True)
class Waiting:
    """One container in a queue; ``lot`` is the number of the lot it is from."""

    lot: int
    best_by: dt.date
    last_day: dt.date


@dataclass(frozen=True)
class Queue:
    """Containers alike but for their dates, which all come in the same order."""

    dish: str
    main: str
    portions: int
    from_day: dt.date
    unwanted: bool
    containers: tuple[Waiting, ...]


def queues_of(lots: Sequence[Lot]) -> tuple[Queue, ...]:
    """The lots as queues.

    Lots of a dish whose best-by dates come in another order than their last days, one with the
    date of a package say, wait in a queue of their own.
    """
    chains: dict[tuple[str, str, int, dt.date, bool], list[list[Waiting]]] = {}
    ordered = sorted(enumerate(lots), key=lambda each: (each[1].last_day, each[1].best_by, each[0]))
    for number, lot in ordered:
        key = (lot.dish, lot.main, lot.portions, lot.from_day, lot.unwanted)
        waiting = [Waiting(number, lot.best_by, lot.last_day)] * lot.count
        if not waiting:
            continue
        for chain in chains.setdefault(key, []):
            if chain[-1].best_by <= lot.best_by:
                chain.extend(waiting)
                break
        else:
            chains[key].append(waiting)
    return tuple(
        Queue(*key, containers=tuple(chain)) for key in sorted(chains) for chain in chains[key]
    )
