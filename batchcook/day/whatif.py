"""What would help: the day again with one more, and one less, of each thing in the kitchen."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import replace
from typing import Any

from batchcook.day.prepday import PrepDay
from batchcook.dishwork.work import Work
from batchcook.kitchens.kitchen import Kitchen, KitchenCook, Vessels
from batchcook.kitchens.pans import Pans
from batchcook.plan import WhatIf

__all__ = ["PANS", "NotKnown", "changed_by", "kinds_held", "variants", "what_would_help"]

_HELPER = "a helper"
_LESS = ("one less", "without")

PANS = {"sheet-pan": "sheet_pans", "baking-dish": "baking_dishes"}
"""Kinds of pan, each with its key in the kitchen."""

_VESSELS = {
    "skillet": "skillets",
    "pot": "pots",
    "slow-cooker": "slow_cookers",
    **PANS,
}
"""Kinds of vessel, likewise."""

_BOARD = "board"

_EVERYTHING = frozenset({"burner", "oven", "board:produce", "board:raw", *_VESSELS})

_BOARD_FOR = {"raw": "raw meat"}
"""What a board is for, where its key in the kitchen is no word for it."""

Length = tuple[int, int]
"""The shortest day found, in minutes, and what it cannot go under."""


class NotKnown(Exception):  # noqa: N818 - an answer, not an error
    """A changed day was neither solved nor shown to be impossible in the time given."""


def what_would_help(
    day: PrepDay,
    length: Length,
    measure: Callable[[PrepDay, bool], Length | None],
    held: Collection[str] = _EVERYTHING,
    *,
    stands: Callable[[PrepDay], bool] = lambda _: False,
) -> tuple[WhatIf, ...]:
    """Minutes won or lost by each change, the most helpful first.

    Args:
        day: The day as it is.
        length: Its length in minutes, and what it cannot go under.
        measure: Solves a changed day, told whether the day as it is planned can be done in it;
            None where it cannot be done at all. Where it raises :class:`NotKnown` of a day that
            must be another one, it is told that no plan was found.
        held: As :func:`variants` takes it.
        stands: Whether the day as it is planned can be done in a changed one. With less of
            something no day is shorter, so there is nothing to solve then.
    """
    found = []
    for words, kitchen in variants(day.kitchen, held):
        more = not words.startswith(_LESS)
        changed = replace(day, kitchen=kitchen)
        as_planned = stands(changed)
        try:
            measured = length if as_planned and not more else measure(changed, as_planned)
        except NotKnown:
            if not as_planned:
                found.append(WhatIf(change=words, minutes=None, proved=False))
                continue
            measured = length[0], 0
        found.append(
            WhatIf(
                change=words,
                minutes=_change(length, measured, more=more),
                proved=measured is None or _proved(length, measured, more=more),
            )
        )
    return tuple(
        sorted(found, key=lambda each: (each.minutes is None, each.minutes or 0, each.proved))
    )


def _proved(length: Length, measured: Length, *, more: bool) -> bool:
    """Whether both days are proved.

    With more of something the old day can still be done; with less, no day is shorter than it.
    """
    reached = min(measured[0], length[0]) if more else measured[0]
    under = measured[1] if more else max(measured[1], length[1])
    return length[0] == length[1] and reached <= under


def _change(length: Length, measured: Length | None, *, more: bool) -> int | None:
    """Minutes by which the day changes; None where it cannot be done.

    With more of something the old day can still be done, so a longer one found is no loss; with
    less, a shorter one could have been done before.
    """
    if measured is None:
        return 0 if more else None
    change = measured[0] - length[0]
    return min(0, change) if more else max(0, change)


def variants(
    kitchen: Kitchen, held: Collection[str] = _EVERYTHING
) -> Iterable[tuple[str, Kitchen]]:
    """Each change in words, with the kitchen after it.

    Args:
        kitchen: The kitchen as it is.
        held: What the day makes use of, as :func:`kinds_held` says; more or less of anything else
            changes nothing.
    """
    for step, words in ((1, "one more"), (-1, "one less")):
        burners = replace(kitchen.burners, count=kitchen.burners.count + step)
        if burners.count and "burner" in held:
            yield f"{words} burner", replace(kitchen, burners=burners)
        for name, vessels in _VESSELS.items():
            if getattr(kitchen, vessels) and name in held:
                changed: dict[str, Any] = {vessels: changed_by(getattr(kitchen, vessels), step)}
                yield f"{words} {name.replace('-', ' ')}", replace(kitchen, **changed)
        for food, count in kitchen.boards.items():
            if count and f"{_BOARD}:{food}" in held:
                boards = {**kitchen.boards, food: count + step}
                name = f"{_BOARD} for {_BOARD_FOR.get(food, food)}"
                yield f"{words} {name}", replace(kitchen, boards=boards)
        if kitchen.ovens and "oven" in held:
            oven = replace(kitchen.ovens[0], shelves=kitchen.ovens[0].shelves + step)
            if oven.shelves:
                yield f"{words} oven shelf", replace(kitchen, ovens=(oven, *kitchen.ovens[1:]))
    helper = KitchenCook(_new_id(kitchen), "Helper", frozenset({"knife"}))
    yield (
        f"{_HELPER} who chops, rinses and washes up",
        replace(kitchen, cooks=(*kitchen.cooks, helper)),
    )
    if len(kitchen.cooks) > 1:
        yield f"without {kitchen.cooks[-1].name}", replace(kitchen, cooks=kitchen.cooks[:-1])


def _new_id(kitchen: Kitchen) -> str:
    """An id for a helper that no cook has; one may well be called Helper."""
    taken = {cook.id for cook in kitchen.cooks}
    new = "helper"
    while new in taken:
        new += "-more"
    return new


def changed_by(group: Sequence[Vessels | Pans], step: int) -> tuple[Vessels | Pans, ...]:
    """So many more or less of the largest."""
    first = replace(group[0], count=group[0].count + step)
    return tuple(each for each in (first, *group[1:]) if each.count)


def kinds_held(work: Work) -> set[str]:
    """The kinds of vessel and the like that a day makes use of: pot, sheet-pan, board:raw, oven."""
    kept = {name for keep in work.keeps for option in keep.options for name in option}
    used = {name for job in work.jobs for name in job.uses}
    baked = {"oven" for job in work.jobs if job.oven is not None}
    boards = {name for name in used if name.startswith(f"{_BOARD}:")}
    return {name.partition(":")[0] for name in kept | used} | baked | boards
