"""The month in words: rows for the terminal, values for a script, moves for the pantry door."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass

from batchcook.foodsafety.thawing import ON_A_TRAY
from batchcook.freezer.containerwords import raw_words
from batchcook.freezer.monthplan import Dinner, MonthPlan
from batchcook.freezer.standing import standing
from batchcook.freezer.stock import Stored
from batchcook.freezer.tables import state_words
from batchcook.wording import day, near_day

__all__ = ["Move", "codes_of", "month_as_data", "month_lines", "moves_of", "night_rows", "remarks"]


@dataclass(frozen=True)
class Move:
    """Containers to move to the refrigerator on one day, for one evening."""

    on: dt.date
    evening: dt.date
    title: str
    containers: tuple[Stored, ...]

    @property
    def where(self) -> str:
        """Where it thaws, if there is raw meat among it; else an empty string."""
        raw = any(each.state == "raw-kit" for each in self.containers)
        return f"RAW: {ON_A_TRAY}" if raw else ""


def moves_of(planned: MonthPlan, *, past: bool = False) -> tuple[Move, ...]:
    """What goes to the refrigerator and when, in order.

    Args:
        planned: The month.
        past: Those of days that are over as well.
    """
    moves = []
    for dinner in planned.dinners:
        by_day: dict[dt.date, list[Stored]] = {}
        for each in dinner.containers:
            move_on = _move_on(each, dinner.evening.on)
            if move_on is not None and (past or move_on >= planned.today):
                by_day.setdefault(move_on, []).append(each)
        moves += [
            Move(on, dinner.evening.on, dinner.evening.title, tuple(containers))
            for on, containers in by_day.items()
        ]
    return tuple(sorted(moves, key=lambda move: (move.on, move.evening)))


def codes_of(planned: MonthPlan, containers: Iterable[Stored]) -> str:
    """``A3, A4``."""
    return ", ".join(planned.codes.get(each.key, each.key) for each in containers)


def remarks(planned: MonthPlan, dinner: Dinner) -> tuple[str, ...]:
    """What the cook should know of one dinner, a few words each."""
    evening = dinner.evening
    told = []
    if not evening.keys:
        told.append("no dinner")
    elif dinner.containers and dinner.portions < evening.people:
        told.append(f"serves {dinner.portions} of {evening.people}: add something")
    elif not dinner.containers:
        told.append("eaten")
    told += dict.fromkeys(raw_words(each) for each in dinner.containers if each.raw)
    told += dict.fromkeys(
        _unthawed_words(each)
        for each in dinner.containers
        if _too_late_to_thaw(each, evening.on, planned.today)
    )
    for dish in dict.fromkeys(each.dish for each in dinner.containers):
        rating = planned.ratings.get(dish)
        if rating is not None and rating.verdict != "keep":
            told.append(f"{rating.verdict}: {rating.note}" if rating.note else rating.verdict)
    if evening.on in planned.crunch:
        told.append(f"crunch: {', '.join(planned.crunch[evening.on])}")
    if evening.kept:
        told.append("settled")
    return tuple(told)


def night_rows(planned: MonthPlan) -> list[tuple[str, ...]]:
    """A row for each night: evening, dinner, codes, serves, move on, remarks."""
    moves: dict[dt.date, list[dt.date]] = {}
    for move in moves_of(planned):
        moves.setdefault(move.evening, []).append(move.on)
    return [
        (
            near_day(dinner.evening.on),
            dinner.evening.title or "-",
            codes_of(planned, dinner.containers),
            f"{dinner.portions} for {dinner.evening.people}" if dinner.containers else "",
            ", ".join(near_day(on) for on in moves.get(dinner.evening.on, ())),
            "; ".join(remarks(planned, dinner)),
        )
        for dinner in planned.dinners
    ]


def month_lines(planned: MonthPlan) -> tuple[str, ...]:
    """What is to be known of the month as a whole, a sentence each."""
    return (
        *_thawed_words(planned),
        _passing_words(planned),
        *_empty_words(planned),
        *_faded_words(planned),
        *planned.notes,
    )


def month_as_data(planned: MonthPlan) -> dict[str, object]:
    """The month for JSON."""
    moves = moves_of(planned)
    return {
        "month": f"{planned.first:%Y-%m}",
        "nights": [
            {
                "on": dinner.evening.on.isoformat(),
                "title": dinner.evening.title,
                "containers": [planned.codes.get(each.key, each.key) for each in dinner.containers],
                "portions": dinner.portions,
                "people": dinner.evening.people,
                "why": dinner.evening.why,
                "settled": dinner.evening.kept,
                "remarks": list(remarks(planned, dinner)),
            }
            for dinner in planned.dinners
        ],
        "move_to_refrigerator": [
            {
                "on": move.on.isoformat(),
                "for": move.evening.isoformat(),
                "containers": [planned.codes[each.key] for each in move.containers],
            }
            for move in moves
        ],
        "overdue": {planned.codes[each.stored.key]: state_words(each) for each in planned.overdue},
        "pass_best_by": [planned.codes[each.key] for each in planned.passing],
        "thawed_on_no_evening": [planned.codes[each.key] for each in planned.thawed],
        "proved_fewest": planned.proved,
        "away": {on.isoformat(): list(titles) for on, titles in planned.away.items()},
        "crunch": {on.isoformat(): list(titles) for on, titles in planned.crunch.items()},
        "notes": list(planned.notes),
    }


def _empty_words(planned: MonthPlan) -> tuple[str, ...]:
    """Why evenings that are still to come have no dinner, and what to do about it."""
    empty = [
        dinner
        for dinner in planned.dinners
        if not dinner.evening.keys and dinner.evening.on >= planned.today
    ]
    if not empty:
        return ()
    count = f"{len(empty)} evening{'' if len(empty) == 1 else 's'}"
    words = (
        f"{count} without a dinner: what is left does not reach, or has the main ingredient of the "
        "evening before or after. `batchcook suggest` says what to make."
    )
    return (words,)


def _passing_words(planned: MonthPlan) -> str:
    count = len(planned.passing)
    sure = (
        "fewer is not possible with these nights"
        if planned.proved
        else "whether fewer is possible was not settled in the time given"
    )
    if planned.thawed:
        sure = f"what is thawed counted as well, {sure}"
    if count == 0:
        return "No container passes its best-by date this month."
    later: dict[dt.date, list[Stored]] = {}
    on_none: list[Stored] = []
    evenings = {
        each.key: dinner.evening.on
        for dinner in planned.dinners
        if dinner.evening.on >= planned.today
        for each in dinner.containers
    }
    for each in planned.passing:
        on = evenings.get(each.key)
        (on_none if on is None else later.setdefault(on, [])).append(each)
    names = [f"{codes_of(planned, those)} (planned for {day(on)})" for on, those in later.items()]
    if on_none:
        names.append(f"{codes_of(planned, on_none)} (on no evening)")
    return (
        f"{count} container{'' if count == 1 else 's'} pass{'es' if count == 1 else ''} best by "
        f"this month before being eaten ({sure}): {', '.join(names)}. Best by is a quality date: "
        "while frozen, eat them any evening."
    )


def _thawed_words(planned: MonthPlan) -> tuple[str, ...]:
    """What is thawed and on no evening in time: a day of safety, not of quality."""
    waiting = [standing(each, planned.today) for each in planned.thawed]
    return tuple(
        f"{codes_of(planned, [each.stored])} {each.stored.title}: {state_words(each)}."
        for each in (*planned.overdue, *waiting)
    )


def _faded_words(planned: MonthPlan) -> tuple[str, ...]:
    if not planned.faded:
        return ()
    names = codes_of(planned, planned.faded)
    return (f"Past use by, so not planned: {names}. Safe while frozen; eat them any evening.",)


def _move_on(each: Stored, evening: dt.date) -> dt.date | None:
    """The day a frozen container goes to the refrigerator; None where it does not."""
    if each.place != "freezer" or each.thaw == "from-frozen" or each.thaw_days == 0:
        return None
    return evening - dt.timedelta(days=each.thaw_days)


def _unthawed_words(each: Stored) -> str:
    """What to do with a container that has no time left to thaw in the refrigerator."""
    if each.thaw == "refrigerator":
        return (
            "no time to thaw it in the refrigerator: another evening, or from frozen on the stove "
            "or in the oven, never in a slow cooker"
        )
    return "cook from frozen"


def _too_late_to_thaw(each: Stored, evening: dt.date, today: dt.date) -> bool:
    move_on = _move_on(each, evening)
    return move_on is not None and move_on < today
