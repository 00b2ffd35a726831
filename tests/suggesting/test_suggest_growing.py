"""A day that fits is filled a batch at a time, and what was tried is told as it was."""

from __future__ import annotations

import itertools

from suggest_cases import night, offer, request

from batchcook.cookbook import load_cookbook
from batchcook.freezer.store import Journal
from batchcook.suggesting.candidates import Candidate, Scheduled
from batchcook.suggesting.growing import Growth, Refusal, grown
from batchcook.suggesting.model import SuggestModel
from batchcook.suggesting.search import suggest_day
from batchcook.suggesting.telling import tried_lines

_NIGHTS = [night(days) for days in (3, 5, 7, 9, 11, 13)]
_OFFERS = (
    offer("soup", "beans", servings=4, most=2),
    offer("stew", "beef", servings=4, most=2),
    offer("roast", "pork", servings=4, most=1),
)
_FIRST = Scheduled(Candidate({"soup": 1}, {0: "soup"}, (1, 2, 3, 4, 5)), 60, 60)


def _minutes(candidate: Candidate) -> int:
    """A made-up day: an hour a batch, and the roast takes all afternoon."""
    return 60 * sum(candidate.orders.values()) + 400 * ("roast" in candidate.orders)


def _scheduled(candidate: Candidate, dish: str) -> Scheduled | Refusal:
    minutes = _minutes(candidate)
    return Scheduled(candidate, minutes, minutes) if minutes <= 300 else Refusal(dish, minutes, 280)


def _grown(late: int = 99) -> Growth:
    count = itertools.count()
    model = SuggestModel(_NIGHTS, _OFFERS, request(6))
    return grown(_FIRST, model, _scheduled, lambda: next(count) >= late)


def test_a_day_takes_every_batch_that_fits() -> None:
    found = _grown()
    assert found.day.candidate.orders == {"soup": 2, "stew": 2}
    assert len(found.day.candidate.uncovered) == 2
    assert found.complete


def test_what_was_refused_and_what_was_not_asked_is_told_apart() -> None:
    found = _grown()
    assert [(each.dish, each.bound) for each in found.refused] == [("roast", 280)]
    assert found.at_most == ("soup", "stew")
    assert found.idle == ()


def test_a_search_that_ends_early_does_not_say_that_all_was_tried() -> None:
    found = _grown(late=1)
    assert not found.complete
    assert sum(found.day.candidate.orders.values()) <= 2


def test_a_short_day_is_filled_from_the_starter_recipes_until_nothing_more_fits() -> None:
    names = ("lemon-herb-chicken-kit", "sausage-lentil-soup", "salmon-potato-cakes")
    book = load_cookbook()
    asked = request((1, 3, 5), longest=240, seconds=4.0, days=64)
    found = suggest_day(asked, {name: book[name] for name in names}, Journal(), lambda _: None)
    assert found.chosen is not None
    assert found.chosen.minutes <= 240
    assert found.growth is not None
    assert found.growth.complete
    # Salmon cakes besides kit and soup are a day of 2 h 55, proved by ``batchcook plan``.
    assert set(names) == set(found.chosen.candidate.orders)
    told = " ".join(tried_lines(found.growth, found))
    assert all(book[each.dish].title in told for each in found.growth.refused)
