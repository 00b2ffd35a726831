"""What makes solving fast against the bare rules, which are checked by trying everything.

The problems are larger than those: what is implied, merged, tied or left over shows only there.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from ortools.sat.python import cp_model
from workshop_problems import workshop_problem

from batchcook.scheduling.begun import Begun
from batchcook.scheduling.check import check
from batchcook.scheduling.constraints import constrain
from batchcook.scheduling.energy import shortest_day
from batchcook.scheduling.extraction import extract, shares_taken
from batchcook.scheduling.merging import Way, merge
from batchcook.scheduling.network import network
from batchcook.scheduling.objective import levels
from batchcook.scheduling.problem import Family, Lag, Mode, Problem, Resource, Task
from batchcook.scheduling.refuting import refuted
from batchcook.scheduling.remaining import margin, remaining
from batchcook.scheduling.retiming import retime
from batchcook.scheduling.schedule import Done, Schedule
from batchcook.scheduling.scheduleflow import network_of
from batchcook.scheduling.shifting import moved
from batchcook.scheduling.strengthen import strengthen
from batchcook.scheduling.tied import anchored, tied, tightened
from batchcook.scheduling.units import assign_units
from batchcook.scheduling.variables import declare

SEEDS = range(60)


def _best(problem: Problem, depth: int = 3, *, strong: bool = False) -> tuple[int, ...] | None:
    found = _solved(problem, depth, strong=strong)
    return None if found is None else found[0]


def _solved(
    problem: Problem, depth: int = 3, *, strong: bool = False
) -> tuple[tuple[int, ...], Schedule] | None:
    """The least values, one level after the other, and a schedule; None where there is none."""
    model = cp_model.CpModel()
    variables = declare(model, problem)
    constrain(model, problem, variables)
    if strong:
        strengthen(model, problem, variables)
    values = []
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    for _, expression in levels(model, problem, variables)[:depth]:
        if expression is None:
            values.append(0)
            continue
        model.minimize(expression)
        status = solver.solve(model)
        if status == cp_model.INFEASIBLE:
            return None
        assert status == cp_model.OPTIMAL
        values.append(round(solver.objective_value))
        model.add(expression == values[-1])
    schedule = extract(solver, problem, variables)
    schedule, _ = assign_units(problem, schedule, shares_taken(solver, variables))
    return tuple(values), schedule


@cache
def _possible() -> list[tuple[int, Problem, tuple[int, ...], Schedule]]:
    """The problems that have a schedule, each with the best one."""
    found = []
    for seed in SEEDS:
        problem = workshop_problem(seed)
        solved = _solved(problem)
        if solved is not None:
            assert check(problem, solved[1]) == []
            found.append((seed, problem, *solved))
    assert len(SEEDS) / 4 < len(found) < len(SEEDS)
    return found


def test_what_is_implied_takes_nothing_away() -> None:
    possible = {seed: values for seed, _, values, _ in _possible()}
    for seed in SEEDS:
        assert _best(workshop_problem(seed), strong=True) == possible.get(seed), seed
    for seed, problem, values, _ in _possible():
        assert shortest_day(problem, network(problem)) <= values[0], seed
        assert _best(tightened(problem)) == values, seed


def test_a_clean_down_while_what_was_cut_simmers_makes_no_day_longer() -> None:
    tasks = {
        f"{dish}/{step}": Task(f"{dish}/{step}", (mode,), family="cut" if step == "cut" else None)
        for dish in range(2)
        for step, mode in (("cut", Mode("m", 4, {"cook": 1})), ("simmer", Mode("m", 60)))
    }
    problem = Problem(
        {"cook": Resource("cook", 1)},
        tasks,
        200,
        tuple(Lag(f"{dish}/cut", "end", f"{dish}/simmer", "start") for dish in range(2)),
        families={"cut": Family("cut", 2, 3)},
        hands=("cook",),
    )
    best = (2 + 4 + 4 + 60, 2 + 4 + 4 + 3, 0)
    assert _best(problem) == _best(problem, strong=True) == best


def test_nothing_possible_is_refuted_and_no_tied_part_of_it_is_impossible() -> None:
    parts = 0
    for seed, problem, _, _ in _possible():
        assert refuted(problem, seconds=30) is None, seed
        whole = tightened(problem)
        for group in tied(whole, network(whole)):
            parts += 1
            assert _best(anchored(whole, group), 1) is not None, seed
    assert parts > len(_possible()) / 4


def test_a_schedule_of_whole_runs_is_one_of_the_whole_however_they_are_merged() -> None:
    merged = 0
    for seed, problem, values, _ in _possible():
        families = frozenset(problem.families)
        for way in (Way(), Way(across=families), Way(divided=families)):
            smaller = merge(problem, way)
            found = _solved(smaller.problem, 1)
            if found is None:
                continue
            merged += bool(smaller.parts)
            whole = smaller.expand(found[1])
            wrong = [each for each in check(problem, whole) if each.rule != "units"]
            assert wrong == [], seed
            assert found[0][0] >= values[0], seed
    assert merged > len(_possible()) / 2


def _from(problem: Problem, minutes: int) -> Problem:
    """The same problem with so many minutes before its day begins."""
    tasks = {
        name: replace(
            task,
            earliest=(task.earliest or 0) + minutes,
            latest=None if task.latest is None else task.latest + minutes,
        )
        for name, task in problem.tasks.items()
    }
    resources = {
        name: replace(
            each,
            absences=tuple(
                replace(away, start=away.start + minutes, end=away.end + minutes)
                for away in each.absences
            ),
        )
        for name, each in problem.resources.items()
    }
    return replace(problem, tasks=tasks, resources=resources, horizon=problem.horizon + minutes)


def _begun(problem: Problem, schedule: Schedule, now: int) -> dict[str, Begun]:
    """What of a schedule has begun by a minute."""

    def state(name: str, done: Done) -> Begun:
        later = [each.start for each in schedule.tasks.values() if each.follows == name]
        clean = later[0] < now if later else done.release <= now != done.end
        cleaning = not later and done.end < now < done.release
        return Begun(
            done.start,
            done.end,
            over=done.end <= now,
            mode=done.mode,
            clean=problem.tasks[name].family is None or clean or cleaning,
            cleaned_by=done.release if cleaning else None,
            setting=done.setting,
            follows=done.follows,
            units=done.units,
        )

    return {name: state(name, done) for name, done in schedule.tasks.items() if done.start < now}


def test_the_rest_of_a_schedule_can_be_done_from_any_minute_and_no_later() -> None:
    rests = 0
    for seed, problem, _, schedule in _possible():
        if problem.free_origin:
            continue
        early = margin(problem)
        whole, day = _from(problem, early), moved(schedule, early)
        last = max((done.release for done in day.tasks.values()), default=early)
        for now in range(early, last + 1, 3):
            begun = _begun(whole, day, now)
            warming = {
                each.resource: each.end - now
                for each in day.warm_ups
                if each.start < now <= each.end and each.task not in begun
            }
            left = remaining(whole, begun, day.choices, now, warming=warming)
            found = _best(left, 1)
            assert found is not None, (seed, now)
            assert found[0] <= max(last, now), (seed, now)
            rests += 1
    assert rests > len(SEEDS)


def test_a_day_on_which_all_goes_as_scheduled_is_no_later_over_the_network() -> None:
    for seed, problem, _, schedule in _possible():
        times = retime(network_of(problem, schedule), {})
        late = [name for name, done in schedule.tasks.items() if times[name][0] > done.start]
        assert problem.free_origin or late == [], seed
