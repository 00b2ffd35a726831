"""From a prep day to its plan, readable from top to bottom."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from batchcook import plan
from batchcook.buying.shopping import shopping_lines
from batchcook.cookbook import Cookbook
from batchcook.day import assembly
from batchcook.day.apart import kept_apart
from batchcook.day.coldchain import cold_chain, frozen_events, ice_to_buy, with_freezer_times
from batchcook.day.comparing import changed_kitchens, one_after_another
from batchcook.day.formulation import Formulation, formulate
from batchcook.day.freezerplan import check_cold_space
from batchcook.day.labelling import codes, containers, letters
from batchcook.day.lists import day_before, morning_after
from batchcook.day.order import order_of
from batchcook.day.prepday import PrepDay
from batchcook.day.runs import shared_runs
from batchcook.day.solving import (
    Effort,
    checked,
    moved_to_its_time,
    runs_into_dinner,
    solved_or_explained,
)
from batchcook.day.tonight import set_aside_words, warmed_from, with_dinner
from batchcook.day.workday import day_work, ordered_dishes
from batchcook.dishwork.draft import Dish
from batchcook.foodsafety.cautions import cautions
from batchcook.foodsafety.clock import replay
from batchcook.foodsafety.events import FoodEvent
from batchcook.foodsafety.limits import time_out_limit
from batchcook.pacing.sureness import how_sure
from batchcook.plans.metricplan import in_own_measures
from batchcook.quantities import say
from batchcook.scheduling.schedule import Level, Outcome, Schedule
from batchcook.withheld import Withheld

__all__ = ["plan_day"]


def plan_day(
    day: PrepDay, cookbook: Cookbook, effort: Effort, *, what_if: bool = False
) -> plan.Plan:
    """The shortest safe way through a prep day.

    Args:
        day: What is to be cooked, when, in whose kitchen.
        cookbook: The recipes it names.
        effort: How long to search.
        what_if: Whether to solve the day again with one more and one less of each thing it uses.

    Raises:
        InputFault: The order, a recipe or the kitchen is at fault.
        NoPlan: The limits clash.
        NoAnswer: The time ran out first.
    """
    dishes = ordered_dishes(day, cookbook)
    asked = day
    check_cold_space(dishes, day.kitchen, day.date)
    work = day_work(dishes, day)
    formulation = formulate(work, day)
    outcome = solved_or_explained(formulation, day, cookbook, effort)
    schedule = moved_to_its_time(formulation, day, checked(formulation, outcome))
    dinner = day.tonight
    if dinner is not None and runs_into_dinner(formulation, schedule, dinner):
        formulation = formulate(with_dinner(work, dinner), day)
        outcome = solved_or_explained(formulation, day, cookbook, effort)
        schedule = moved_to_its_time(formulation, day, checked(formulation, outcome))
        day = replace(day, tonight=None)
    else:
        dinner = None
    made = _assemble(day, dishes, formulation, schedule, outcome)
    summary = made.summary.model_copy(
        update={"one_after_another_minutes": one_after_another(dishes, day, effort)}
    )
    changes = (
        changed_kitchens(dishes, day, schedule, made.summary, effort, dinner=dinner)
        if what_if
        else ()
    )
    order = order_of(asked, dishes, schedule.choices)
    made = made.model_copy(update={"summary": summary, "what_if": changes, "order": order})
    return in_own_measures(made.model_copy(update={"sure": how_sure(made)}))


def _assemble(
    day: PrepDay,
    dishes: tuple[Dish, ...],
    formulation: Formulation,
    schedule: Schedule,
    outcome: Outcome,
) -> plan.Plan:
    """The plan: the schedule in kitchen words, with labels, lists and cautions.

    Raises:
        Withheld: The replay of each food's events finds a limit broken.
    """
    runs = assembly.runs_of(formulation, schedule)
    tasks = assembly.tasks(formulation, schedule, runs)
    chain = cold_chain(dishes, day.kitchen, tasks, codes(dishes), formulation.work.baths)
    proved = all(level.proved for level in outcome.levels[:2])
    shared = shared_runs(formulation, schedule, runs, day.system, proved=proved)
    events = (*assembly.events(formulation, schedule), *frozen_events(chain.freezing, tasks))
    _replayed(events, day, chain.chill_minutes)
    levels = {level.name: level for level in outcome.levels}
    begun = min(task.start for task in tasks)
    if day.start is not None:
        begun = formulation.clock.origin
    return plan.Plan(
        date=day.date,
        start=begun,
        finish=max(task.end for task in tasks),
        system="metric" if day.system == "metric" else "us",
        summary=_summary(levels, tasks, shared, begun, reserved=outcome.reserved),
        cooks=tuple(plan.Cook(id=cook.id, name=cook.name) for cook in day.kitchen.cooks),
        dishes=tuple(
            plan.Dish(
                id=dish.id,
                title=dish.recipe.title,
                batches=dish.batches,
                servings=dish.recipe.servings * dish.batches,
                state=dish.recipe.state,
                makes=say(dish.recipe.makes * dish.batches, day.system),
                letter=letter,
            )
            for letter, dish in zip(letters(), dishes, strict=False)
        ),
        resources=assembly.resources(formulation, day.kitchen, day.busy),
        tasks=with_freezer_times(tasks, chain.freezing),
        lags=assembly.lags(formulation, schedule),
        budgets=assembly.budgets(formulation, schedule, time_out_limit(day.kitchen.room)),
        occupancies=assembly.occupancies(formulation, schedule),
        settings=assembly.settings(schedule, formulation),
        events=events,
        shared=shared,
        apart=kept_apart(formulation.work, schedule.choices, proved=proved),
        deadlines=assembly.deadlines(
            formulation,
            schedule,
            {dish.id: dish.recipe.title for dish in dishes},
            time_out_limit(day.kitchen.room),
        ),
        containers=containers(dishes, day.date, day.system, chain.frozen_on),
        cooling=chain.cooling,
        freezing=chain.freezing,
        shopping=(*shopping_lines(dishes, day.system), *ice_to_buy(chain, day.kitchen, day.system)),
        day_before=day_before(
            dishes,
            day.kitchen,
            day.date,
            ice_pounds=chain.ice_pounds,
            ice_pans=chain.ice_pans,
            shallow_pans=chain.shallow_pans,
        ),
        **_tonight(day, dishes),
        morning_after=morning_after(dishes, chain.freezing, spread=chain.spread),
        cautions=tuple(each.text for each in cautions("run-sheet")),
    )


def _tonight(day: PrepDay, dishes: tuple[Dish, ...]) -> dict[str, Any]:
    """What to set aside for a dinner after the day is over, and when it is warmed."""
    if day.tonight is None:
        return {}
    title = next(dish.recipe.title for dish in dishes if dish.id == day.tonight.dish)
    warm = warmed_from(day.tonight, day.date)
    return {"tonight": set_aside_words(day.tonight, title, warm), "tonight_at": warm}


def _replayed(
    events: tuple[plan.Event, ...], day: PrepDay, chill_minutes: Mapping[str, int]
) -> None:
    """No published limit is broken by what happens to each food."""
    breaches = replay(
        [FoodEvent(e.dish, e.food, e.kind, e.event, e.at, e.task) for e in events],
        day.kitchen.room,
        chill_minutes=chill_minutes,
    )
    if breaches:
        raise Withheld("\n".join(f"{each.dish}, {each.food}: {each.what}" for each in breaches))


def _summary(
    levels: Mapping[str, Level],
    tasks: tuple[plan.Task, ...],
    shared: tuple[plan.SharedRun, ...],
    begun: dt.datetime,
    *,
    reserved: bool,
) -> plan.Summary:
    """The day in figures; its length counts from when it begins, whoever is there by then."""
    by_cook: dict[str, int] = {}
    for task in tasks:
        if task.cook is not None:
            minutes = int((task.end - task.start).total_seconds() // 60)
            by_cook[task.cook] = by_cook.get(task.cook, 0) + minutes
    length, hands = levels["makespan"], levels["hands"]
    # A later level may find a shorter day than the first one had the time to.
    last = max(task.end for task in tasks)
    minutes = min(length.value, int((last - begun).total_seconds() // 60))
    return plan.Summary(
        makespan_minutes=minutes,
        best_bound_minutes=length.bound,
        proved_shortest=minutes == length.bound,
        one_after_another_minutes=0,
        hands_on_minutes=sum(by_cook.values()),
        hands_on_proved=minutes == length.bound and hands.proved,
        hands_on_bound_minutes=sum(by_cook.values()) - (hands.value - hands.bound),
        hands_on_by_cook=by_cook,
        sharing_saved_minutes=sum(run.minutes_saved for run in shared),
        food_has_time=reserved,
    )
