"""The network behind a plan, from what ``plan.json`` says alone.

Minutes count from the plan's start. The steps are the plan's tasks, clean-downs and turning the
oven on among them. An occupancy is taken to begin with the task it names. Budgets keep their place
in the plan as their name in the network.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime
from itertools import permutations

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.plan import Budget as FoodBudget
from batchcook.plan import Plan
from batchcook.scheduling.flownetwork import Away, FlowNetwork, Hold, Limit
from batchcook.scheduling.handovers import Draft, connect
from batchcook.scheduling.problem import Budget, Lag, Span
from batchcook.scheduling.scheduleflow import clean_down_of

__all__ = ["budget_named", "minute_of", "network_of_plan"]

_WARM_UP = "preheat"
_PLATE = "plate"


def network_of_plan(plan: Plan) -> FlowNetwork:
    """The network behind a plan.

    Raises:
        InputFault: The plan names a task or resource that it does not list, or uses more of
            something than there is.
    """
    complaints = [*_unknown_tasks(plan), *_unknown_resources(plan)]
    if complaints:
        raise InputFault(complaints)
    try:
        network = connect(
            Draft(
                times={
                    task.id: (minute_of(plan, task.start), minute_of(plan, task.end))
                    for task in plan.tasks
                },
                lags=(*_lags(plan), *_clean_downs(plan)),
                holds=(*_task_holds(plan), *_occupied(plan)),
                capacities={each.id: each.capacity for each in plan.resources},
                away=_away(plan),
                floors=_dinners(plan),
                kept=(*_just_in_time(plan), *_cleaned_at_once(plan)),
                budgets=_budgets(plan),
                turns=_turns(plan),
            )
        )
    except ValueError as fault:
        what = f"does not fit its resources ({fault})"
        raise InputFault(Complaint("plan.json, tasks", what, "a plan as it was written")) from None
    # What has no reason begins with the task before it, by itself: nobody can be late for it.
    limits = (replace(each, told=each.told and bool(each.reason)) for each in network.limits)
    return replace(network, limits=tuple(limits))


def minute_of(plan: Plan, at: datetime) -> int:
    """Minutes from the plan's start to an instant."""
    return int((at - plan.start).total_seconds() // 60)


def _unknown_tasks(plan: Plan) -> list[Complaint]:
    known = [task.id for task in plan.tasks]
    named = [(f"lags[{n}]", id_) for n, x in enumerate(plan.lags, 1) for id_ in (x.before, x.after)]
    named += [
        (f"occupancies[{n}]", id_)
        for n, each in enumerate(plan.occupancies, 1)
        for id_ in (each.from_task, each.to_task)
    ]
    named += [
        (f"budgets[{n}]", id_)
        for n, each in enumerate(plan.budgets, 1)
        for span in each.spans
        for id_ in (span.before, span.after)
    ]
    named += [(f"settings[{n}]", each.task) for n, each in enumerate(plan.settings, 1)]
    return _unknown("task", named, known)


def _unknown_resources(plan: Plan) -> list[Complaint]:
    known = [each.id for each in plan.resources]
    named = [(f"tasks[{n}].uses", id_) for n, task in enumerate(plan.tasks, 1) for id_ in task.uses]
    named += [(f"occupancies[{n}]", each.resource) for n, each in enumerate(plan.occupancies, 1)]
    return _unknown("resource", named, known)


def _unknown(kind: str, named: Iterable[tuple[str, str]], known: list[str]) -> list[Complaint]:
    listed = set(known)
    return [
        Complaint(
            f"plan.json, {where}",
            f"names {id_!r}",
            f"a {kind} that the plan lists",
            nearest(id_, known),
        )
        for where, id_ in named
        if id_ not in listed
    ]


def _lags(plan: Plan) -> list[Lag]:
    return [
        Lag(
            each.before,
            each.from_,
            each.after,
            each.to,
            each.min_minutes,
            each.max_minutes,
            reason=each.reason,
        )
        for each in plan.lags
    ]


def _budgets(plan: Plan) -> list[Budget]:
    return [
        Budget(
            str(place),
            tuple(Span(span.before, span.from_, span.after, span.to) for span in each.spans),
            each.limit_minutes,
        )
        for place, each in enumerate(plan.budgets)
    ]


def budget_named(plan: Plan, name: str) -> FoodBudget:
    """The budget of a plan that has this name in its network."""
    return plan.budgets[int(name)]


def _clean_downs(plan: Plan) -> list[Lag]:
    """What is cleaned up after a task comes after it."""
    listed = {task.id for task in plan.tasks}
    return [
        Lag(task.id, "end", clean_down_of(task.id), "start")
        for task in plan.tasks
        if clean_down_of(task.id) in listed
    ]


def _task_holds(plan: Plan) -> list[Hold]:
    return [
        Hold(resource, amount, (task.id,), task.id)
        for task in plan.tasks
        for resource, amount in task.uses.items()
        if amount > 0
    ]


def _occupied(plan: Plan) -> list[Hold]:
    return [
        Hold(each.resource, each.amount, (each.from_task,), each.to_task)
        for each in plan.occupancies
    ]


def _away(plan: Plan) -> list[Away]:
    """Times away from the plan's start on; what was before it binds nothing."""
    return [
        Away(each.id, max(0, minute_of(plan, away.from_)), minute_of(plan, away.to), away.amount)
        for each in plan.resources
        for away in each.away
        if away.to > plan.start
    ]


def _dinners(plan: Plan) -> dict[str, int]:
    """Dinner is plated for its time, however early the rest of the day is."""
    return {task.id: minute_of(plan, task.start) for task in plan.tasks if task.technique == _PLATE}


def _just_in_time(plan: Plan) -> list[Limit]:
    """An oven is hot when the task it was turned on for begins, not long before."""
    return [
        Limit(warm_up.id, "end", task.id, "start", 0, told=False)
        for warm_up in plan.tasks
        if warm_up.technique == _WARM_UP
        for task in plan.tasks
        if task.start == warm_up.end and set(warm_up.uses) & set(task.uses)
    ]


def _cleaned_at_once(plan: Plan) -> list[Limit]:
    """A clean-down that would run into a time away is not left for later: its task waits."""
    return [
        Limit(lag.before, "end", lag.after, "start", 0, told=False) for lag in _clean_downs(plan)
    ]


def _turns(plan: Plan) -> list[tuple[str, str, str]]:
    """Tasks at different temperatures of one oven, in their order."""
    tasks = {task.id: task for task in plan.tasks}
    return [
        (before.task, after.task, before.resource)
        for before, after in permutations(plan.settings, 2)
        if before.resource == after.resource
        and before.degF != after.degF
        and tasks[before.task].end <= tasks[after.task].start
        and tasks[before.task].start < tasks[after.task].end
    ]
