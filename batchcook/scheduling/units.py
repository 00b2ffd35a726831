"""Who does what: names the units of each task, with few hand-overs and few idle gaps."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import pairwise

from ortools.sat.python import cp_model

from batchcook.scheduling.classes import classes_of
from batchcook.scheduling.problem import Problem, Resource
from batchcook.scheduling.schedule import Done, Level, Schedule
from batchcook.scheduling.stopping import solved
from batchcook.withheld import Withheld

__all__ = ["assign_units"]

_SEED = 1
_EFFORT = 2.0  # deterministic seconds a resource


@dataclass(frozen=True)
class _Use:
    """A run of linked tasks that keeps ``amount`` units of a resource."""

    tasks: tuple[str, ...]
    start: int
    end: int
    amount: int
    groups: tuple[str, ...]
    shares: Mapping[int, int]


def assign_units(
    problem: Problem,
    schedule: Schedule,
    shares: Mapping[tuple[str, str, int], int],
    wanted: Mapping[str, str] | None = None,
) -> tuple[Schedule, Level]:
    """Name the units of every task; times stay as they are.

    Args:
        problem: The problem.
        schedule: A schedule of it whose units are not yet named.
        shares: What each task takes of each class of units of a resource with several classes.
        wanted: For some tasks, a unit that is better kept than a hand-over is saved: the one that
            a schedule in use names.

    Returns:
        The schedule with its units, and the level that counts the hand-overs: how often two
        tasks of a group, one after the other, have no unit in common.
    """
    named: dict[str, dict[str, tuple[str, ...]]] = {name: {} for name in schedule.tasks}
    value = bound = 0
    for resource in problem.resources.values():
        if not resource.units:
            continue
        given, changes, least = _assign(problem, resource, schedule, shares, wanted or {})
        value, bound = value + changes, bound + least
        for task, units in given.items():
            named[task][resource.id] = units
    tasks = {name: replace(done, units=named[name]) for name, done in schedule.tasks.items()}
    return replace(schedule, tasks=tasks), Level("hand-overs", value, bound)


def _uses(
    problem: Problem,
    resource: Resource,
    schedule: Schedule,
    shares: Mapping[tuple[str, str, int], int],
) -> list[_Use]:
    next_of = {
        done.follows: name for name, done in schedule.tasks.items() if done.follows is not None
    }
    uses = []
    for name, done in schedule.tasks.items():
        amount = _amount(problem, resource, name, done)
        if amount == 0 or done.follows is not None:
            continue
        run = [name]
        while run[-1] in next_of:
            run.append(next_of[run[-1]])
        groups = (problem.tasks[item].group for item in run)
        uses.append(
            _Use(
                tasks=tuple(run),
                start=done.start,
                end=schedule.tasks[run[-1]].release,
                amount=amount,
                groups=tuple(sorted({group for group in groups if group is not None})),
                shares={
                    place: taken
                    for (task, owner, place), taken in shares.items()
                    if task == name and owner == resource.id
                },
            )
        )
    return sorted(uses, key=lambda use: (use.start, use.tasks))


def _amount(problem: Problem, resource: Resource, name: str, done: Done) -> int:
    modes = {mode.id: mode for mode in problem.tasks[name].modes}
    return modes[done.mode].demands.get(resource.id, 0)


def _assign(
    problem: Problem,
    resource: Resource,
    schedule: Schedule,
    shares: Mapping[tuple[str, str, int], int],
    wanted: Mapping[str, str],
) -> tuple[dict[str, tuple[str, ...]], int, int]:
    uses = _uses(problem, resource, schedule, shares)
    uses += _occupied(problem, resource, schedule)
    if not uses:
        return {}, 0, 0
    model = cp_model.CpModel()
    takes = [
        {unit: model.new_bool_var(f"{unit} {use.tasks}") for unit in resource.units} for use in uses
    ]
    _give_amounts(model, resource, uses, takes)
    _one_at_a_time(model, resource, uses, takes)
    _respect_absences(model, resource, uses, takes)
    changes = _changes(model, resource, uses, takes)
    joints = _joints(model, resource, uses, takes)
    kept = [
        take[wanted[task]]
        for use, take in zip(uses, takes, strict=True)
        for task in use.tasks
        if wanted.get(task) in take
    ]
    # A hand-over outweighs all the gaps that could be closed, and a unit kept all hand-overs.
    handed = (len(uses) + 1) * sum(changes) - sum(joints)
    model.minimize(handed - (len(uses) + 1) * (len(changes) + 1) * sum(kept))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = _SEED
    solver.parameters.max_deterministic_time = _EFFORT
    status = solved(solver, model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        raise Withheld(f"units of {resource.id} cannot be given out")
    given = {
        task: tuple(unit for unit in resource.units if solver.boolean_value(take[unit]))
        for use, take in zip(uses, takes, strict=True)
        for task in use.tasks
    }
    count = sum(solver.boolean_value(change) for change in changes)
    return given, count, count if status == cp_model.OPTIMAL else 0


def _occupied(problem: Problem, resource: Resource, schedule: Schedule) -> list[_Use]:
    """Occupancies keep units too, though a schedule does not say which."""
    uses: list[_Use] = []
    if len(classes_of(resource)) > 1:
        return uses  # the model counts them against the whole, not against a class
    for occupancy in problem.occupancies:
        fillers = [schedule.tasks[name] for name in occupancy.fillers if name in schedule.tasks]
        held = all(schedule.choices[item.choice] in item.options for item in occupancy.when)
        if occupancy.resource == resource.id and fillers and held:
            start = min(filler.start for filler in fillers)
            end = schedule.tasks[occupancy.until].end
            uses.append(_Use((), start, end, occupancy.amount, (), {}))
    return uses


_Takes = list[dict[str, cp_model.IntVar]]


def _give_amounts(
    model: cp_model.CpModel, resource: Resource, uses: list[_Use], takes: _Takes
) -> None:
    """A use has as many units as it demands, of each class what was decided."""
    for use, take in zip(uses, takes, strict=True):
        model.add(sum(take.values()) == use.amount)
        for place, units in enumerate(classes_of(resource)):
            if place in use.shares:
                model.add(sum(take[unit] for unit in units.units) == use.shares[place])


def _one_at_a_time(
    model: cp_model.CpModel, resource: Resource, uses: list[_Use], takes: _Takes
) -> None:
    """A unit serves one use at a time."""
    for use in uses:
        present = [
            take
            for other, take in zip(uses, takes, strict=True)
            if other.start <= use.start < other.end
        ]
        for unit in resource.units:
            model.add_at_most_one(take[unit] for take in present)


def _respect_absences(
    model: cp_model.CpModel, resource: Resource, uses: list[_Use], takes: _Takes
) -> None:
    """A unit that is missing serves nothing."""
    for absence, units in zip(resource.absences, resource.absence_units, strict=True):
        for use, take in zip(uses, takes, strict=True):
            if max(use.start, absence.start) < min(use.end, absence.end):
                for unit in units:
                    model.add(take[unit] == 0)


def _together(
    model: cp_model.CpModel,
    first: dict[str, cp_model.IntVar],
    second: dict[str, cp_model.IntVar],
    name: str,
) -> cp_model.IntVar:
    """The literal that two uses have a unit in common."""
    shared = []
    for unit, take in first.items():
        both = model.new_bool_var(f"{name} {unit}")
        model.add_implication(both, take)
        model.add_implication(both, second[unit])
        shared.append(both)
    literal = model.new_bool_var(name)
    model.add_bool_or([~literal, *shared])
    return literal


def _changes(
    model: cp_model.CpModel, resource: Resource, uses: list[_Use], takes: _Takes
) -> list[cp_model.IntVar]:
    """Two uses of a group, one after the other, without a unit in common."""
    changes: list[cp_model.IntVar] = []
    groups = sorted({group for use in uses for group in use.groups})
    for group in groups:
        members = [place for place, use in enumerate(uses) if group in use.groups]
        for one, other in pairwise(members):
            if uses[one].end <= uses[other].start:
                kept = _together(model, takes[one], takes[other], f"{resource.id} {one} {other}")
                change = model.new_bool_var(f"change {resource.id} {one} {other}")
                model.add_bool_or([kept, change])
                changes.append(change)
    return changes


def _joints(
    model: cp_model.CpModel, resource: Resource, uses: list[_Use], takes: _Takes
) -> list[cp_model.IntVar]:
    """Uses that one unit serves back to back."""
    return [
        _together(model, takes[one], takes[other], f"joint {resource.id} {one} {other}")
        for one in range(len(uses))
        for other in range(len(uses))
        if one != other and uses[one].end == uses[other].start
    ]
