"""A suggestion as rows, lines and plain data."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from batchcook.lengths import hours
from batchcook.suggesting.candidates import Scheduled
from batchcook.suggesting.growing import Growth, Refusal
from batchcook.suggesting.reasons import (
    ChosenDish,
    chosen_dishes,
    dinner_title,
    order_words,
    why_open,
)
from batchcook.suggesting.search import Suggestion
from batchcook.wording import day

__all__ = ["as_data", "day_lines", "dish_rows", "night_rows", "tried_lines"]


def night_rows(suggestion: Suggestion) -> tuple[tuple[str, str, str], ...]:
    """Each night: the evening, the dinner, where it comes from."""
    return tuple(
        (day(night.on), *dinner_title(number, night, suggestion))
        for number, night in enumerate(suggestion.ahead.nights)
    )


def dish_rows(suggestion: Suggestion) -> tuple[tuple[str, str, str], ...]:
    """Each dish: its title, its batches, its reasons."""
    return tuple(
        (
            each.offer.recipe.title,
            str(each.size.batches),
            "\n".join(reason.words for reason in each.reasons),
        )
        for each in chosen_dishes(suggestion)
    )


def day_lines(suggestion: Suggestion) -> tuple[str, ...]:
    """What is to be known of the day, a sentence a line."""
    lines = []
    nights = suggestion.ahead.nights
    stocked = sum(not night.open for night in nights)
    if stocked:
        lines.append(f"{stocked} of {len(nights)} nights are covered by what is in the freezer.")
    if stocked == len(nights):
        lines.append("Nothing has to be made for them.")
    elif suggestion.chosen is None:
        lines.append(_nothing_fits(suggestion))
    else:
        lines.append(_length(suggestion.chosen, suggestion))
        if suggestion.uncovered and suggestion.growth is not None:
            lines += tried_lines(suggestion.growth, suggestion)
    unwanted = suggestion.ahead.unwanted
    if unwanted:
        titles = ", ".join(dict.fromkeys(each.title for each in unwanted))
        lines.append(f"Not counted on, as you dropped the dish: {titles}.")
    lines += [
        f"Also fits: {_orders(other)}, {hours(other.minutes)}." for other in suggestion.others
    ]
    lines += [
        f"Too long: {_orders(other)}, {hours(other.minutes)} was the shortest found."
        for other in suggestion.too_long
    ]
    lines += [f"Left out: {each.title}: {each.why}." for each in suggestion.left_out]
    return tuple(lines)


def as_data(suggestion: Suggestion, command: Sequence[str]) -> dict[str, object]:
    """The same for a script."""
    chosen, request = suggestion.chosen, suggestion.request
    return {
        "date": request.date.isoformat(),
        "until": request.until.isoformat(),
        "people": request.people,
        "longest_minutes": request.longest,
        "day": None if chosen is None else _day_data(chosen),
        "dishes": [_dish_data(each) for each in chosen_dishes(suggestion)],
        "nights": [
            {
                "on": night.on.isoformat(),
                "people": night.people,
                "dinner": title,
                "from": "stock" if not night.open else ("prep day" if title else None),
                "codes": list(night.codes),
            }
            for number, night in enumerate(suggestion.ahead.nights)
            for title, _ in [dinner_title(number, night, suggestion)]
        ],
        "uncovered": [
            {"on": night.on.isoformat(), "why": why_open(night, suggestion)}
            for night in suggestion.uncovered
        ],
        "others": [_day_data(each) for each in suggestion.others],
        "too_long": [_day_data(each) for each in suggestion.too_long],
        "left_out": [
            {"dish": each.dish, "title": each.title, "why": each.why}
            for each in suggestion.left_out
        ],
        "screened_out": suggestion.screened,
        "one_batch_more": None if suggestion.growth is None else _growth_data(suggestion.growth),
        "command": list(command),
    }


def _day_data(scheduled: Scheduled) -> dict[str, object]:
    return {
        "orders": dict(scheduled.candidate.orders),
        "minutes": scheduled.minutes,
        "not_under_minutes": scheduled.bound,
        "uncovered_nights": len(scheduled.candidate.uncovered),
    }


def _growth_data(growth: Growth) -> dict[str, object]:
    return {
        "all_tried": growth.complete,
        "too_long_or_too_much": [
            {"dish": each.dish, "minutes": each.minutes, "not_under_minutes": each.bound}
            for each in growth.refused
        ],
        "feeds_no_further_night": list(growth.idle),
        "at_most": list(growth.at_most),
    }


def _dish_data(each: ChosenDish) -> dict[str, object]:
    return {
        "dish": each.offer.id,
        "title": each.offer.recipe.title,
        "batches": each.size.batches,
        "main": each.offer.main,
        "containers": len(each.size.portions),
        "nights": [night.on.isoformat() for night in each.nights],
        "best_by": each.offer.best_by.isoformat(),
        "reasons": {reason.about: reason.words for reason in each.reasons},
    }


def _length(chosen: Scheduled, suggestion: Suggestion) -> str:
    """How long the day is, and how sure that is."""
    sure = "none shorter" if chosen.minutes == chosen.bound else f"not under {hours(chosen.bound)}"
    return (
        f"The prep day takes {hours(chosen.minutes)} as scheduled ({sure}), within the "
        f"{hours(suggestion.request.longest)} you allow."
    )


def tried_lines(growth: Growth, suggestion: Suggestion) -> Iterator[str]:
    """What was tried for the nights that stay open, a sentence a line."""
    if growth.refused:
        each = "; ".join(_refused(refusal, suggestion) for refusal in growth.refused)
        yield f"Tried for the open nights, a batch more of each: {each}."
    if growth.idle:
        yield (
            "A batch more feeds no further night, as freezer and refrigerator, the cooks' minutes "
            "and different main ingredients on neighbouring nights allow: "
            f"{_titles(growth.idle, suggestion)}."
        )
    if growth.at_most:
        yield (
            "Already in as many batches as are suggested of one dish: "
            f"{_titles(growth.at_most, suggestion)}."
        )
    if not growth.complete:
        yield "The search ended before every dish was tried: give it more --seconds."


def _refused(refusal: Refusal, suggestion: Suggestion) -> str:
    title = suggestion.offers[refusal.dish].recipe.title
    if refusal.bound is None:
        return f"{title}: more than the freezer or the refrigerator takes"
    if refusal.bound > suggestion.request.longest:
        return f"{title}: a day of {hours(refusal.bound)} at the least"
    if refusal.minutes is None:
        return f"{title}: no schedule was found"
    return f"{title}: {hours(refusal.minutes)} was the shortest found"


def _titles(dishes: Sequence[str], suggestion: Suggestion) -> str:
    return ", ".join(suggestion.offers[dish].recipe.title for dish in dishes)


def _nothing_fits(suggestion: Suggestion) -> str:
    """What to do where no day was found."""
    longest = hours(suggestion.request.longest)
    if not suggestion.offers:
        return "No recipe at hand can fill an open night."
    return (
        f"No day of at most {longest} was found that covers an open night: allow a longer one "
        f"with --longest, or give the search more --seconds."
    )


def _orders(scheduled: Scheduled) -> str:
    return " ".join(order_words(scheduled.candidate.orders.items()))
