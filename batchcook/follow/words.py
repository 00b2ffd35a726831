"""What the live screen says, as Rich text."""

from __future__ import annotations

import datetime as dt
from math import ceil

from rich.text import Text

from batchcook.documents.amounts import is_batches
from batchcook.documents.dishkeys import dish_keys
from batchcook.follow.following import Following, Lane, Timed
from batchcook.lengths import hours
from batchcook.pacing.surewords import risk_words, sure_words
from batchcook.plan import Sureness
from batchcook.plans.metricplan import in_measures_of
from batchcook.plans.takenout import done_at
from batchcook.quantities import Quantity
from batchcook.replan.foodrescue import food_out, past_events
from batchcook.wording import degrees

__all__ = ["NEXT", "food_lines", "head_line", "lane_parts", "sure_lines"]

NEXT = 4
"""How many of a lane's tasks to come are shown."""

_SOON = 15
_LATE = "bold reverse"


def head_line(following: Following) -> Text:
    """The time, the finish, and by how much it has moved."""
    moved = _minutes(following.finish - following.plan.finish)
    drift = (
        "as planned" if moved == 0 else f"{hours(abs(moved))} {'later' if moved > 0 else 'earlier'}"
    )
    text = Text()
    text.append(f" {following.now:%H:%M} ", "bold reverse")
    text.append(f"  done at {following.finish:%H:%M}, ")
    text.append(drift, "bold" if moved > 0 else "")
    return text


def lane_parts(following: Following, lane: Lane, chosen: int) -> list[Text]:
    """A lane: what is going on, then what comes next; a text for each, in the order of choice.

    Args:
        following: The day.
        lane: The lane.
        chosen: Place of the chosen entry among what is going on and what comes next.
    """
    going = list(lane.now)
    coming = list(lane.next[:NEXT])
    if not going and not coming:
        return [Text("Nothing more to do." if lane.cook else "Nothing.", "dim")]
    parts = []
    for place, each in enumerate([*going, *coming]):
        text = Text()
        if place == len(going):
            text.append("\nNext\n" if going else "Next\n", "bold underline")
        mark = "> " if place == chosen else "  "
        if each.begun:
            _append_now(text, following, each, mark, full=lane.cook is not None)
        else:
            late = _minutes(each.start - each.task.start)
            text.append(f"{mark}{each.start:%H:%M} ", "bold" if not place else "")
            _append_letters(text, following, each)
            text.append(degrees(each.task.title), "bold" if not place else "")
            text.append(f" (+{hours(late)})" if late > 0 else "", "bold")
        text.rstrip()
        parts.append(text)
    return parts


def _append_now(text: Text, following: Following, each: Timed, mark: str, *, full: bool) -> None:
    """A task under way: its time left, and for a cook all there is to know."""
    task = each.task
    planned = each.start + (done_at(following.plan, task) - task.start)
    planned += dt.timedelta(minutes=following.state.late.get(task.id, 0))
    left = ceil((planned - following.now).total_seconds() / 60)
    text.append(mark)
    _append_letters(text, following, each)
    text.append(f"{degrees(task.title)}\n", "bold")
    if left > 0:
        text.append(f"  {hours(left)} left, until {planned:%H:%M}\n")
    else:
        words = "time is up" if task.cook is None else "should be done"
        text.append(f"  {words}{f', {hours(-left)} ago' if left < 0 else ''}", _LATE)
        text.append("\n")
        if not full and task.words:
            text.append(f"  {degrees(task.words)}\n")
    if not full:
        return
    for line in task.amounts:
        text.append(f"  - {line}\n")
    if not task.amounts:
        for amount in task.dishes.values():
            if not is_batches(amount):
                text.append(f"  - {amount}\n")
    if task.bowl:
        text.append(f"  into the {task.bowl}\n", "bold")
    if task.words:
        text.append(f"  {degrees(task.words)}\n")


def _append_letters(text: Text, following: Following, each: Timed) -> None:
    """The letters of the dishes it is for, as on paper and on the containers."""
    keys = dish_keys(following.plan.dishes)
    for dish in each.task.dishes:
        if dish in keys:
            text.append(keys[dish].letter, "reverse bold")
            text.append(" ")


def food_lines(following: Following, room: Quantity) -> Text:
    """The clocks of food that is out, and what to do where one has run out.

    Once all is done, what the evening and the days after ask for.
    """
    titles = {dish.id: dish.title for dish in following.plan.dishes}
    text = Text()
    events = past_events(following.plan, following.far, following.now)
    for each in food_out(events, following.now, room):
        name = f"{titles.get(each.dish, each.dish)}, {each.food}"
        what_to_do = degrees(in_measures_of(following.plan, each.words))
        if each.lost:
            text.append(f"{name}: {what_to_do}\n", _LATE)
            continue
        by = following.now + dt.timedelta(minutes=each.left)
        text.append(
            f"{name}: {hours(each.left)} left, on the heat or cold by {by:%H:%M}",
            "bold" if each.left <= _SOON else "",
        )
        if each.left <= _SOON:
            text.append(f"; if not: {what_to_do}", "bold")
        text.append("\n")
    if not text.plain and all(map(following.is_over, following.tasks)):
        for line in filter(None, (following.plan.tonight, *following.plan.morning_after)):
            text.append(f"{degrees(line)}\n")
    elif not text.plain:
        text.append("No food is out.", "dim")
    return text


def sure_lines(sure: Sureness) -> Text:
    """By when the day is over on most days that go on from here, and the food to watch."""
    text = Text(f"From here on: {sure_words(sure)}.\n")
    for each in sure.at_risk:
        text.append(f"Watch {risk_words(each)}.\n")
    return text


def _minutes(span: dt.timedelta) -> int:
    return int(span.total_seconds() // 60)
