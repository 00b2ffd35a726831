"""What changes on a list that is half shopped already: more of this, less of that."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from batchcook.buying.packaging import ContainersNeeded
from batchcook.buying.packs import Choice, choice_words, fewer, more
from batchcook.buying.pantry import Pantry
from batchcook.buying.purchase import Purchase
from batchcook.buying.purchases import shopping_list
from batchcook.plan import Plan, ShoppingLine

__all__ = ["Change", "changes"]

What = Literal["buy", "buy more", "buy less", "leave out"]


@dataclass(frozen=True)
class Change:
    """One line that is not as it was.

    Attributes:
        what: What to do.
        food: Of what.
        section: Where in the store, empty for containers.
        difference: How much more or less, as packs.
        was: What the old list said.
        now: What stands in its place.
        when: When to buy it, or an empty string.
        later: Whether it is for the evening it is eaten.
    """

    what: What
    food: str
    section: str
    difference: str
    was: str
    now: str
    when: str = ""
    later: bool = False


def changes(old: Plan, new: Plan, pantry: Pantry | None = None) -> tuple[Change, ...]:
    """What to do about a list that was made from ``old``, now that ``new`` is cooked.

    Packs of the old list are kept where they serve: more is added to them, or as many as possible
    are put back, but one size is never exchanged for another.

    Args:
        old: The plan whose list is in the cook's hand.
        new: The plan that counts.
        pantry: What is at hand, the same for both.
    """
    before, after = shopping_list(old, pantry), shopping_list(new, pantry)
    was = {(each.line.food, each.line.later): each for each in before.purchases}
    now = {(each.line.food, each.line.later): each for each in after.purchases}
    foods = [
        change
        for key in dict.fromkeys((*now, *was))
        if (change := _change(was.get(key), now.get(key), new.system))
    ]
    return (*foods, *_containers(before.containers, after.containers))


def _change(was: Purchase | None, now: Purchase | None, system: str) -> Change | None:
    """The change of one food, or None where its line stands."""
    had = was if was is not None and was.missing > 0 else None
    needs = now if now is not None and now.missing > 0 else None
    if had is None:
        return _told("buy", needs, _take(needs), "", _take(needs)) if needs else None
    if needs is None:
        return _told("leave out", had, _take(had), _take(had), "")
    if had.choice is None or needs.choice is None:
        return _unpacked(had, needs)
    return _packed(had, needs, had.choice, system)


def _packed(was: Purchase, now: Purchase, held: Choice, system: str) -> Change | None:
    """More packs besides those of the old list, or fewer of them."""
    if held.covers(now.missing):
        kept = fewer(held, now.missing)
        taken = _less(held, kept)
    else:
        taken = more(held, now.missing, now.sold)
        kept = _more(held, taken)
    if not taken.counts:
        return None
    return Change(
        what="buy less" if held.covers(now.missing) else "buy more",
        food=now.line.food,
        section=now.line.section,
        difference=choice_words(now.of, taken, system),
        was=was.line.purchase,
        now=choice_words(now.of, kept, system),
        when="" if held.covers(now.missing) else _when(now.line),
        later=now.line.later,
    )


def _unpacked(was: Purchase, now: Purchase) -> Change | None:
    """More or less of what has no packs: the difference is left to the two amounts."""
    if was.line.grams == now.line.grams:
        return None
    what: What = "buy more" if now.line.grams > was.line.grams else "buy less"
    return _told(what, now, "", _take(was), _take(now))


def _told(what: What, purchase: Purchase, difference: str, was: str, now: str) -> Change:
    line = purchase.line
    when = "" if what == "leave out" else _when(line)
    return Change(what, line.food, line.section, difference, was, now, when, line.later)


def _when(line: ShoppingLine) -> str:
    """The first day on which it may be bought, and what else there is to say of the day."""
    on = line.buy_from
    words = [f"not before {on:%a} {on.day} {on:%b}" if on else "", line.when]
    return "; ".join(each for each in words if each)


def _take(purchase: Purchase) -> str:
    return purchase.line.purchase or purchase.line.amount


def _more(held: Choice, besides: Choice) -> Choice:
    both = (*held.counts, *besides.counts)
    return Choice({size: held.counts.get(size, 0) + besides.counts.get(size, 0) for size in both})


def _less(held: Choice, kept: Choice) -> Choice:
    back = {size: count - kept.counts.get(size, 0) for size, count in held.counts.items()}
    return Choice({size: count for size, count in back.items() if count})


def _containers(
    was: Sequence[ContainersNeeded], now: Sequence[ContainersNeeded]
) -> tuple[Change, ...]:
    """More or fewer tubs, bags and pans to buy."""
    before = {each.words: each.buy for each in was}
    after = {each.words: each.buy for each in now}
    return tuple(
        _container_change(words, before.get(words, 0), after.get(words, 0))
        for words in dict.fromkeys((*after, *before))
        if before.get(words, 0) != after.get(words, 0)
    )


def _container_change(words: str, was: int, now: int) -> Change:
    what: What = "buy more" if now > was else "buy less"
    if not was:
        what = "buy"
    if not now:
        what = "leave out"
    return Change(what, words, "", str(abs(now - was)), str(was or ""), str(now or ""))
