"""What to do now with food that cannot go on as planned: keep it hot, put it away, throw it out."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta

from batchcook.foods import load_foods
from batchcook.foodsafety.clock import minutes_out
from batchcook.foodsafety.events import FoodEvent
from batchcook.foodsafety.kinds import KEEPS_IN_THE_CUPBOARD, RAW_MEAT
from batchcook.foodsafety.limits import STRAIGHT_ON_MINUTES, time_out_limit
from batchcook.plan import Plan
from batchcook.quantities import Quantity
from batchcook.replan.daysofar import SoFar

__all__ = ["FoodOut", "food_out", "past_events", "what_to_do"]

_LOAD = ", load"
_THROW_OUT = "was out too long; throw it out, neither reheating nor freezing makes it safe"
_KEEP_HOT = "keep it hot, at 140 degF or above, until its next step can begin"
_PUT_AWAY = "into the refrigerator now, within {left} min, or throw it out"
_COOK_THROUGH = "cook it through now; meat that is only browned is not kept for later"


def past_events(plan: Plan, far: SoFar, at: datetime) -> list[FoodEvent]:
    """What has happened to each food so far, at its real time.

    Args:
        plan: The plan.
        far: How far its day has come.
        at: Now.
    """
    tasks = {task.id: task for task in plan.tasks}
    last: dict[tuple[str, str], datetime] = {}
    found = []
    for event in plan.events:
        stand = far.stands.get(event.task)
        task = tasks.get(event.task)
        if stand is None or task is None or event.event == "frozen":
            continue
        early = event.at < task.end
        if not early and not stand.over:
            continue
        food = (event.dish, event.food)
        when = max(min(stand.start if early else stand.end, at), last.get(food, plan.start))
        last[food] = when
        found.append(FoodEvent(event.dish, event.food, event.kind, event.event, when, event.task))
    return found


def what_to_do(
    events: Sequence[FoodEvent],
    now: datetime,
    room: Quantity,
    titles: Mapping[str, str],
    *,
    given_up: Collection[str] | None = None,
) -> tuple[str, ...]:
    """An instruction for the foods of each dish that are not cold.

    Args:
        events: What happens to each food; what is after ``now`` is left out.
        now: The minute.
        room: How warm the kitchen is.
        titles: Dish id to its title.
        given_up: The dishes to tell of, which are given up; where None, all dishes, which go on.
    """
    past = [event for event in events if event.at <= now]
    said: dict[tuple[str, str], _Told] = {}
    for dish in titles if given_up is None else given_up:
        tracks: dict[str, list[FoodEvent]] = defaultdict(list)
        for event in past:
            if event.dish == dish:
                tracks[event.food].append(event)
        for food, track in tracks.items():
            left = _left(track, now, time_out_limit(room))
            words = _instruction(track, now, left, goes_on=given_up is None)
            if words:
                told = said.setdefault((dish, words), _Told(left))
                told.left = min(left, told.left)
                if track[0].kind not in KEEPS_IN_THE_CUPBOARD:
                    told.foods[food.partition(_LOAD)[0]] = None
    return tuple(
        f"{_named(titles[dish], told.foods)}: {words.format(left=told.left)}"
        for (dish, words), told in said.items()
    )


@dataclass(frozen=True)
class FoodOut:
    """Food whose clock runs.

    Attributes:
        dish: The dish's id.
        food: The food.
        left: Minutes that it may still be out; less than 0 where it was out too long.
        words: What to do with it.
        lost: Whether it cannot be saved any more.
    """

    dish: str
    food: str
    left: int
    words: str
    lost: bool


def food_out(events: Sequence[FoodEvent], now: datetime, room: Quantity) -> tuple[FoodOut, ...]:
    """The foods that are out of the refrigerator and off the heat, the most urgent first.

    Loads of one food with the same to do are told once, by the most urgent; so are foods of one
    dish with the same to do that came off the heat together, as from one pot, or have as many
    minutes left. Loads that need different things are named.

    Args:
        events: What has happened so far, from :func:`past_events`.
        now: The minute.
        room: How warm the kitchen is.
    """
    tracks: dict[tuple[str, str], list[FoodEvent]] = defaultdict(list)
    for event in events:
        tracks[event.dish, event.food].append(event)
    loads: dict[tuple[str, str, str], tuple[int, str, object]] = {}
    for (dish, food), track in tracks.items():
        perishable = track[0].kind not in KEEPS_IN_THE_CUPBOARD
        off_heat = track[-1].event == "off-heat"
        if not off_heat and (track[-1].event != "out" or not perishable):
            continue
        left = _left(track, now, time_out_limit(room))
        key = dish, food.partition(_LOAD)[0], _instruction(track, now, left, goes_on=True)
        if key not in loads or left < loads[key][0]:
            together: object = (track[-1].at, track[-1].task) if off_heat else left
            loads[key] = left, food, together
    different = Counter((dish, name) for dish, name, _ in loads)
    found: dict[tuple[str, object, str], FoodOut] = {}
    for (dish, name, words), (left, food, together) in sorted(loads.items(), key=_urgency):
        called = food if different[dish, name] > 1 else name
        out = FoodOut(dish, called, left, words.format(left=left), words == _THROW_OUT)
        found.setdefault((dish, together, words), out)
    return tuple(sorted(found.values(), key=lambda each: (each.left, each.dish)))


def _urgency(load: tuple[object, tuple[int, str, object]]) -> int:
    """Minutes left, so that of foods told together the most urgent is the one that is named."""
    return load[1][0]


@dataclass
class _Told:
    """What one instruction is for: the least minutes left, and the foods."""

    left: int
    foods: dict[str, None] = field(default_factory=dict)


def _left(track: list[FoodEvent], now: datetime, allowed: int) -> int:
    """Minutes that a food may still be out, were it put away now."""
    last = track[-1]
    ended = FoodEvent(last.dish, last.food, last.kind, "refrigerated", now, last.task)
    return allowed - minutes_out([*track, ended])[last.dish, last.food]


def _instruction(track: list[FoodEvent], now: datetime, left: int, *, goes_on: bool) -> str:
    """What to do with one food, by the last thing that happened to it; empty where it is cold."""
    last = track[-1]
    words = ""
    if last.event in {"refrigerated", "frozen"}:
        return words
    if left < 0:
        words = _THROW_OUT
    elif last.event in {"on-heat", "held-hot"} and goes_on:
        words = _KEEP_HOT
    elif last.event in {"on-heat", "held-hot"}:
        words = f"{'cook it through, ' if last.kind in RAW_MEAT else ''}cool it, {_PUT_AWAY}"
    elif last.event == "off-heat" and last.kind in RAW_MEAT:
        straight_on = now - last.at <= timedelta(minutes=STRAIGHT_ON_MINUTES)
        words = _COOK_THROUGH if straight_on else _THROW_OUT
    else:
        words = _PUT_AWAY
    return words


def _named(title: str, foods: Collection[str]) -> str:
    """A dish with the foods in it that are meant."""
    known = load_foods()
    names = (known[each].singular if each in known else each for each in foods)
    return f"{title} ({', '.join(names)})" if foods else title
