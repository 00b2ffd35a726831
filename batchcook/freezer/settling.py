"""Which evenings of a month are freezer nights, and which of them are settled before any choice."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final

from batchcook.complaints import Complaint, InputFault
from batchcook.freezer.codes import pick
from batchcook.freezer.evenings import Evening, Evenings
from batchcook.freezer.monthrequest import MonthRequest, month_days
from batchcook.freezer.stock import Stock, Stored
from batchcook.wording import day

__all__ = ["Settled", "dinner_of", "settle"]

_NAMES: Final = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


@dataclass(frozen=True)
class Settled:
    """The evenings of a month before any choice.

    Attributes:
        evenings: Freezer nights, and those that are so no longer, in order.
        open: The days whose dinner is to be chosen.
        loosed: Evenings of other months whose dinner is settled here, without it.
        notes: What the household should know.
        weekdays: The freezer nights of a week, Monday is 0.
        people: People at the table on an ordinary evening.
    """

    evenings: tuple[Evening, ...]
    open: frozenset[dt.date]
    loosed: tuple[Evening, ...]
    notes: tuple[str, ...]
    weekdays: tuple[int, ...]
    people: int


def settle(
    request: MonthRequest,
    settings: Mapping[str, Any],
    before: Evenings,
    stock: Stock,
    today: dt.date,
) -> Settled:
    """The evenings of the month: what is past, what the household settled, and what is open.

    Args:
        request: The month, and what is asked of it.
        settings: Weekdays, people and table that hold.
        before: What was planned before.
        stock: What there is.
        today: The day of planning.

    Raises:
        InputFault: With a complaint for each thing asked that cannot be.
    """
    wishes = _wishes(request, before, stock, today)
    notes: list[str] = []
    evenings: list[Evening] = []
    for on in month_days(request.first):
        prior = before.by_day.get(on)
        if on < today:
            evenings.extend([prior] if prior and not prior.off else [])
            continue
        evening = _evening(on, request, settings, prior, wishes.get(on))
        if evening is None:
            continue
        if evening.keys:
            others = {key for each in evenings if each.on >= today for key in each.keys}
            gone = _not_there(evening, stock, others)
            if not gone:
                notes += _told_of(evening, stock, today)
            elif on in request.away:
                evening = replace(_opened(evening), off=True)
                notes.append(gone)
            else:
                evening = _opened(evening)
                notes.append(f"{gone} It is chosen anew.")
        if evening.keys and on in request.away:
            notes.append(f"{day(on)} is settled although nobody eats at home then.")
        evenings.append(evening)
    eaten_at_home = {each.on for each in evenings if each.keys}
    for on, titles in request.away.items():
        if on >= today and on.weekday() in settings["weekdays"] and on not in eaten_at_home:
            notes.append(f"{day(on)} has no freezer night: away ({', '.join(titles)}).")
    loosed = _loosed(evenings, request, before, today, notes)
    return Settled(
        tuple(evenings),
        frozenset(
            each.on for each in evenings if not each.keys and not each.off and each.on >= today
        ),
        loosed,
        tuple(notes),
        tuple(settings["weekdays"]),
        settings["people"],
    )


def dinner_of(containers: Sequence[Stored]) -> dict[str, Any]:
    """What an evening says of its containers."""
    titles = dict.fromkeys(each.title for each in containers)
    return {
        "keys": tuple(each.key for each in containers),
        "title": " and ".join(titles),
        "mains": tuple(dict.fromkeys(each.main or each.dish for each in containers)),
    }


def _evening(
    on: dt.date,
    request: MonthRequest,
    settings: Mapping[str, Any],
    prior: Evening | None,
    wish: Mapping[str, Any] | None,
) -> Evening | None:
    """One evening still to come; None where it is no freezer night and never was."""
    blank = Evening(
        on=on,
        keys=(),
        people=settings["table"].get(on.isoformat(), settings["people"]),
        title="",
        mains=(),
        why=_why(on, request, settings),
        kept=False,
    )
    if wish is not None:
        return replace(blank, kept=True, why=blank.why or "settled", **wish)
    if on in request.without:
        return replace(blank, off=True, kept=True)
    if prior is not None and prior.kept and on not in request.free:
        if prior.off:
            return replace(blank, off=True, kept=True)
        return replace(prior, people=blank.people, why=blank.why or prior.why)
    if blank.why and on not in request.away:
        return blank
    return replace(blank, off=True) if prior is not None else None


def _why(on: dt.date, request: MonthRequest, settings: Mapping[str, Any]) -> str:
    """Why an evening is a freezer night; empty where it is none."""
    if on in request.crunch:
        return ", ".join(request.crunch[on])
    return _NAMES[on.weekday()] if on.weekday() in settings["weekdays"] else ""


def _wishes(
    request: MonthRequest, before: Evenings, stock: Stock, today: dt.date
) -> dict[dt.date, dict[str, Any]]:
    """The dinners that are settled by this request: swaps and fixes."""
    faults: list[Complaint] = []
    wishes: dict[dt.date, dict[str, Any]] = {}
    for pair in request.swaps:
        planned = [before.by_day.get(on) for on in pair]
        for on, evening in zip(pair, planned, strict=True):
            if evening is None or not evening.keys:
                what = f"{on.isoformat()} has no dinner to swap"
                faults.append(Complaint("--swap", what, "two evenings that are planned"))
        for on, other in zip(pair, reversed(planned), strict=True):
            if other is not None:
                wishes[on] = {"keys": other.keys, "title": other.title, "mains": other.mains}
    for on, codes in request.fix.items():
        try:
            wishes[on] = dinner_of(pick(stock, codes))
        except InputFault as fault:
            faults.extend(fault.complaints)
    faults += [
        Complaint("--swap" if on not in request.fix else "--fix", f"{on.isoformat()} is past")
        for on in wishes
        if on < today
    ]
    faults += _twice(wishes)
    faults += _promised(wishes, request, before, stock, today)
    faults += [
        Complaint("--fix", f"{stock.here[key].code} cannot be planned for {day(on)}: {words}")
        for on, wish in wishes.items()
        for key in wish["keys"]
        if key in stock.here and (words := _unsafe(stock.here[key], on))
    ]
    if faults:
        raise InputFault(faults)
    return wishes


def _twice(wishes: Mapping[dt.date, Mapping[str, Any]]) -> list[Complaint]:
    keys = [key for wish in wishes.values() for key in wish["keys"]]
    return [
        Complaint("--fix", f"{key} is on two evenings", "each container once")
        for key in dict.fromkeys(keys)
        if keys.count(key) > 1
    ]


def _promised(
    wishes: Mapping[dt.date, Mapping[str, Any]],
    request: MonthRequest,
    before: Evenings,
    stock: Stock,
    today: dt.date,
) -> list[Complaint]:
    """Containers wished for on which another evening is settled, one that stays as it is."""
    return [
        Complaint(
            "--fix",
            f"{stock.here[key].code} is on {day(on)} already, which is settled",
            f"another container, or `batchcook month {on:%Y-%m} --free {on.isoformat()}` first",
        )
        for on, other in before.by_day.items()
        if other.kept and on >= today
        if on not in {*wishes, *request.free, *request.without}
        for wish in wishes.values()
        for key in wish["keys"]
        if key in other.keys and key in stock.here
    ]


def _loosed(
    evenings: Sequence[Evening],
    request: MonthRequest,
    before: Evenings,
    today: dt.date,
    notes: list[str],
) -> tuple[Evening, ...]:
    """Evenings of other months without the dinner that was chosen for them and is settled here."""
    here = {key for each in evenings if each.on >= today for key in each.keys}
    loosed = tuple(
        replace(each, keys=(), title="", mains=())
        for each in before.by_day.values()
        if each.on >= today and f"{each.on:%Y-%m}" != request.name and here & {*each.keys}
    )
    notes += [
        f"{day(each.on)} has lost its dinner to this month: plan {each.on:%Y-%m} again."
        for each in loosed
    ]
    return loosed


def _unsafe(stored: Stored, on: dt.date) -> str:
    """Why a container that thaws may not be eaten on an evening, or an empty string."""
    if stored.eat_by is None or on <= stored.eat_by:
        return ""
    return f"thawed, it is to be {'cooked' if stored.raw else 'eaten'} by {day(stored.eat_by)}"


def _not_there(evening: Evening, stock: Stock, others: Collection[str]) -> str:
    """That what an evening was settled on cannot be eaten then; an empty string where it can.

    Args:
        evening: As it was settled.
        stock: What there is.
        others: What earlier evenings have.
    """
    gone = [key for key in evening.keys if key not in stock.here or key in others]
    late = [
        stock.here[key].code
        for key in evening.keys
        if key in stock.here and _unsafe(stock.here[key], evening.on)
    ]
    if not gone and not late:
        return ""
    names = ", ".join([*(key.partition("@")[0] for key in gone), *late])
    return (
        f"{day(evening.on)} was settled on {evening.title}, but {names} cannot be eaten then "
        "any more."
    )


def _opened(evening: Evening) -> Evening:
    """The evening without its dinner."""
    return replace(evening, keys=(), title="", mains=(), kept=False)


def _told_of(evening: Evening, stock: Stock, today: dt.date) -> Iterator[str]:
    """What the household should know of a settled dinner."""
    for key in evening.keys:
        stored = stock.here[key]
        if stored.eat_by is None and stored.use_by < evening.on:
            yield (
                f"{day(evening.on)}: {stored.code} is past its use-by then, a quality date: safe "
                "while frozen."
            )
        thaws = stored.thaw == "refrigerator" and stored.eat_by is None
        if thaws and evening.on - dt.timedelta(days=stored.thaw_days) < today:
            yield f"{day(evening.on)}: {stored.code} has no time left to thaw in the refrigerator."
