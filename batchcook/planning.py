"""From a prep day to its plan, readable from top to bottom."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from batchcook import assembly, plan
from batchcook.chilling import baths_of
from batchcook.coldchain import cold_chain, frozen_events, ice_to_buy, with_freezer_times
from batchcook.complaints import Complaint, InputFault
from batchcook.cookbook import Cookbook, find_recipe
from batchcook.daylists import day_before, morning_after
from batchcook.daywork import with_day_work
from batchcook.dishes import bowl_names, dish_work
from batchcook.draft import Dish, ingredient_grams
from batchcook.foods import load_foods
from batchcook.foodsafety.cautions import cautions
from batchcook.foodsafety.clock import replay
from batchcook.foodsafety.events import FoodEvent
from batchcook.foodsafety.limits import time_out_limit
from batchcook.formulation import Formulation, formulate
from batchcook.freezerplan import check_cold_space
from batchcook.labelling import codes, containers
from batchcook.packing import container_count
from batchcook.planorder import order_of
from batchcook.prepday import PrepDay
from batchcook.quantities import say
from batchcook.runs import shared_runs
from batchcook.scheduling.schedule import Answer, Level, Outcome, Schedule
from batchcook.scheduling.shifting import begun_late
from batchcook.sharing import share
from batchcook.shopping import shopping_lines
from batchcook.taskgraph import check_graph, task_graph
from batchcook.tonight import WARMING_AND_PLATING, Tonight, set_aside_words, with_dinner
from batchcook.vessels import skillet_load
from batchcook.whatif import variants, what_would_help
from batchcook.work import Work

__all__ = ["Effort", "NoAnswer", "NoPlan", "day_work", "ordered_dishes", "plan_day"]

_TO_EXPLAIN = 10.0
"""Seconds at the least to look for what clashes: an answer without its reason helps nobody."""

_TO_VERIFY = 3.0
"""Seconds to verify one smaller order."""

Progress = Callable[[str, int, int], None]


@dataclass(frozen=True)
class Effort:
    """How long to search, in seconds of wall clock, and who is told how it goes."""

    seconds: float = 20.0
    progress: Progress | None = None


class NoPlan(Exception):  # noqa: N818 - an answer, not an error
    """It is proved that the day cannot be done as ordered."""


class NoAnswer(Exception):  # noqa: N818 - the same
    """Neither a plan nor a proof in the time given."""


def plan_day(
    day: PrepDay, cookbook: Cookbook, effort: Effort, *, what_if: bool = False
) -> plan.Plan:
    """The shortest safe way through a prep day.

    Args:
        day: What is to be cooked, when, in whose kitchen.
        cookbook: The recipes it names.
        effort: How long to search.
        what_if: Whether to solve the day again with one more and one less of everything.

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
    outcome = _solve_or_explain(formulation, day, cookbook, effort)
    if day.tonight is not None and _runs_into_dinner(formulation, outcome, day.tonight):
        formulation = formulate(with_dinner(work, day.tonight), day)
        outcome = _solve_or_explain(formulation, day, cookbook, effort)
        day = replace(day, tonight=None)
    schedule = _checked(formulation, outcome)
    if day.start is None:
        schedule = begun_late(formulation.problem, schedule)
    made = _assemble(day, dishes, formulation, schedule, outcome)
    summary = made.summary.model_copy(
        update={"one_after_another_minutes": _one_after_another(dishes, day, effort)}
    )
    changes = _what_if(dishes, day, made.summary, effort) if what_if else ()
    order = order_of(asked, dishes, schedule.choices)
    return made.model_copy(update={"summary": summary, "what_if": changes, "order": order})


def _what_if(
    dishes: tuple[Dish, ...], day: PrepDay, summary: plan.Summary, effort: Effort
) -> tuple[plan.WhatIf, ...]:
    """The day's length with one more, and one less, of each thing in the kitchen."""
    number = len(list(variants(day.kitchen)))
    each = Effort(max(2.0, effort.seconds / number), effort.progress)

    def measure(changed: PrepDay) -> tuple[int, int] | None:
        try:
            formulation = formulate(day_work(dishes, changed), changed)
            length = _solve(formulation, each, depth=1).levels[0]
        except (InputFault, NoPlan, NoAnswer):
            return None
        return length.value, length.bound

    length = (summary.makespan_minutes, summary.best_bound_minutes)
    return what_would_help(day, length, measure)


def _runs_into_dinner(formulation: Formulation, outcome: Outcome, tonight: Tonight) -> bool:
    """Whether the day still goes on when dinner has to be warmed."""
    if outcome.schedule is None:
        return False
    last = max(done.release for done in outcome.schedule.tasks.values())
    return last > formulation.clock.minute(tonight.at) - WARMING_AND_PLATING


