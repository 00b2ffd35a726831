"""The network behind a solved problem."""

from __future__ import annotations

from itertools import permutations

from batchcook.scheduling.breach import demand, holds
from batchcook.scheduling.flownetwork import Away, FlowNetwork, Hold, Limit
from batchcook.scheduling.handovers import Draft, connect
from batchcook.scheduling.problem import Lag, Problem, Resource
from batchcook.scheduling.schedule import Schedule, WarmUp

__all__ = ["clean_down_of", "network_of", "warm_up_of"]


def network_of(problem: Problem, schedule: Schedule) -> FlowNetwork:
    """The network behind a sound schedule of a problem.

    Its steps are the tasks that are done, their clean-downs and the warm-ups for them, named by
    :func:`clean_down_of` and :func:`warm_up_of`. A resource that keeps a setting keeps it until
    the next warm-up, also where that takes longer than ``keeps``. A task without length in the
    schedule holds nothing. The horizon does not bind.

    Raises:
        ValueError: The schedule uses more of a resource than there is.
    """
    return connect(
        Draft(
            times=_times(schedule),
            lags=(*_lags(problem, schedule), *_runs(schedule), *_clean_downs(schedule)),
            holds=(*_task_holds(problem, schedule), *_occupied(problem, schedule)),
            capacities=_capacities(problem),
            away=_away(problem),
            floors={
                name: problem.tasks[name].earliest or 0
                for name in schedule.tasks
                if problem.tasks[name].earliest
            },
            latest=_latest(problem, schedule),
            kept=(*_just_in_time(schedule), *_cleaned_at_once(schedule)),
            budgets=problem.budgets,
            turns=_turns(problem, schedule),
        )
    )


def clean_down_of(task: str) -> str:
    """The name of the step after a task in which it is cleaned up."""
    return f"{task}/clean-down"


def warm_up_of(warm_up: WarmUp) -> str:
    """The name of the step before a task in which its resource warms up."""
    return f"{warm_up.task}/{warm_up.resource}-to-{warm_up.setting}"


def _times(schedule: Schedule) -> dict[str, tuple[int, int]]:
    times = {}
    for name, done in schedule.tasks.items():
        times[name] = (done.start, done.end)
        if done.release > done.end:
            times[clean_down_of(name)] = (done.end, done.release)
    for item in schedule.warm_ups:
        times[warm_up_of(item)] = (item.start, item.end)
    return times


def _lags(problem: Problem, schedule: Schedule) -> list[Lag]:
    """The lags that bind: both tasks done, the conditions met."""
    return [
        lag
        for lag in problem.lags
        if lag.before in schedule.tasks
        and lag.after in schedule.tasks
        and holds(schedule, lag.when)
    ]


def _runs(schedule: Schedule) -> list[Lag]:
    """A part comes after the part that it continues; a gap that opens costs no new set-up."""
    return [
        Lag(done.follows, "end", name, "start")
        for name, done in schedule.tasks.items()
        if done.follows is not None
    ]


def _clean_downs(schedule: Schedule) -> list[Lag]:
    return [
        Lag(name, "end", clean_down_of(name), "start")
        for name, done in schedule.tasks.items()
        if done.release > done.end
    ]


def _task_holds(problem: Problem, schedule: Schedule) -> list[Hold]:
    """What the steps themselves hold, of each named unit or of a resource as a whole."""
    kept = {each.resource for each in problem.occupancies}
    found = []
    for name, done in schedule.tasks.items():
        steps = [name, clean_down_of(name)] if done.release > done.end else [name]
        for resource in problem.resources.values():
            amount = demand(problem, schedule, name, resource.id)
            for step in steps if amount else ():
                units = done.units.get(resource.id, ())
                found += [Hold(_unit(resource, unit), 1, (step,), step) for unit in units]
                if not units or resource.id in kept:
                    found.append(Hold(resource.id, amount, (step,), step))
    for item in schedule.warm_ups:
        resource = problem.resources[item.resource]
        step = warm_up_of(item)
        found.append(Hold(resource.id, resource.capacity, (step,), step))
    return found


def _unit(resource: Resource, unit: str) -> str:
    """The name under which a named unit is a resource of its own."""
    return f"{resource.id}/{unit}"


def _occupied(problem: Problem, schedule: Schedule) -> list[Hold]:
    found = []
    for each in problem.occupancies:
        fillers = tuple(name for name in each.fillers if name in schedule.tasks)
        if fillers and holds(schedule, each.when):
            found.append(Hold(each.resource, each.amount, fillers, each.until))
    return found


def _capacities(problem: Problem) -> dict[str, int]:
    found = {}
    for resource in problem.resources.values():
        found[resource.id] = resource.capacity
        found |= {_unit(resource, unit): 1 for unit in resource.units}
    return found


def _away(problem: Problem) -> list[Away]:
    """Times away of resources, and of each named unit that is missing."""
    found = []
    for resource in problem.resources.values():
        for place, each in enumerate(resource.absences):
            found.append(Away(resource.id, each.start, each.end, each.amount))
            if resource.absence_units:
                found += [
                    Away(_unit(resource, unit), each.start, each.end, 1)
                    for unit in resource.absence_units[place]
                ]
    return found


def _latest(problem: Problem, schedule: Schedule) -> list[Limit]:
    return [
        Limit(None, "start", name, "end", task.latest, task.reason)
        for name, task in problem.tasks.items()
        if name in schedule.tasks and task.latest is not None
    ]


def _just_in_time(schedule: Schedule) -> list[Limit]:
    """A warm-up ends when its task starts, not long before."""
    return [
        Limit(warm_up_of(item), "end", item.task, "start", 0, told=False)
        for item in schedule.warm_ups
    ]


def _cleaned_at_once(schedule: Schedule) -> list[Limit]:
    """A clean-down that would run into a time away is not left for later: its task waits."""
    return [
        Limit(lag.before, "end", lag.after, "start", 0, told=False)
        for lag in _clean_downs(schedule)
    ]


def _turns(problem: Problem, schedule: Schedule) -> list[tuple[str, str, str]]:
    """Tasks at different settings of a resource, in their order."""
    found = []
    for resource in problem.resources.values():
        if resource.warm_up is None:
            continue
        users = [
            name for name in schedule.tasks if demand(problem, schedule, name, resource.id) > 0
        ]
        for before, after in permutations(users, 2):
            one, other = schedule.tasks[before], schedule.tasks[after]
            in_order = one.release <= other.start and one.start < other.release
            if one.setting != other.setting and in_order:
                last = clean_down_of(before) if one.release > one.end else before
                found.append((last, after, resource.id))
    return found
