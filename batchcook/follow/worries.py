"""What will not be kept if the day goes on as it is timed now, and what to do about it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from rich.text import Text

from batchcook.dishwork.work import STRAIGHT_ON
from batchcook.follow.following import Following
from batchcook.foodsafety.clock import THROW_OUT
from batchcook.foodsafety.limits import HOT_HOLDING
from batchcook.plan import Budget, Span
from batchcook.plans.metricplan import in_measures_of
from batchcook.plans.network import budget_named
from batchcook.quantities import Quantity
from batchcook.replan.foodrescue import food_out, past_events
from batchcook.scheduling.watching import Alarm, watch
from batchcook.wording import degrees

__all__ = ["worries"]


def worries(following: Following, room: Quantity) -> Text:
    """A line for each limit that matters now.

    Those of food are told as soon as they are foreseen, those of taste once what has to go on is
    there. What is told among the food that is out already is not told again.
    """
    out = food_out(past_events(following.plan, following.far, following.now), following.now, room)
    lost = {each.dish for each in out if each.lost}
    text = Text()
    for line in dict.fromkeys(_lines(following, lost)):
        text.append(f"{degrees(in_measures_of(following.plan, line))}\n")
    return text


def _lines(following: Following, lost: set[str]) -> Iterator[str]:
    """Food first, each dish once, by what runs out first."""
    told = set(lost)
    others: list[str] = []
    for alarm in watch(following.network, following.times):
        if alarm.kind == "budget":
            budget = budget_named(following.plan, alarm.budget)
            if budget.dish not in told:
                told.add(budget.dish)
                yield _out_too_long(following, alarm, budget)
        elif alarm.kind == "away":
            others += _needed(following, alarm)
        else:
            others += _late(following, alarm)
    yield from others


# ---- food --------------------------------------------------------------------------------------


def _out_too_long(following: Following, alarm: Alarm, budget: Budget) -> str:
    """Food whose spells add up to more than it may have; the first to run out of each dish."""
    plan = following.plan
    title = next((dish.title for dish in plan.dishes if dish.id == budget.dish), budget.dish)
    at = _instant(following, alarm.at)
    name = f"{title}, {budget.food}"
    if at <= following.now:
        return f"{name}: out {alarm.over} min too long in all; {THROW_OUT}"
    span = next(
        (each for each in budget.spans if not following.has_come(each.after, each.to)),
        budget.spans[-1],
    )
    return f"{name}: as it goes, out too long from {at:%H:%M} on. {_instead(following, span)}"


def _instead(following: Following, span: Span) -> str:
    """What to do so that the clock does not run out: wait with it, or stop it."""
    task, after = following.tasks[span.before], following.tasks[span.after]
    from_cold = any(
        each.task == span.before and each.event == "out" for each in following.plan.events
    )
    if not following.has_come(span.before, span.from_):
        wait = "Leave it in the refrigerator" if from_cold else f"Wait with: {task.title}"
        return f"{wait} until you can go on at once to: {after.title}."
    hot = f"{float(HOT_HOLDING.to('degF').magnitude):.0f} degF"
    keep = "" if from_cold else f"keep it hot, at {hot} or above, or "
    return f"If you cannot go on to: {after.title}, {keep}put it into the refrigerator."


# ---- all else ----------------------------------------------------------------------------------


def _late(following: Following, alarm: Alarm) -> Iterator[str]:
    """What goes straight on for safety, what must not wait for its taste, what has a set time."""
    last = following.tasks[alarm.ids[-1]]
    by = _instant(following, alarm.at)
    if alarm.kind == "latest":
        if not following.is_over(last.id):
            yield f"{last.title}: {alarm.over} min after its time, {by:%H:%M}"
        return
    first = following.tasks[alarm.ids[0]]
    going_on = last.id in following.far.stands
    why = f"{first.title}: {alarm.reason.rpartition(': ')[2]}"
    if alarm.reason.startswith(STRAIGHT_ON):
        if going_on:
            yield f"{first.title}: browned and left waiting {alarm.over} min too long; {THROW_OUT}"
        elif following.is_over(first.id):
            yield f"{last.title}: at once, by {by:%H:%M}; what is browned may not wait"
        else:
            yield f"{first.title}: not before you can go on at once to: {last.title}"
    elif first.id in following.far.stands and not going_on and not _prolonged(following, alarm):
        yield f"{last.title}: by {by:%H:%M}, timed for {_later(by, alarm)}. {why}"


def _prolonged(following: Following, alarm: Alarm) -> bool:
    """Whether somebody said that what the time counts from the start of needs longer."""
    first, last = alarm.ids
    return first in following.state.late and any(
        limit.origin == "start"
        for limit in following.network.limits
        if (limit.before, limit.after, limit.reason) == (first, last, alarm.reason)
    )


def _needed(following: Following, alarm: Alarm) -> Iterator[str]:
    """Somebody or something is needed while it is away."""
    open_ = [id_ for id_ in alarm.ids if not following.is_over(id_)]
    if not open_:
        return
    names = {f"cook:{cook.id}": cook.name for cook in following.plan.cooks}
    what = names.get(alarm.reason, alarm.reason.replace(":", " "))
    at = _instant(following, alarm.at)
    yield f"{at:%H:%M}: {following.tasks[open_[0]].title} needs {what}, away then"


def _instant(following: Following, minute: int) -> dt.datetime:
    return following.plan.start + dt.timedelta(minutes=minute)


def _later(by: dt.datetime, alarm: Alarm) -> str:
    return f"{by + dt.timedelta(minutes=alarm.over):%H:%M}"