def ordered_dishes(day: PrepDay, cookbook: Cookbook) -> tuple[Dish, ...]:
    """The ordered recipes with their batches.

    Raises:
        InputFault: With a complaint for every dish that is not in the cookbook.
    """
    complaints: list[Complaint] = []
    recipes = []
    for name in day.orders:
        try:
            recipes.append(find_recipe(cookbook, name, "dishes"))
        except InputFault as fault:
            complaints += fault.complaints
    if complaints:
        raise InputFault(complaints)
    bowls = bowl_names(recipes)
    return tuple(
        Dish(recipe, day.orders[recipe.id], bowls[recipe.id], day.system) for recipe in recipes
    )


def day_work(dishes: tuple[Dish, ...], day: PrepDay) -> Work:
    """All the work of the day, shared where dishes have the same, checked as a graph.

    Raises:
        InputFault: The kitchen lacks what a dish needs, or a recipe's steps make no sense.
    """
    complaints: list[Complaint] = []
    works = []
    for dish in dishes:
        try:
            works.append(dish_work(dish, day.kitchen))
        except InputFault as fault:
            complaints += fault.complaints
    if complaints:
        raise InputFault(complaints)
    held = skillet_load(day.kitchen)
    shared = share(
        works,
        float(held[1].to("gram").magnitude) if held else 0.0,
        skillets=day.kitchen.skillets[0].count if held else 0,
        burners=day.kitchen.burners.count,
    )
    work = _framed(shared, dishes)
    check_graph(task_graph(work), ", ".join(dish.recipe.title for dish in dishes))
    return work


def _framed(work: Work, dishes: tuple[Dish, ...]) -> Work:
    """The dishes' work between setting up for all of them and closing down."""
    return with_day_work(
        work,
        sum(container_count(dish.recipe, dish.batches) for dish in dishes),
        {dish.id: _rinse_grams(dish) for dish in dishes},
    )


def _rinse_grams(dish: Dish) -> float:
    """Weight of the fresh vegetables of a dish, in grams."""
    foods = load_foods()
    return sum(
        float(ingredient_grams(each, dish.batches).magnitude)
        for each in dish.recipe.ingredients
        if foods[each.food].kind == "produce"
    )


def _solve(formulation: Formulation, effort: Effort, *, depth: int | None = None) -> Outcome:
    from batchcook.scheduling.solver import solve  # noqa: PLC0415 - CP-SAT takes long to load

    outcome = solve(
        formulation.problem, seconds=effort.seconds, progress=effort.progress, depth=depth
    )
    if outcome.answer is Answer.IMPOSSIBLE:
        raise NoPlan
    if outcome.answer is Answer.UNKNOWN:
        raise NoAnswer
    return outcome


def _solve_or_explain(
    formulation: Formulation, day: PrepDay, cookbook: Cookbook, effort: Effort
) -> Outcome:
    """The outcome; where the day is impossible, which limits clash and what would do.

    Raises:
        NoPlan: With the clash as its text.
        NoAnswer: The time ran out first.
    """
    try:
        return _solve(formulation, effort)
    except NoPlan:
        from batchcook.clash import find_clash  # noqa: PLC0415 - loads CP-SAT

        def possible(changed: PrepDay) -> bool:
            from batchcook.scheduling.solver import satisfy  # noqa: PLC0415 - the same

            try:
                work = day_work(ordered_dishes(changed, cookbook), changed)
            except InputFault:
                return False
            found = satisfy(formulate(work, changed).problem, seconds=_TO_VERIFY)
            return found.answer is Answer.PLAN

        seconds = max(effort.seconds, _TO_EXPLAIN)
        raise NoPlan(str(find_clash(formulation, day, possible, seconds=seconds))) from None


def _checked(formulation: Formulation, outcome: Outcome) -> Schedule:
    """The schedule, once the independent checker has passed it.

    Raises:
        AssertionError: It did not; the plan is withheld.
    """
    from batchcook.scheduling.check import check  # noqa: PLC0415 - beside its solver

    if outcome.schedule is None:
        raise AssertionError("a plan comes with its schedule")
    breaches = check(formulation.problem, outcome.schedule)
    if breaches:
        raise AssertionError("\n".join(map(str, breaches)))
    return outcome.schedule


