"""A month of freezer nights: out of the stock and what was planned before, into the journal."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import islice
from pathlib import Path
from typing import Final

from batchcook.complaints import Complaint, InputFault
from batchcook.freezer.choosing import choose
from batchcook.freezer.codes import short_codes
from batchcook.freezer.entries import PLANNED, Draft
from batchcook.freezer.evenings import Evening, Evenings, evenings_of
from batchcook.freezer.lots import lot_of
from batchcook.freezer.monthrequest import MonthRequest
from batchcook.freezer.nights import Chosen, Lot, Night
from batchcook.freezer.settling import Settled, dinner_of, settle
from batchcook.freezer.standing import Standing, next_date, standings
from batchcook.freezer.stock import Rating, Stock, Stored, eaten_or_thrown, stock_of
from batchcook.freezer.store import Journal, write_entries
from batchcook.wording import day

__all__ = ["Dinner", "MonthPlan", "plan_month"]

_DAYS_AFTER: Final = 31
"""How far beyond the month's end it is looked."""


@dataclass(frozen=True)
class Dinner:
    """A freezer night with its dinner.

    Attributes:
        evening: As it stands in the journal.
        containers: What is eaten, as far as it is still here.
    """

    evening: Evening
    containers: tuple[Stored, ...]

    @property
    def portions(self) -> int:
        """What it comes to."""
        return sum(each.portions for each in self.containers)


@dataclass(frozen=True)
class MonthPlan:
    """The month.

    Attributes:
        first: Its first day.
        today: The day it was planned.
        dinners: Its freezer nights in order.
        passing: Frozen containers that pass their best-by date in this month before they are eaten.
        thawed: Containers in the refrigerator that are on no evening by their eat-by, where that
            is in this month and still to come.
        proved: Whether fewer are known to be impossible with these nights.
        overdue: Containers that are thawed and past the day by which to eat them.
        faded: Containers past their use-by, which are not planned: safe while frozen.
        use_by: Containers that are here and not planned, with a use-by (once thawing, an eat-by)
            in this month.
        gone: Containers with a use-by in this month that are eaten or thrown out.
        notes: What the household should know.
        away: Evening to why nobody eats at home.
        crunch: Evening to why there is no time to cook.
        off: Evenings that were freezer nights once and are no longer.
        codes: Key to the shortest code that means only that container.
        ratings: Dish to its latest verdict.
        household: The household's random name.
        now: When it was planned.
    """

    first: dt.date
    today: dt.date
    dinners: tuple[Dinner, ...]
    passing: tuple[Stored, ...]
    thawed: tuple[Stored, ...]
    proved: bool
    overdue: tuple[Standing, ...]
    faded: tuple[Stored, ...]
    use_by: tuple[Stored, ...]
    gone: tuple[Stored, ...]
    notes: tuple[str, ...]
    away: Mapping[dt.date, tuple[str, ...]]
    crunch: Mapping[dt.date, tuple[str, ...]]
    off: tuple[Evening, ...]
    codes: Mapping[str, str]
    ratings: Mapping[str, Rating]
    household: str
    now: dt.datetime


def plan_month(place: Path, asked: MonthRequest, today: dt.date, *, now: dt.datetime) -> MonthPlan:
    """Plan a month's freezer nights and keep them.

    What is past stays, what the household settled stays, all else is chosen.

    Args:
        place: The freezer file.
        asked: The month, and what is asked of it.
        today: Nothing is planned before this day.
        now: The instant of writing, with its zone.

    Raises:
        InputFault: What is asked cannot be, or the file is at fault.
    """

    def judge(journal: Journal) -> tuple[list[Draft], MonthPlan]:
        stock, before = stock_of(journal), evenings_of(journal)
        settings = asked.settings(before.last_settings(asked.name))
        request = asked.with_calendar(settings)
        settled = settle(request, settings, before, stock, today)
        taken = _taken(settled, before, request, today)
        available = [each for key, each in stock.here.items() if key not in taken]
        evenings, proved = _chosen(request, settled, before, (stock, available), today)
        stamped = [_stamped(evening, before, now) for evening in evenings]
        drafts = [
            Draft(PLANNED, evening.on.isoformat(), now.date(), evening.details())
            for evening in (*settled.loosed, *stamped)
            if not evening.same_plan(before.by_day.get(evening.on))
        ]
        if settings != before.settings.get(request.name):
            drafts.append(Draft(PLANNED, request.name, now.date(), settings))
        dinners = tuple(
            Dinner(evening, tuple(stock.here[key] for key in evening.keys if key in stock.here))
            for evening in stamped
            if not evening.off
        )
        if request.last < today and not dinners:
            what = "is over, and no freezer night of it was planned"
            raise InputFault(Complaint(request.name, what, f"{today:%Y-%m} or a later month"))
        first = max(today, request.first)
        planned = {key for dinner in dinners for key in dinner.evening.keys}
        coming = tuple(dinner for dinner in dinners if dinner.evening.on >= first)
        to_eat = {key for dinner in coming for key in dinner.evening.keys}
        return drafts, MonthPlan(
            first=request.first,
            today=today,
            dinners=dinners,
            passing=_passing(available, coming, first, request.last),
            thawed=tuple(
                each
                for each in available
                if each.eat_by and first <= each.eat_by <= request.last and each.key not in to_eat
            ),
            proved=proved,
            overdue=tuple(
                each for each in standings(stock, today) if each.state in {"last days", "throw out"}
            ),
            faded=tuple(each for each in available if each.eat_by is None and each.use_by < first),
            use_by=tuple(
                each
                for each in stock.here.values()
                if each.key not in planned and first <= next_date(each) <= request.last
            ),
            gone=tuple(
                each
                for each in eaten_or_thrown(journal, stock)
                if request.first <= each.use_by <= request.last
            ),
            notes=(
                *settled.notes,
                *_no_effect(request, dinners),
                *_as_read_last(asked, request),
            ),
            away=request.away,
            crunch=request.crunch,
            off=tuple(evening for evening in stamped if evening.off),
            codes=short_codes(stock),
            ratings=stock.ratings,
            household=journal.household,
            now=now,
        )

    return write_entries(place, judge, now=now)


