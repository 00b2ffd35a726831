"""A new schedule for the rest of a day written into its plan, the past as it was."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from batchcook import plan
from batchcook.day import assembly
from batchcook.day.apart import kept_apart
from batchcook.day.coldchain import ColdChain, cold_chain, frozen_events, with_freezer_times
from batchcook.day.labelling import codes, containers, letters
from batchcook.day.lists import morning_after
from batchcook.day.prepday import PrepDay
from batchcook.day.runs import shared_runs
from batchcook.dishwork.draft import Dish
from batchcook.foodsafety.limits import time_out_limit
from batchcook.plans.plainform import as_plain
from batchcook.replan.daysofar import SoFar
from batchcook.replan.restofday import RestOfDay
from batchcook.replan.whatchanged import changes, with_notes
from batchcook.scheduling.schedule import Done, Level, Schedule
from batchcook.scheduling.scheduleflow import clean_down_of

__all__ = ["Made", "new_plan", "turned_as_before", "turned_once"]

_PREHEAT = "preheat"


@dataclass(frozen=True)
class Made:
    """All that the new plan is made from.

    Attributes:
        day: The day with what is missing.
        dishes: All dishes, also those given up.
        dropped: The dishes given up, with their titles.
        far: How far the day has come.
        rest: The rest of it as a problem.
        schedule: The whole day, past and to come.
        left: What is left to schedule of tasks that have begun.
        levels: How good it is known to be.
        reserved: Whether that holds for days that leave food time to spare.
        at: Now.
        notes: What to do with food, what is missing, what was taken as done.
    """

    day: PrepDay
    dishes: tuple[Dish, ...]
    dropped: Mapping[str, str]
    far: SoFar
    rest: RestOfDay
    schedule: Schedule
    left: Mapping[str, Done]
    levels: tuple[Level, ...]
    reserved: bool
    at: dt.datetime
    notes: tuple[str, ...]


def new_plan(before: plan.Plan, made: Made) -> tuple[plan.Plan, Mapping[str, int]]:
    """The plan from now on, and each dish's least minutes in the refrigerator before freezing.

    Labels, shopping and the list for the day before stay as they are, but for dropped dishes.
    What would have helped is told of the whole day only.

    Raises:
        InputFault: The freezer cannot take what is cooked in time.
    """
    formulation, schedule = made.rest.told, made.schedule
    runs = assembly.runs_of(formulation, schedule)
    tasks = _tasks(before, made, runs)
    left = [dish for dish in made.dishes if dish.id not in made.dropped]
    chain = cold_chain(left, made.day.kitchen, tasks, codes(made.dishes), formulation.work.baths)
    changed = changes(before, tasks, before.cooks, made.far.stands)
    proved = all(level.proved for level in made.levels[:2])
    shared = shared_runs(formulation, schedule, runs, made.day.system, proved=proved)
    shared = tuple(timed for run in shared if (timed := _timed(run, tasks, made.dropped)).bowls)
    tasks = _in_runs(tasks, shared)
    events = (*assembly.events(formulation, schedule), *frozen_events(chain.freezing, tasks))
    found = before.model_copy(
        update={
            "start": min(task.start for task in tasks),
            "finish": max(task.end for task in tasks),
            "summary": _summary(before, made, tasks, shared),
            "dishes": _dishes(before, made),
            "resources": assembly.resources(made.rest.whole, made.day.kitchen, made.day.busy),
            "tasks": with_notes(with_freezer_times(tasks, chain.freezing), changed),
            "lags": assembly.lags(formulation, schedule),
            "budgets": assembly.budgets(
                formulation, schedule, time_out_limit(made.day.kitchen.room)
            ),
            "occupancies": assembly.occupancies(formulation, schedule),
            "settings": assembly.settings(schedule, formulation),
            "events": events,
            "shared": shared,
            "apart": kept_apart(formulation.work, schedule.choices, proved=proved),
            "what_if": (),
            "deadlines": _deadlines(made),
            "order": _order(before, made),
            "replanned": plan.Replanned(
                at=made.at, finish_before=before.finish, notes=made.notes, changes=changed
            ),
            **_dinner(made),
            **_cold(before, made, left, chain),
        }
    )
    return found, chain.chill_minutes


def _dishes(before: plan.Plan, made: Made) -> tuple[plan.Dish, ...]:
    """The dishes that are still cooked, each with the letter that is on its labels."""
    lettered = dict(zip((dish.id for dish in made.dishes), letters(), strict=False))
    return tuple(
        dish.model_copy(update={"letter": lettered[dish.id]})
        for dish in before.dishes
        if dish.id not in made.dropped
    )


def _cold(
    before: plan.Plan, made: Made, left: Sequence[Dish], chain: ColdChain
) -> dict[str, object]:
    """What of the plan tells of containers and cold."""
    labelled = containers(made.dishes, before.date, made.day.system, chain.frozen_on)
    return {
        "containers": tuple(each for each in labelled if each.dish not in made.dropped),
        "cooling": chain.cooling,
        "freezing": chain.freezing,
        "morning_after": morning_after(tuple(left), chain.freezing, spread=chain.spread),
    }


def _dinner(made: Made) -> dict[str, object]:
    """Nothing is kept for tonight of a dish that is given up."""
    tonight = made.day.tonight
    lost = tonight is not None and tonight.dish in made.dropped
    return {"tonight": "", "tonight_at": None} if lost else {}


def _order(before: plan.Plan, made: Made) -> plan.Order | None:
    """The order with what is missing, for the next time the rest is planned anew."""
    if before.order is None:
        return None
    return before.order.model_copy(
        update={
            "day": as_plain(made.day),
            "choices": dict(made.schedule.choices),
            "dropped": tuple(made.dropped),
        }
    )


# ---- tasks -------------------------------------------------------------------------------------


def _tasks(
    before: plan.Plan, made: Made, runs: Mapping[str, tuple[str, ...]]
) -> tuple[plan.Task, ...]:
    """Past tasks as they were, those under way to their end, and the rest as scheduled."""
    run_of = {part: run for run, parts in runs.items() for part in parts}
    run_of |= {clean_down_of(part): run for part, run in run_of.items()}
    found = {
        task.id: _begun(task, made).model_copy(update={"run": run_of.get(task.id)})
        for task in before.tasks
        if task.id in made.far.stands
    }
    to_come = assembly.tasks(made.rest.told, _to_come(made), runs)
    for task in turned_as_before(to_come, before.tasks, made.far.stands):
        if task.technique == _PREHEAT and task.start >= made.at:
            named = task if task.id not in found else _again(task, made)
            found[named.id] = named
        elif task.technique != _PREHEAT:
            found.setdefault(task.id, task)
    for task in _late_clean_downs(made):
        found.setdefault(task.id, task.model_copy(update={"run": run_of.get(task.id)}))
    served = [_for_dishes_left(task, made.dropped) for task in turned_once(found.values())]
    return tuple(sorted(served, key=lambda task: (task.start, task.end, task.id)))


def turned_as_before(
    tasks: Iterable[plan.Task], before: Iterable[plan.Task], begun: Collection[str]
) -> Iterator[plan.Task]:
    """The tasks to come, an oven's turns with the ids that they had.

    A schedule numbers its turns from the first on, and some of them may be over by now; the same
    turn under another number would be told as one dropped and one new.

    Args:
        tasks: The new schedule's tasks.
        before: The tasks of the plan before.
        begun: Those of them that have begun.
    """
    left = [each for each in before if each.technique == _PREHEAT and each.id not in begun]
    turns = [each.id for each in before if each.technique == _PREHEAT]
    for task in tasks:
        if task.technique != _PREHEAT:
            yield task
            continue
        alike = [each for each in left if (each.title, each.uses) == (task.title, task.uses)]
        if not alike:
            again = f"{task.id}/{task.start:%H%M}" if task.id in turns else task.id
            yield task.model_copy(update={"id": again})
            continue
        same = min(alike, key=lambda each: abs(each.start - task.start))
        left.remove(same)
        yield task.model_copy(update={"id": same.id})


def turned_once(tasks: Iterable[plan.Task]) -> Iterator[plan.Task]:
    """The tasks, with an oven heating to a temperature only until it is turned to another.

    A new plan may bake at another temperature than the one an oven is on its way to.
    """
    every = tuple(tasks)
    turned = [task for task in every if task.technique == _PREHEAT]
    for task in every:
        ends = [
            other.start
            for other in turned
            if task.technique == _PREHEAT
            and other.uses.keys() & task.uses.keys()
            and task.start < other.start < task.end
        ]
        yield task.model_copy(update={"end": min(ends)}) if ends else task


def _for_dishes_left(task: plan.Task, dropped: Collection[str]) -> plan.Task:
    """A task that is told for the dishes that are still cooked."""
    if not set(task.dishes) & set(dropped):
        return task
    left = {dish: amount for dish, amount in task.dishes.items() if dish not in dropped}
    return task.model_copy(update={"dishes": left})


def _begun(task: plan.Task, made: Made) -> plan.Task:
    """A task that has begun, at its real times; another cook may go on with it."""
    stand = made.far.stands[task.id]
    at_its_time = task.model_copy(update={"start": stand.start, "end": stand.end})
    if not stand.over and task.id in made.schedule.tasks:
        ends = made.rest.told.clock.instant(made.schedule.tasks[task.id].end)
        at_its_time = at_its_time.model_copy(update={"end": ends})
    state = made.rest.begun.get(task.id)
    if state is None or state.over or state.stays:
        return at_its_time
    hands = [unit for units in made.schedule.tasks[task.id].units.values() for unit in units]
    uses = {name: amount for name, amount in task.uses.items() if not name.startswith("cook:")}
    taken_up = made.rest.told.clock.instant(made.left[task.id].start)
    return at_its_time.model_copy(
        update={
            "start": max(taken_up, made.at),
            "cook": hands[0].removeprefix("cook:") if hands else None,
            "uses": dict.fromkeys(hands, 1) | uses,
        }
    )


def _to_come(made: Made) -> Schedule:
    """The schedule without the warm-ups of what is in the oven already."""
    warm_ups = tuple(each for each in made.schedule.warm_ups if each.task not in made.rest.begun)
    return Schedule(made.schedule.tasks, made.schedule.choices, warm_ups)


def _again(task: plan.Task, made: Made) -> plan.Task:
    """An oven turned to a temperature that it had before."""
    return task.model_copy(update={"id": f"{task.id}/{made.at:%H%M}"})


def _late_clean_downs(made: Made) -> list[plan.Task]:
    """What is cleaned up only now, after parts that were over before."""
    late = {
        name: done
        for name, done in made.left.items()
        if made.rest.begun[name].over and done.release > done.end
    }
    ids = {clean_down_of(name) for name in late}
    alone = Schedule(late, made.schedule.choices)
    return [task for task in assembly.tasks(made.rest.told, alone, {}) if task.id in ids]


# ---- figures -----------------------------------------------------------------------------------


def _timed(
    run: plan.SharedRun, tasks: Sequence[plan.Task], dropped: Collection[str]
) -> plan.SharedRun:
    """A run from its first task to its last, late clean-downs included, for the dishes left."""
    parts = [task for task in tasks if task.run == run.id]
    return run.model_copy(
        update={
            "start": min(task.start for task in parts),
            "end": max(task.end for task in parts),
            "bowls": tuple(bowl for bowl in run.bowls if bowl.dish not in dropped),
        }
    )


def _in_runs(tasks: Sequence[plan.Task], shared: Sequence[plan.SharedRun]) -> tuple[plan.Task, ...]:
    """The tasks, in no run that is not told."""
    told = {run.id for run in shared}
    return tuple(
        task if task.run is None or task.run in told else task.model_copy(update={"run": None})
        for task in tasks
    )


def _deadlines(made: Made) -> tuple[plan.Deadline, ...]:
    """Those that are still to be met."""
    stands = made.far.stands
    return tuple(
        each
        for each in assembly.deadlines(
            made.rest.told,
            made.schedule,
            {dish.id: dish.recipe.title for dish in made.dishes},
            time_out_limit(made.day.kitchen.room),
        )
        if each.task not in stands or not stands[each.task].over
    )


def _summary(
    before: plan.Plan,
    made: Made,
    tasks: Sequence[plan.Task],
    shared: Iterable[plan.SharedRun],
) -> plan.Summary:
    """The day in figures; the length is that of the whole day, its past part as it was."""
    by_cook = {cook.id: 0 for cook in before.cooks}
    for task in tasks:
        if task.cook is not None:
            by_cook[task.cook] += int((task.end - task.start).total_seconds() // 60)
    start = min(task.start for task in tasks)
    length = next(level for level in made.levels if level.name == "makespan")
    hands = next((level for level in made.levels if level.name == "hands"), None)
    since = int((made.rest.whole.clock.origin - start).total_seconds() // 60)
    return before.summary.model_copy(
        update={
            "makespan_minutes": int((max(t.end for t in tasks) - start).total_seconds() // 60),
            "best_bound_minutes": length.bound + since,
            "proved_shortest": length.proved,
            "food_has_time": made.reserved,
            "hands_on_minutes": sum(by_cook.values()),
            "hands_on_proved": length.proved and hands is not None and hands.proved,
            "hands_on_bound_minutes": None
            if hands is None
            else sum(by_cook.values()) - (hands.value - hands.bound),
            "hands_on_by_cook": {name: minutes for name, minutes in by_cook.items() if minutes},
            "sharing_saved_minutes": sum(run.minutes_saved for run in shared),
        }
    )
