"""The rest of a day planned anew, readable from top to bottom."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.day.order import ordered, unread_order
from batchcook.day.prepday import Busy, PrepDay
from batchcook.day.solving import Effort
from batchcook.day.tonight import with_dinner
from batchcook.day.workday import day_work
from batchcook.dishwork.draft import Dish
from batchcook.dishwork.work import Work
from batchcook.foodsafety.clock import Breach, replay
from batchcook.foodsafety.events import FoodEvent
from batchcook.kitchens.kitchen import Away
from batchcook.pacing.sureness import how_sure
from batchcook.plan import Plan
from batchcook.plans.metricplan import in_measures_of, in_own_measures
from batchcook.plans.progress import DayState
from batchcook.replan.begunjobs import minute_of
from batchcook.replan.carryingon import carried_on
from batchcook.replan.daysofar import SoFar, Stand, as_planned, so_far
from batchcook.replan.foodrescue import past_events, what_to_do
from batchcook.replan.givingway import given_way, giving_way, how_late
from batchcook.replan.newplan import Made, new_plan
from batchcook.replan.restofday import RestOfDay, rest_of_day, whole_schedule
from batchcook.replan.restsolving import Before, check_rest, solve_rest
from batchcook.replan.sharedpots import leads_to_shared
from batchcook.replan.whynot import possible, why_not
from batchcook.scheduling.schedule import InUse
from batchcook.withheld import Withheld

__all__ = ["Drift", "NoContinuation", "replan"]

_LAST_MINUTE = dt.time(23, 59)
_CLEAN_DOWN = "clean-down"


@dataclass(frozen=True)
class Drift:
    """What is not as planned.

    Attributes:
        at: Now.
        state: What is done and what runs; None where all went as planned so far.
        without: Resource id to the amount that is missing from now on.
        cooks: Ids of the cooks who leave now.
        drop: Ids of dishes that are given up.
    """

    at: dt.datetime
    state: DayState | None = None
    without: Mapping[str, int] = field(default_factory=dict)
    cooks: tuple[str, ...] = ()
    drop: tuple[str, ...] = ()


class NoContinuation(Exception):  # noqa: N818 - an answer, not an error
    """It is proved that the rest of the day cannot be done.

    Attributes:
        why: The limits that clash, in words.
        without: Dishes each of which would have to be dropped for the rest to be possible.
        what_to_do: For each food that is not cold: hold hot, refrigerate now, or throw out.
    """

    def __init__(
        self, why: tuple[str, ...], without: tuple[str, ...], what_to_do: tuple[str, ...]
    ) -> None:
        """Say which limits clash, what would help, and what to do with food."""
        super().__init__("; ".join(why))
        self.why = why
        self.without = without
        self.what_to_do = what_to_do


def replan(plan: Plan, drift: Drift, effort: Effort) -> Plan:
    """The plan with its past as it was, and the rest of the day as short as it can safely be.

    What is done stays done, what runs keeps running to its end. Food that is out keeps its clock.

    Args:
        plan: The plan so far, which carries its order.
        drift: What is not as planned.
        effort: How long to search.

    Raises:
        InputFault: The plan carries no order, or the drift names what the day does not have.
        NoContinuation: The limits that are still open clash.
        NoAnswer: The time ran out first.
    """
    day, dishes, work = _from_order(plan)
    _check(plan, drift, day)
    titles = {dish.id: dish.recipe.title for dish in dishes}
    gone = (*(plan.order.dropped if plan.order else ()), *drift.drop)
    dropped = {dish: titles[dish] for dish in dict.fromkeys(gone)}
    far = so_far(plan, drift.state or as_planned(plan, drift.at), drift.at)
    _check_not_over(plan, far, drift)
    _check_not_packed(plan, far, drift)
    far = _handed_on(plan, _stopped(plan, far, drift), drift)
    day = _with_missing(day, drift)
    rest = rest_of_day(plan, work, day, far, drift.at, dropped=dropped, gone=drift.cooks)
    past = past_events(plan, far, drift.at)
    in_use = InUse(
        {task.id: minute_of(rest.whole, task.start) for task in plan.tasks},
        {task.id: f"cook:{task.cook}" for task in plan.tasks if task.cook is not None},
    )
    strict, order = rest, carried_on(plan, rest, far, drift.at)
    outcome = solve_rest(rest, Before(order, in_use), effort)
    if outcome.schedule is None:
        rest = _loosened(strict)
        order = carried_on(plan, rest, far, drift.at)
        outcome = solve_rest(rest, Before(order, in_use), effort)
    if outcome.schedule is None:
        would_do = [
            dish
            for dish in titles
            if dish not in dropped
            and possible(
                _loosened(
                    rest_of_day(
                        plan,
                        work,
                        day,
                        far,
                        drift.at,
                        dropped={**dropped, dish: titles[dish]},
                        gone=drift.cooks,
                    )
                )
            )
        ]
        raise NoContinuation(
            (*why_not(rest, day.kitchen.room), *_in_hand(plan, far, drift)),
            tuple(would_do),
            tuple(
                in_measures_of(plan, each)
                for each in what_to_do(past, drift.at, day.kitchen.room, titles)
            ),
        )
    check_rest(rest, outcome.schedule)
    lost = replay(past, day.kitchen.room)
    advice = what_to_do(past, drift.at, day.kitchen.room, titles, given_up=drift.drop)
    schedule, left = whole_schedule(rest, outcome.schedule)
    made = Made(
        day=day,
        dishes=dishes,
        dropped=dropped,
        far=far,
        rest=rest,
        schedule=schedule,
        left=left,
        levels=outcome.levels,
        reserved=outcome.reserved,
        at=drift.at,
        notes=(
            *advice,
            *given_way(strict, outcome.schedule),
            *_missing_words(plan, drift, day),
            *_implied_words(plan, far),
        ),
    )
    found, chill = new_plan(plan, made)
    found = _replayed(found, day, chill, lost)
    return in_own_measures(found.model_copy(update={"sure": how_sure(found)}))


def _loosened(strict: RestOfDay) -> RestOfDay:
    """The rest of the day, limits of taste giving way; a dinner is no later than it must be."""
    *sooner, last = (giving_way(strict, late) for late in how_late(strict))
    return next((each for each in sooner if possible(each)), last)


def _from_order(plan: Plan) -> tuple[PrepDay, tuple[Dish, ...], Work]:
    """The day, its dishes and all its work, as the plan was made from.

    Raises:
        InputFault: The plan carries no order, or one that this version cannot read.
    """
    if plan.order is None:
        what = "does not say what it was made from"
        raise InputFault(Complaint("plan.json", what, "a plan made by this version"))
    day, dishes = ordered(plan.order)
    try:
        work = day_work(dishes, day)
    except LookupError as fault:  # a name that the tables of this version do not have
        raise InputFault(unread_order(fault)) from None
    if day.tonight is not None and any(task.technique == "plate" for task in plan.tasks):
        work = with_dinner(work, day.tonight)
    known = {job.id for job in work.jobs}
    planned = {lag.before for lag in plan.lags} | {event.task for event in plan.events}
    if not planned <= known | {f"{dish.id}/put-away" for dish in dishes}:
        what = "has tasks that its recipes do not give any more"
        raise InputFault(Complaint("plan.json", what, "a plan made by this version"))
    return day, dishes, work


def _check(plan: Plan, drift: Drift, day: PrepDay) -> None:
    """What the drift names is there.

    Raises:
        InputFault: With everything that is not.
    """
    complaints = []
    named = (
        ("--drop", drift.drop, [dish.id for dish in plan.dishes]),
        ("--without cook", drift.cooks, [cook.id for cook in day.kitchen.cooks]),
        ("--without", drift.without, [each.id for each in plan.resources]),
    )
    for where, names, known in named:
        complaints += [
            Complaint(where, f"{name!r} is not there", ", ".join(known), nearest(name, known))
            for name in names
            if name not in known
        ]
    if drift.at.date() != plan.date or drift.at < plan.start:
        what = f"{drift.at:%H:%M} is not on the day of the plan"
        complaints.append(Complaint("--at", what, f"a time from {plan.start:%H:%M} on"))
    if complaints:
        raise InputFault(complaints)


def _check_not_over(plan: Plan, far: SoFar, drift: Drift) -> None:
    """Something is left to plan.

    Raises:
        InputFault: All of the day is done.
    """
    done = [far.stands[task.id] for task in plan.tasks if task.id in far.stands]
    if len(done) == len(plan.tasks) and all(stand.over for stand in done):
        end = max((stand.end for stand in done), default=plan.finish)
        what = f"{drift.at:%H:%M} is after the day's end: all was done by {end:%H:%M}"
        raise InputFault(Complaint("--at", what, "a time before that; nothing is left to plan"))


def _check_not_packed(plan: Plan, far: SoFar, drift: Drift) -> None:
    """A dish is given up before it is packed.

    Raises:
        InputFault: With every dish that is packed already.
    """
    complaints = [
        Complaint("--drop", f"{task.id.partition('/')[0]!r} is packed already, or being packed")
        for task in plan.tasks
        if task.technique == "portion"
        and task.id in far.stands
        and set(task.dishes) & set(drift.drop)
    ]
    if complaints:
        raise InputFault(complaints)


def _stopped(plan: Plan, far: SoFar, drift: Drift) -> SoFar:
    """What runs for nothing but a dropped dish is stopped, unless others wait for its pot."""
    tasks = {task.id: task for task in plan.tasks}
    needed = leads_to_shared(plan, drift.drop)
    stands = {
        name: Stand(stand.start, drift.at, over=True)
        if not stand.over
        and tasks[name].dishes
        and set(tasks[name].dishes) <= set(drift.drop)
        and name not in needed
        else stand
        for name, stand in far.stands.items()
    }
    return replace(far, stands=stands)


def _handed_on(plan: Plan, far: SoFar, drift: Drift) -> SoFar:
    """Clearing up that somebody who leaves is in the midst of is begun anew by another."""
    tasks = {task.id: task for task in plan.tasks}
    stands = {
        name: stand
        for name, stand in far.stands.items()
        if stand.over or tasks[name].technique != _CLEAN_DOWN or tasks[name].cook not in drift.cooks
    }
    return replace(far, stands=stands)


def _with_missing(day: PrepDay, drift: Drift) -> PrepDay:
    """The day with what is missing from now on."""
    now = drift.at.time()
    cooks = tuple(
        replace(cook, away=(*cook.away, Away(now, _LAST_MINUTE, "gone")))
        if cook.id in drift.cooks
        else cook
        for cook in day.kitchen.cooks
    )
    busy = tuple(
        Busy(name, amount, now, _LAST_MINUTE, "out of use")
        for name, amount in drift.without.items()
    )
    return replace(day, kitchen=replace(day.kitchen, cooks=cooks), busy=(*day.busy, *busy))


def _replayed(plan: Plan, day: PrepDay, chill: Mapping[str, int], lost: tuple[Breach, ...]) -> Plan:
    """No limit is broken that was not broken already; what was is told, with what to do.

    Raises:
        Withheld: One is.
    """
    breaches = replay(
        [FoodEvent(e.dish, e.food, e.kind, e.event, e.at, e.task) for e in plan.events],
        day.kitchen.room,
        chill_minutes=chill,
    )
    known = {(each.dish, each.food, each.rule) for each in lost}
    fresh = [each for each in breaches if (each.dish, each.food, each.rule) not in known]
    if fresh:
        raise Withheld("\n".join(f"{each.dish}, {each.food}: {each.what}" for each in fresh))
    late = tuple(f"{each.food}: {each.what}: {each.instruction}" for each in breaches)
    if plan.replanned is None:
        return plan
    return plan.model_copy(update={"replanned": plan.replanned.model_copy(update={"late": late})})


def _in_hand(plan: Plan, far: SoFar, drift: Drift) -> list[str]:
    """What a cook who leaves would better finish first, as nobody else can take it over."""
    names = {cook.id: cook.name for cook in plan.cooks}
    return [
        f"{names[task.cook]} is at {task.title!r} until {far.stands[task.id].end:%H:%M}; "
        "finish that first, then plan anew"
        for task in plan.tasks
        if task.cook in drift.cooks and task.id in far.stands and not far.stands[task.id].over
    ]


def _missing_words(plan: Plan, drift: Drift, day: PrepDay) -> list[str]:
    names = {cook.id: cook.name for cook in plan.cooks}
    ovens = {oven.id for oven in day.kitchen.ovens}
    return [
        *(f"From now on without {names[cook]}." for cook in drift.cooks),
        *(
            f"From now on without the {name}."
            if name in ovens
            else f"From now on without {count} x {name}."
            for name, count in drift.without.items()
        ),
    ]


def _implied_words(plan: Plan, far: SoFar) -> list[str]:
    titles = {task.id: task.title for task in plan.tasks}
    if not far.implied:
        return []
    told = "; ".join(dict.fromkeys(titles[name] for name in far.implied))
    return [f"Taken as done, since it comes before what was marked: {told}."]
