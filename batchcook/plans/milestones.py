"""The milestones of a prep day as calendar entries with alarms (RFC 5545).

Times are the wall-clock times of the plan, without a zone, as a kitchen clock shows them. Entries
keep their UIDs when a day is planned again, so that a calendar replaces them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta
from typing import TYPE_CHECKING, Final

from batchcook.foodsafety.limits import limit
from batchcook.foodsafety.thawing import ON_A_TRAY, thaw_days
from batchcook.plan import Plan, Task
from batchcook.plans.takenout import done_at
from batchcook.quantities import say, ureg

if TYPE_CHECKING:
    from icalendar import Event

__all__ = ["Milestone", "milestones", "prep_day_ics"]

_EVENING: Final = time(18, 0)
"""When the list of the day before is called up: common practice, no source."""

_MEAT: Final = "meat and fish"
_ON_A_TRAY: Final = f"{ON_A_TRAY[0].upper()}{ON_A_TRAY[1:]}"

_AT_ONCE: Final = timedelta(0)
_SOON: Final = timedelta(minutes=15)
_START: Final = timedelta(minutes=30)
"""How long before an entry its alarm rings."""

_WORTH_AN_ALARM: Final = timedelta(minutes=10)
"""What cooks by itself for less is waited for at the stove."""


@dataclass(frozen=True)
class Milestone:
    """One entry.

    Attributes:
        name: Its name within the day, the same when the day is planned again.
        at: When it starts.
        until: When it ends; the same for an instant.
        title: What the calendar shows.
        words: What it says besides.
        warning: How long before it the alarm rings.
    """

    name: str
    at: datetime
    until: datetime
    title: str
    words: str = ""
    warning: timedelta = _AT_ONCE


def milestones(plan: Plan) -> tuple[Milestone, ...]:
    """The milestones of a plan in order of time.

    Meat that may be frozen, the evening before, the day itself, what is switched on and what is
    done by itself, by when each dish must be cold, tonight's dinner, and what goes into the freezer
    when.
    """
    found = [
        *_frozen_meat(plan),
        *_day_before(plan),
        _whole_day(plan),
        *_by_itself(plan),
        *_cold_by(plan),
        *_dinner(plan),
        *_into_the_freezer(plan),
    ]
    return tuple(sorted(found, key=lambda each: (each.at, each.name)))


def prep_day_ics(plan: Plan) -> bytes:
    """The milestones as the content of an ``.ics`` file; the same plan gives the same bytes."""
    from icalendar import Calendar  # noqa: PLC0415 - only with a calendar

    calendar = Calendar()
    calendar.add("prodid", "-//batchcook//prep day//EN")
    calendar.add("version", "2.0")
    for each in milestones(plan):
        calendar.add_component(_entry(plan, each))
    content: bytes = calendar.to_ical()
    return content


def _frozen_meat(plan: Plan) -> Iterator[Milestone]:
    """When frozen meat begins to thaw: in packs of the published weight, and in one larger pack."""
    pack = limit("thaw-refrigerator").lower
    meat = [line for line in plan.shopping if line.section == _MEAT and not line.later]
    evening = datetime.combine(plan.date - timedelta(days=1), _EVENING)
    whole = {line: ureg.Quantity(line.grams, "gram") for line in meat if line.grams}
    if whole:
        at = evening - timedelta(days=thaw_days(min(pack, max(whole.values()))))
        size = say(pack, plan.system, weigh=True)
        words = f"{_ON_A_TRAY}: 24 hours for each {size} in one pack."
        title = "Frozen meat for the prep day: to the refrigerator"
        yield Milestone("thaw", at, at, title, words)
    for line, weight in whole.items():
        if weight > pack:
            at = evening - timedelta(days=thaw_days(weight))
            name = f"{say(weight, plan.system, weigh=True)} {line.food}"
            title = f"Frozen in one pack, {name}: to the refrigerator"
            yield Milestone(f"thaw/{line.food}", at, at, title, f"{_ON_A_TRAY}.")


def _day_before(plan: Plan) -> Iterator[Milestone]:
    if plan.day_before:
        at = datetime.combine(plan.date - timedelta(days=1), _EVENING)
        title = "Get ready for the prep day"
        words = "\n".join(plan.day_before)
        yield Milestone("day-before", at, at + timedelta(minutes=30), title, words)


def _whole_day(plan: Plan) -> Milestone:
    dishes = ", ".join(dish.title for dish in plan.dishes)
    words = "\n".join(
        f"{dish.title}, {dish.batches} {'batch' if dish.batches == 1 else 'batches'}: {dish.makes}"
        for dish in plan.dishes
    )
    title = f"Prep day: {dishes}" if dishes else "Prep day"
    return Milestone("day", plan.start, plan.finish, title, words, _START)


def _by_itself(plan: Plan) -> Iterator[Milestone]:
    for task in plan.tasks:
        if task.cook is not None:
            continue
        if task.technique == "preheat":
            words = f"It is ready at {task.end:%H:%M}."
            yield Milestone(f"on/{task.id}", task.start, task.start, task.title, words)
        elif task.end - task.start >= _WORTH_AN_ALARM:
            title = f"Done: {task.title}{_of(plan, task)}"
            at = done_at(plan, task)
            yield Milestone(f"done/{task.id}", at, at, title, task.words)


def _of(plan: Plan, task: Task) -> str:
    titles = [dish.title for dish in plan.dishes if dish.id in task.dishes]
    return f" ({', '.join(titles)})" if titles else ""


def _cold_by(plan: Plan) -> Iterator[Milestone]:
    """Only when each dish must be packed and cold: before that the screen and paper keep watch."""
    packed = {task.id for task in plan.tasks if task.technique == "portion"}
    for each in plan.deadlines:
        if each.task in packed:
            yield Milestone(f"cold/{each.task}", each.at, each.at, each.words, "", _SOON)


def _dinner(plan: Plan) -> Iterator[Milestone]:
    """When what was kept of the day for tonight is warmed."""
    if plan.tonight and plan.tonight_at is not None:
        yield Milestone("dinner", plan.tonight_at, plan.tonight_at, "Warm dinner", plan.tonight)


def _into_the_freezer(plan: Plan) -> Iterator[Milestone]:
    titles = {dish.id: dish.title for dish in plan.dishes}
    for each in plan.freezing:
        first = each.containers[0] if each.containers else ""
        title = f"Into the freezer: {titles.get(each.dish, each.dish)}"
        yield Milestone(f"freeze/{each.dish}/{first}", each.at, each.at, title, each.words)


def _entry(plan: Plan, milestone: Milestone) -> Event:
    from icalendar import Alarm, Event  # noqa: PLC0415 - only with a calendar

    entry = Event()
    entry.add("uid", f"{plan.date}/{milestone.name}@batchcook".replace(" ", "-"))
    entry.add("dtstamp", datetime.combine(plan.date, time(0), UTC))
    entry.add("dtstart", milestone.at)
    if milestone.until > milestone.at:
        entry.add("dtend", milestone.until)
    entry.add("summary", _plain(milestone.title))
    if milestone.words:
        entry.add("description", _plain(milestone.words))
    entry.add("transp", "OPAQUE" if milestone.name == "day" else "TRANSPARENT")
    alarm = Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("description", _plain(milestone.title))
    alarm.add("trigger", -milestone.warning)
    entry.add_component(alarm)
    return entry


def _plain(text: str) -> str:
    """Temperatures as a calendar shows them."""
    return text.replace(" degF", " °F").replace(" degC", " °C")