def _assemble(
    day: PrepDay,
    dishes: tuple[Dish, ...],
    formulation: Formulation,
    schedule: Schedule,
    outcome: Outcome,
) -> plan.Plan:
    """The plan: the schedule in kitchen words, with labels, lists and cautions.

    Raises:
        AssertionError: The replay of each food's events finds a limit broken.
    """
    runs = assembly.runs_of(formulation, schedule)
    tasks = assembly.tasks(formulation, schedule, runs)
    chain = cold_chain(dishes, day.kitchen, tasks, codes(dishes), baths_of(formulation.work))
    shared = shared_runs(
        formulation,
        schedule,
        runs,
        day.system,
        proved=all(level.proved for level in outcome.levels[:2]),
    )
    events = (*assembly.events(formulation, schedule), *frozen_events(chain.freezing, tasks))
    _replayed(events, day, chain.chill_minutes)
    levels = {level.name: level for level in outcome.levels}
    return plan.Plan(
        date=day.date,
        start=min(task.start for task in tasks),
        finish=max(task.end for task in tasks),
        system="metric" if day.system == "metric" else "us",
        summary=_summary(levels, tasks, shared),
        cooks=tuple(plan.Cook(id=cook.id, name=cook.name) for cook in day.kitchen.cooks),
        dishes=tuple(
            plan.Dish(
                id=dish.id,
                title=dish.recipe.title,
                batches=dish.batches,
                servings=dish.recipe.servings * dish.batches,
                state=dish.recipe.state,
                makes=say(dish.recipe.makes * dish.batches, day.system),
            )
            for dish in dishes
        ),
        resources=assembly.resources(formulation, day.kitchen),
        tasks=with_freezer_times(tasks, chain.freezing),
        lags=assembly.lags(formulation, schedule),
        occupancies=assembly.occupancies(formulation, schedule),
        settings=assembly.settings(schedule, formulation),
        events=events,
        shared=shared,
        deadlines=assembly.deadlines(
            formulation,
            schedule,
            {dish.id: dish.recipe.title for dish in dishes},
            time_out_limit(day.kitchen.room),
        ),
        containers=containers(dishes, day.date, day.system, chain.frozen_on),
        cooling=chain.cooling,
        freezing=chain.freezing,
        shopping=(*shopping_lines(dishes, day.system), *ice_to_buy(chain, day.kitchen)),
        day_before=day_before(dishes, chain.ice_pounds, day.kitchen.ice),
        tonight=_tonight(day, dishes),
        morning_after=morning_after(dishes, chain.freezing),
        cautions=tuple(each.text for each in cautions("run-sheet")),
    )


def _tonight(day: PrepDay, dishes: tuple[Dish, ...]) -> str:
    """What to set aside for a dinner after the day is over."""
    if day.tonight is None:
        return ""
    title = next(dish.recipe.title for dish in dishes if dish.id == day.tonight.dish)
    return set_aside_words(day.tonight, title)


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
        raise AssertionError(
            "\n".join(f"{each.dish}, {each.food}: {each.what}" for each in breaches)
        )


def _summary(
    levels: Mapping[str, Level],
    tasks: tuple[plan.Task, ...],
    shared: tuple[plan.SharedRun, ...],
) -> plan.Summary:
    """The day in figures."""
    by_cook: dict[str, int] = {}
    for task in tasks:
        if task.cook is not None:
            minutes = int((task.end - task.start).total_seconds() // 60)
            by_cook[task.cook] = by_cook.get(task.cook, 0) + minutes
    length, hands = levels["makespan"], levels["hands"]
    first, last = min(task.start for task in tasks), max(task.end for task in tasks)
    # A later level may find a shorter day than the first one had the time to.
    minutes = min(length.value, int((last - first).total_seconds() // 60))
    return plan.Summary(
        makespan_minutes=minutes,
        best_bound_minutes=length.bound,
        proved_shortest=minutes == length.bound,
        one_after_another_minutes=0,
        hands_on_minutes=sum(by_cook.values()),
        hands_on_proved=minutes == length.bound and hands.proved,
        hands_on_by_cook=by_cook,
        sharing_saved_minutes=sum(run.minutes_saved for run in shared),
    )


def _one_after_another(dishes: tuple[Dish, ...], day: PrepDay, effort: Effort) -> int:
    """Each dish alone, unshared, at its own shortest, in the same kitchen, added up.

    Setting up and closing down are counted once, as the shared day does, not once a dish.
    """
    total = 0
    for dish in dishes:
        alone = formulate(dish_work(dish, day.kitchen), day)
        outcome = _solve(alone, Effort(max(2.0, effort.seconds / len(dishes))), depth=1)
        total += outcome.levels[0].value
    around = formulate(_framed(Work(), dishes), day)
    return total + _solve(around, effort, depth=1).levels[0].value
