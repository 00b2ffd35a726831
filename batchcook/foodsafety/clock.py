"""The clock of food out of the refrigerator, replayed from events alone.

A check that shares nothing with whatever made the plan: it sees what happens to each food and
when, and says which published limit that breaks.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from batchcook.foodsafety.events import FoodEvent, Track, tracks
from batchcook.foodsafety.kinds import KEEPS_IN_THE_CUPBOARD, RAW_MEAT
from batchcook.foodsafety.limits import STRAIGHT_ON_MINUTES, Limit, limit, time_out_limit
from batchcook.quantities import Quantity

__all__ = ["Breach", "minutes_out", "replay"]

THROW_OUT = "throw it out; neither reheating nor freezing makes it safe"
NOT_PUT_AWAY = frozenset({"on-heat", "off-heat", "held-hot", "out"})


@dataclass(frozen=True)
class Breach:
    """A limit that the events break.

    Attributes:
        dish: The dish.
        food: The food in it, or the dish's name for the whole.
        rule: Name of the limit broken.
        at: When it was broken.
        task: The task at which it was.
        minutes: The minutes counted, or None where the rule counts none.
        limit_minutes: The minutes allowed, or None.
        what: What is wrong, in words.
        instruction: What the plan has to do instead or, had the day been so, the cook.
        limit: The limit with its source.
    """

    dish: str
    food: str
    rule: str
    at: dt.datetime
    task: str
    minutes: int | None
    limit_minutes: int | None
    what: str
    instruction: str
    limit: Limit


@dataclass
class _Clock:
    """The state of one food as its events are replayed."""

    state: str = "cold"
    running_since: dt.datetime | None = None
    spells: dt.timedelta = field(default_factory=dt.timedelta)
    heated: bool = False
    cold_since: dt.datetime | None = None
    overrun: FoodEvent | None = None

    def apply(self, event: FoodEvent, allowed: dt.timedelta) -> None:
        """Move to the state after ``event``, noting where the allowance ran out."""
        if self.running_since is not None:
            self.spells += event.at - self.running_since
            self.running_since = None
        if self.spells > allowed and self.overrun is None:
            self.overrun = event
        if event.event in {"on-heat", "off-heat"}:
            self.heated = True
        if event.event in {"out", "off-heat"} and (self.heated or _perishable(event.kind)):
            self.running_since = event.at
        if event.event != "refrigerated":
            self.cold_since = None
        elif self.state != "refrigerated":
            self.cold_since = event.at
        self.state = event.event


def replay(
    events: Sequence[FoodEvent],
    room_temperature: Quantity,
    *,
    chill_minutes: Mapping[str, int] | None = None,
) -> tuple[Breach, ...]:
    """Every limit that a day's events break, food by food.

    Args:
        events: What happens, in any order of time; at the same minute in order of happening.
        room_temperature: The kitchen's temperature.
        chill_minutes: Dish to the least minutes in the refrigerator before it may be frozen, as
            computed by cooling; a dish not named needs only to have been refrigerated.

    Returns:
        The breaches; empty when all is well.

    Raises:
        InputFault: An event is of no known sort.
    """
    found: dict[tuple[str, str, str, dt.datetime], Breach] = {}
    for track in reversed(tracks(events)):
        for breach in _breaches(track, time_out_limit(room_temperature), chill_minutes or {}):
            # What befell the whole dish is told once, not again for each food in it.
            of_dish = (breach.dish, breach.dish, breach.rule, breach.at)
            same = found.get(of_dish)
            if same is None or same.minutes != breach.minutes:
                found[breach.dish, breach.food, breach.rule, breach.at] = breach
    return tuple(sorted(found.values(), key=lambda breach: (breach.at, breach.dish, breach.food)))


def minutes_out(events: Sequence[FoodEvent]) -> Mapping[tuple[str, str], int]:
    """Minutes out of the refrigerator and off the heat, by dish and food, all spells together.

    Args:
        events: As for :func:`replay`. A spell that no event ends is not counted.

    Raises:
        InputFault: An event is of no known sort.
    """
    found = {}
    for track in tracks(events):
        clock = _Clock()
        for event in track.events:
            clock.apply(event, dt.timedelta.max)
        found[track.dish, track.food] = _minutes(clock.spells)
    return found


def _breaches(track: Track, allowed: int, chill_minutes: Mapping[str, int]) -> list[Breach]:
    clock = _Clock()
    found: list[Breach] = []
    for number, event in enumerate(track.events):
        following = track.events[number + 1] if number + 1 < len(track.events) else None
        found += _hot_without_heat(track, clock, event)
        found += _frozen_warm(track, clock, event, chill_minutes.get(track.dish, 0))
        found += _browned_and_left(track, event, following)
        clock.apply(event, dt.timedelta(minutes=allowed))
    found += _overrun(track, clock, allowed)
    found += _never_put_away(track, clock)
    return found


def _overrun(track: Track, clock: _Clock, allowed: int) -> list[Breach]:
    if clock.overrun is None:
        return []
    minutes = _minutes(clock.spells)
    return [
        _breach(
            track,
            clock.overrun,
            "time-out" if allowed == limit("time-out").minutes else "time-out-hot-room",
            f"out of the refrigerator for {minutes} minutes in all, at most {allowed} are safe",
            THROW_OUT,
            counted=(minutes, allowed),
        )
    ]


def _hot_without_heat(track: Track, clock: _Clock, event: FoodEvent) -> list[Breach]:
    if event.event != "held-hot" or clock.state in {"on-heat", "off-heat", "held-hot"}:
        return []
    return [
        _breach(
            track,
            event,
            "hot-holding",
            "held hot without having been brought up to heat first",
            "heat it through before holding it at 140 degF or above",
        )
    ]


def _frozen_warm(track: Track, clock: _Clock, event: FoodEvent, chill: int) -> list[Breach]:
    if event.event != "frozen" or not clock.heated:
        return []
    cold = 0 if clock.cold_since is None else _minutes(event.at - clock.cold_since)
    if clock.state == "refrigerated" and cold >= chill:
        return []
    if clock.state == "frozen":
        return []
    return [
        _breach(
            track,
            event,
            "cooling-at-home",
            "put into the freezer before it was refrigerator-cold",
            "cool it in the refrigerator first",
            counted=(cold, chill) if chill else None,
        )
    ]


def _browned_and_left(track: Track, event: FoodEvent, following: FoodEvent | None) -> list[Breach]:
    if event.event != "off-heat" or event.kind not in RAW_MEAT:
        return []
    what = "browned but not cooked through, and not put straight on to its final cooking"
    if following is None or following.event != "on-heat":
        return [_breach(track, event, "no-partial-cooking", what, THROW_OUT)]
    waited = _minutes(following.at - event.at)
    if waited <= STRAIGHT_ON_MINUTES:
        return []
    return [
        _breach(track, event, "straight-on", what, THROW_OUT, counted=(waited, STRAIGHT_ON_MINUTES))
    ]


def _never_put_away(track: Track, clock: _Clock) -> list[Breach]:
    last = track.events[-1]
    if clock.running_since is None and not (clock.heated and clock.state in NOT_PUT_AWAY):
        return []
    return [
        _breach(
            track,
            last,
            "cooling-at-home",
            "never put into the refrigerator or freezer after this",
            "put it away within its time out of the refrigerator",
        )
    ]


def _breach(
    track: Track,
    event: FoodEvent,
    rule: str,
    what: str,
    instruction: str,
    *,
    counted: tuple[int, int] | None = None,
) -> Breach:
    return Breach(
        dish=track.dish,
        food=track.food,
        rule=rule,
        at=event.at,
        task=event.task,
        minutes=counted[0] if counted else None,
        limit_minutes=counted[1] if counted else None,
        what=what,
        instruction=instruction,
        limit=limit(rule),
    )


def _perishable(kind: str) -> bool:
    return kind not in KEEPS_IN_THE_CUPBOARD


def _minutes(spell: dt.timedelta) -> int:
    """Whole minutes, a part of a minute counted as one."""
    return -int(-spell.total_seconds() // 60)