def _no_effect(request: MonthRequest, dinners: Sequence[Dinner]) -> tuple[str, ...]:
    """Numbers at the table that were asked for evenings without a freezer night."""
    nights = {dinner.evening.on for dinner in dinners}
    return tuple(
        f"{day(on)} is no freezer night, so {people} people at the table change nothing."
        for on, people in sorted(request.table.items())
        if on not in nights
    )


def _as_read_last(asked: MonthRequest, request: MonthRequest) -> tuple[str, ...]:
    """That the family's calendar was not read anew, where it says anything."""
    if asked.calendar or (asked.crunch, asked.away) == (request.crunch, request.away):
        return ()
    return ("The family's calendar counts as it was read last; --calendar reads it anew.",)


def _taken(settled: Settled, before: Evenings, request: MonthRequest, today: dt.date) -> set[str]:
    """Containers of settled evenings, and of those planned in other months."""
    here = {key for evening in settled.evenings if evening.on >= today for key in evening.keys}
    return here | {
        key
        for evening in before.by_day.values()
        if evening.on >= today and f"{evening.on:%Y-%m}" != request.name
        for key in evening.keys
    }


def _stamped(evening: Evening, before: Evenings, now: dt.datetime) -> Evening:
    """The evening with when, and how often, it was planned."""
    prior = before.by_day.get(evening.on)
    if prior is not None and evening.same_plan(prior):
        return prior
    at = now.astimezone(dt.UTC).isoformat(timespec="seconds")
    moved_before = prior.moved_before if prior else frozenset()
    return replace(evening, times=prior.times + 1 if prior else 1, at=at, moved_before=moved_before)


def _chosen(
    request: MonthRequest,
    settled: Settled,
    before: Evenings,
    there: tuple[Stock, Sequence[Stored]],
    today: dt.date,
) -> tuple[list[Evening], bool]:
    """The evenings with the open ones filled, and whether it is proved."""
    stock, available = there
    first = max(today, request.first)
    lots = _lots(available, stock, today, first)
    after = _nights_after(request, settled, before)
    nights = [*_nights(settled, before, request), *after]
    looked_to = request.last + dt.timedelta(days=_DAYS_AFTER) if after else None
    chosen = choose(nights, list(lots), (first, request.last), looked_to=looked_to)
    return _filled(settled, nights, chosen, list(lots.values()), stock), chosen.proved


def _lots(
    available: Iterable[Stored], stock: Stock, today: dt.date, first: dt.date
) -> dict[Lot, list[str]]:
    """Containers that are alike, with their keys, the oldest first."""
    alike: dict[Lot, list[str]] = {}
    for each in available:
        rating = stock.ratings.get(each.dish)
        dropped = rating is not None and rating.verdict == "drop"
        lot = lot_of(each, today, first, unwanted=dropped)
        if lot.last_day >= first:
            alike.setdefault(lot, []).append(each.key)
    return {replace(lot, count=len(keys)): keys for lot, keys in alike.items()}


def _nights(settled: Settled, before: Evenings, request: MonthRequest) -> list[Night]:
    """The month's nights, with the nearest settled ones of other months at either end."""
    here = [
        Night(
            evening.on,
            evening.people,
            None if evening.on in settled.open else frozenset(evening.mains),
        )
        for evening in settled.evenings
        if not evening.off
    ]
    others = [
        Night(evening.on, evening.people, frozenset(evening.mains))
        for evening in before.by_day.values()
        if evening.keys
    ]
    earlier = [night for night in others if night.on < request.first]
    later = [night for night in others if night.on > request.last]
    return [*earlier[-1:], *here, *later[:1]]


def _nights_after(request: MonthRequest, settled: Settled, before: Evenings) -> list[Night]:
    """The freezer nights of the weeks after the month, with the people of the month.

    None where any evening after the month is planned already: its dinners are taken.
    """
    if any(evening.keys and on > request.last for on, evening in before.by_day.items()):
        return []
    days = [request.last + dt.timedelta(days=each) for each in range(1, _DAYS_AFTER + 1)]
    return [Night(on, settled.people) for on in days if on.weekday() in settled.weekdays]


def _filled(
    settled: Settled,
    nights: Sequence[Night],
    chosen: Chosen,
    keys_of_lots: Sequence[Sequence[str]],
    stock: Stock,
) -> list[Evening]:
    """The evenings with what was chosen for those that were open."""
    waiting = [iter(keys) for keys in keys_of_lots]
    dinners = {
        night.on: [
            stock.here[key] for lot, count in dinner.items() for key in islice(waiting[lot], count)
        ]
        for night, dinner in zip(nights, chosen.dinners, strict=True)
    }
    return [
        replace(evening, **dinner_of(dinners[evening.on]))
        if evening.on in settled.open
        else evening
        for evening in settled.evenings
    ]


def _passing(
    available: Iterable[Stored], dinners: Iterable[Dinner], first: dt.date, last: dt.date
) -> tuple[Stored, ...]:
    """What is frozen and passes its best-by date in this month before it is eaten."""
    eaten_on = {each.key: dinner.evening.on for dinner in dinners for each in dinner.containers}
    return tuple(
        each
        for each in available
        if each.eat_by is None
        and first <= each.best_by <= last
        and not (each.key in eaten_on and eaten_on[each.key] <= each.best_by)
    )
