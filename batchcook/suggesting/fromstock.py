"""The nights ahead, and what the freezer covers of them already."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import islice
from typing import Final

from batchcook.freezer.choosing import choose
from batchcook.freezer.codes import short_codes
from batchcook.freezer.evenings import Evening, evenings_of
from batchcook.freezer.lots import lot_of
from batchcook.freezer.nights import Lot, Night
from batchcook.freezer.stock import Stock, Stored, stock_of
from batchcook.freezer.store import Journal
from batchcook.suggesting.request import SuggestRequest, night_dates

__all__ = ["Ahead", "NightAhead", "ahead"]

_TOO_SOON: Final = 2
"""Days after the prep day on which most of what is made is still being frozen or thawed."""


@dataclass(frozen=True)
class NightAhead:
    """A freezer night, and its dinner where the stock has one.

    Attributes:
        on: The evening.
        people: People at the table.
        dishes: Dishes out of the stock; none where the night is open.
        title: The dinner in words.
        mains: Its main ingredients.
        keys: The containers, as the journal knows them.
        codes: The same, as on their labels.
    """

    on: dt.date
    people: int
    dishes: frozenset[str] = frozenset()
    title: str = ""
    mains: frozenset[str] = frozenset()
    keys: tuple[str, ...] = ()
    codes: tuple[str, ...] = ()

    @property
    def open(self) -> bool:
        """Whether there is nothing for it yet."""
        return not self.keys


@dataclass(frozen=True)
class Ahead:
    """The nights to come, in order, and the stock behind them.

    Attributes:
        nights: Every freezer night.
        stock: What there is, with the household's verdicts.
        unwanted: Containers of dropped dishes, which are not counted on.
    """

    nights: tuple[NightAhead, ...]
    stock: Stock
    unwanted: tuple[Stored, ...]


def ahead(request: SuggestRequest, journal: Journal) -> Ahead:
    """The nights with what the stock covers: planned dinners stay, the rest is chosen.

    A night that the stock would feed only in part is left open.

    Raises:
        InputFault: There are fewer evenings than nights.
    """
    stock = stock_of(journal)
    planned = [
        evening
        for evening in evenings_of(journal).by_day.values()
        if evening.keys and not evening.off
    ]
    dates = night_dates(request, tuple(evening.on for evening in planned))
    codes = short_codes(stock)
    by_day = {evening.on: evening for evening in planned}
    nights = tuple(_night(day, by_day.get(day), request, stock, codes) for day in dates)
    taken = {key for evening in planned for key in evening.keys if not _is_past(evening, request)}
    taken -= {
        key
        for night in nights
        if night.open and night.on in by_day
        for key in by_day[night.on].keys
    }
    there = [
        each
        for key, each in stock.here.items()
        if key not in taken and key not in _eaten_before(planned, request)
    ]
    unwanted = tuple(each for each in there if _dropped(each, stock))
    wanted = [each for each in there if not _dropped(each, stock)]
    # What is made that day is not thawed for the first evenings: those come before all others.
    early = sum(night.on <= request.date + dt.timedelta(days=_TOO_SOON) for night in nights)
    nights = (*_covered(nights[:early], wanted, codes, request), *nights[early:])
    eaten = {key for night in nights for key in night.keys}
    wanted = [each for each in wanted if each.key not in eaten]
    return Ahead(_covered(nights, wanted, codes, request), stock, unwanted)


def _is_past(evening: Evening, request: SuggestRequest) -> bool:
    return evening.on <= request.date


def _eaten_before(planned: Iterable[Evening], request: SuggestRequest) -> set[str]:
    """What will be eaten by the prep day."""
    return {key for evening in planned if _is_past(evening, request) for key in evening.keys}


def _dropped(each: Stored, stock: Stock) -> bool:
    rating = stock.ratings.get(each.dish)
    return rating is not None and rating.verdict == "drop"


def _night(
    day: dt.date,
    evening: Evening | None,
    request: SuggestRequest,
    stock: Stock,
    codes: Mapping[str, str],
) -> NightAhead:
    """The night, with its planned dinner if all of it is here, keeps till then and feeds it."""
    if evening is None:
        return NightAhead(day, request.people)
    found = [
        stock.here[key]
        for key in evening.keys
        if key in stock.here and ((by := stock.here[key].eat_by) is None or day <= by)
    ]
    night = NightAhead(day, evening.people)
    if len(found) < len(evening.keys) or sum(each.portions for each in found) < evening.people:
        return night
    return _with_dinner(night, found, codes)


def _with_dinner(
    night: NightAhead, dinner: Sequence[Stored], codes: Mapping[str, str]
) -> NightAhead:
    return replace(
        night,
        dishes=frozenset(each.dish for each in dinner),
        title=", ".join(dict.fromkeys(each.title for each in dinner)),
        mains=frozenset(each.main or each.dish for each in dinner),
        keys=tuple(each.key for each in dinner),
        codes=tuple(codes.get(each.key, each.code) for each in dinner),
    )


def _covered(
    nights: Sequence[NightAhead],
    there: Iterable[Stored],
    codes: Mapping[str, str],
    request: SuggestRequest,
) -> tuple[NightAhead, ...]:
    """The open nights filled from the stock as far as it feeds the whole table."""
    alike: dict[Lot, list[Stored]] = {}
    for each in there if nights else ():
        lot = lot_of(each, request.date, request.date + dt.timedelta(days=1))
        if lot.last_day >= nights[0].on:
            alike.setdefault(lot, []).append(each)
    if not alike or not any(night.open for night in nights):
        return tuple(nights)
    lots = [replace(lot, count=len(found)) for lot, found in alike.items()]
    table = [Night(night.on, night.people, None if night.open else night.mains) for night in nights]
    chosen = choose(table, lots, (nights[0].on, nights[-1].on))
    waiting = [iter(found) for found in alike.values()]
    filled = []
    for night, counts in zip(nights, chosen.dinners, strict=True):
        dinner = [each for lot, number in counts.items() for each in islice(waiting[lot], number)]
        feeds = night.open and sum(each.portions for each in dinner) >= night.people
        filled.append(_with_dinner(night, dinner, codes) if feeds else night)
    return tuple(filled)
