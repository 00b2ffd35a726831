"""Why each dish was chosen, in words."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from batchcook.freezer.stock import Rating
from batchcook.suggesting.fromstock import NightAhead
from batchcook.suggesting.offers import Offer, Size
from batchcook.suggesting.search import Suggestion
from batchcook.wording import day, short_day

__all__ = ["ChosenDish", "Reason", "chosen_dishes", "dinner_title", "order_words", "why_open"]


@dataclass(frozen=True)
class Reason:
    """One reason: what it is about, and the reason in words."""

    about: str
    words: str


@dataclass(frozen=True)
class ChosenDish:
    """A dish of the suggested day.

    Attributes:
        offer: The recipe.
        size: The batches.
        nights: The nights that it feeds.
        reasons: Why it was chosen.
    """

    offer: Offer
    size: Size
    nights: tuple[NightAhead, ...]
    reasons: tuple[Reason, ...]


def chosen_dishes(suggestion: Suggestion) -> tuple[ChosenDish, ...]:
    """The dishes of the suggested day with their nights and reasons, first eaten first."""
    if suggestion.chosen is None:
        return ()
    found = []
    candidate = suggestion.chosen.candidate
    for dish, batches in candidate.orders.items():
        offer = suggestion.offers[dish]
        size = next(each for each in offer.sizes if each.batches == batches)
        nights = tuple(
            suggestion.ahead.nights[number]
            for number, of in sorted(candidate.dinners.items())
            if of == dish
        )
        reasons = (
            _liked(offer.rating),
            _nights(offer, size, nights),
            _variety(offer, suggestion),
            _dates(offer, nights),
            _work(size),
        )
        found.append(ChosenDish(offer, size, nights, reasons))
    return tuple(sorted(found, key=lambda each: each.nights[0].on))


def why_open(night: NightAhead, suggestion: Suggestion) -> str:
    """Why a night stays without a dinner."""
    if not suggestion.offers:
        return "no recipe at hand can be made for it; why not stands below"
    good = [offer for offer in suggestion.offers.values() if offer.in_time(night.on)]
    if not good:
        return "nothing made that day is frozen and thawed by then, or keeps until then"
    growth = suggestion.growth
    if growth is None:
        return "no day that fits was found"
    if not growth.complete:
        return "the search ended before it came to it: give it more --seconds"
    return "no batch more of any dish was found to fit; why stands below"


def _liked(rating: Rating | None) -> Reason:
    if rating is None:
        return Reason("liked", "no verdict on it yet")
    said = {"keep": "you want to keep it", "change": "you want it changed"}[rating.verdict]
    note = f": {rating.note}" if rating.note else ""
    return Reason("liked", f"{said} ({short_day(rating.on)}){note}")


def _nights(offer: Offer, size: Size, nights: tuple[NightAhead, ...]) -> Reason:
    """How far its containers go."""
    used = sum(offer.containers_for(night.people) for night in nights)
    spare = len(size.portions) - used
    over = sum(offer.left_over(night.people) for night in nights)
    words = (
        f"{_number(len(size.portions), 'container')} of {offer.recipe.portions_per_container}: "
        f"{_number(len(nights), 'night')}"
    )
    if spare:
        words += f", {_number(spare, 'container')} to spare"
    if over:
        words += f", {_number(over, 'portion')} more than the table eats"
    return Reason("portions", words)


def _variety(offer: Offer, suggestion: Suggestion) -> Reason:
    """How often its main ingredient comes, among all nights."""
    main = offer.main or offer.id
    nights = suggestion.ahead.nights
    dinners = suggestion.chosen.candidate.dinners if suggestion.chosen else {}
    of_main = [
        number
        for number, night in enumerate(nights)
        if main in night.mains
        or (number in dinners and (suggestion.offers[dinners[number]].main or "") == main)
    ]
    return Reason(
        "varied", f"{main} on {len(of_main)} of {len(nights)} nights, never on two running"
    )


def _dates(offer: Offer, nights: tuple[NightAhead, ...]) -> Reason:
    last = max(night.on for night in nights)
    return Reason(
        "in date", f"best by {short_day(offer.best_by)}, eaten for the last time {day(last)}"
    )


def _work(size: Size) -> Reason:
    return Reason(
        "work and room",
        f"about {size.hands_on} min of hands-on work, {size.space:.1f} cubic feet in the freezer",
    )


def _number(count: int, noun: str) -> str:
    return f"{count} {noun}{'' if count == 1 else 's'}"


def dinner_title(number: int, night: NightAhead, suggestion: Suggestion) -> tuple[str, str]:
    """A night's dinner, and where it comes from."""
    if not night.open:
        return night.title, f"in the freezer: {' '.join(night.codes)}"
    dinners = suggestion.chosen.candidate.dinners if suggestion.chosen else {}
    if number in dinners:
        return suggestion.offers[dinners[number]].recipe.title, "to be made"
    return "", f"open: {why_open(night, suggestion)}"


def order_words(orders: Iterable[tuple[str, int]]) -> tuple[str, ...]:
    """Dishes and batches as ``batchcook plan`` takes them."""
    return tuple(f"{dish}={batches}" for dish, batches in orders)
