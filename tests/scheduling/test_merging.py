"""Families done in whole runs make a smaller problem whose schedules serve the whole one."""

from __future__ import annotations

from dataclasses import replace

from batchcook.scheduling.check import check
from batchcook.scheduling.listing import makespan
from batchcook.scheduling.merging import Way, divisible_families, hurried_families, merge
from batchcook.scheduling.problem import (
    Budget,
    Choice,
    Condition,
    Family,
    Lag,
    Mode,
    Problem,
    Resource,
    Span,
    Task,
)
from batchcook.scheduling.solver import satisfy
from batchcook.scheduling.wholeruns import WholeRuns


def _cutting(tails: tuple[int, ...]) -> Problem:
    """One cook cuts for each of several dishes, which then simmer, and has more to do besides."""
    besides = {"besides": Task("besides", (Mode("cook", 60, {"cook": 1}),))}
    cut = {
        f"{dish}/cut": Task(
            f"{dish}/cut", (Mode("cook", 4, {"cook": 1}),), family="cut", group=str(dish)
        )
        for dish in range(len(tails))
    }
    simmer = {
        f"{dish}/simmer": Task(f"{dish}/simmer", (Mode("pot", tail),), group=str(dish))
        for dish, tail in enumerate(tails)
    }
    return Problem(
        resources={"cook": Resource("cook", 1)},
        tasks={**cut, **simmer, **besides},
        horizon=500,
        lags=tuple(
            Lag(f"{dish}/cut", "end", f"{dish}/simmer", "start", 0) for dish in range(len(tails))
        ),
        families={"cut": Family("cut", 2, 3)},
        hands=("cook",),
    )


def test_the_parts_of_a_family_become_one_task_as_long_as_their_run() -> None:
    merged = merge(_cutting((10, 10, 10)))
    (run,) = {part.block for part in merged.parts.values()}
    assert merged.problem.tasks[run].modes[0].duration == 2 + 3 * 4 + 3
    assert not merged.problem.families


def test_the_most_urgent_part_is_the_first_of_its_run() -> None:
    merged = merge(_cutting((10, 12, 11)))
    assert [merged.parts[f"{dish}/cut"].work for dish in range(3)] == [10, 2, 6]


def test_a_schedule_of_the_runs_is_a_sound_schedule_of_the_parts() -> None:
    problem = _cutting((10, 12, 11))
    merged = merge(problem)
    found = satisfy(merged.problem, seconds=5)
    assert found.schedule is not None
    whole = merged.expand(found.schedule)
    assert whole.tasks.keys() == problem.tasks.keys()
    assert check(problem, whole) == []


def test_a_run_is_divided_where_it_would_make_the_day_longer() -> None:
    assert len({part.block for part in merge(_cutting((100, 99, 10))).parts.values()}) > 1
    assert len({part.block for part in merge(_cutting((10, 9, 8))).parts.values()}) == 1


def test_parts_that_something_must_follow_soon_are_merged_within_their_group_only() -> None:
    problem = _cutting((10, 10))
    out = Budget("out", (Span("0/cut", "start", "0/simmer", "start"),), 30)
    merged = merge(replace(problem, budgets=(out,)))
    assert merged.parts["0/cut"].block != merged.parts["1/cut"].block


def _hurried(tails: tuple[int, ...]) -> Problem:
    """The same, where each dish's cut food must be on the heat within half an hour."""
    problem = _cutting(tails)
    soon = tuple(
        Budget(f"out {dish}", (Span(f"{dish}/cut", "start", f"{dish}/simmer", "start"),), 30)
        for dish in range(len(tails))
    )
    return replace(problem, budgets=soon)


def test_hurried_parts_are_merged_across_groups_where_that_is_asked_for() -> None:
    problem = _hurried((10, 10))
    assert hurried_families(problem) == ["cut"]
    assert hurried_families(_cutting((10, 10))) == []
    across = merge(problem, Way(across=frozenset({"cut"})))
    (block,) = {part.block for part in across.parts.values()}
    assert across.problem.tasks[block].modes[0].duration == 2 + 4 + 4 + 3


def test_a_way_in_which_the_parts_last_otherwise_is_left_out_though_their_sum_is_the_same() -> None:
    problem = _cutting((10, 10))
    ways = {"0/cut": (4, 6), "1/cut": (6, 4)}
    tasks = {
        name: replace(
            problem.tasks[name],
            modes=(Mode("cook", first, {"cook": 1}), Mode("child", second, {"child": 1})),
        )
        for name, (first, second) in ways.items()
    }
    two = {**problem.resources, "child": Resource("child", 1)}
    several = replace(problem, tasks={**problem.tasks, **tasks}, resources=two)
    merged = merge(several)
    (block,) = {part.block for part in merged.parts.values()}
    assert [mode.id for mode in merged.problem.tasks[block].modes] == ["cook"]
    found = satisfy(merged.problem, seconds=5).schedule
    assert found is not None
    assert check(several, merged.expand(found)) == []


def test_a_schedule_put_into_runs_and_out_again_is_the_same() -> None:
    problem = _cutting((10, 12, 11))
    merged = merge(problem)
    found = satisfy(merged.problem, seconds=5).schedule
    assert found is not None
    again = merged.compress(merged.expand(found))
    assert {name: done.start for name, done in again.tasks.items()} == {
        name: done.start for name, done in found.tasks.items()
    }


def test_the_way_of_merging_that_gives_the_shortest_day_is_found() -> None:
    """Two dishes with one set-up between them save five minutes of the one cook."""
    problem = _hurried((10, 10))
    found = WholeRuns(problem, workers=2, seconds=5, floor=0).begin()
    assert found is not None
    assert check(problem, found) == []
    # The one cook is never idle: the cutting with one set-up and one clean-down, and the rest.
    assert makespan(problem, found) == 2 + 4 + 4 + 3 + 60


def test_the_option_of_least_work_decides_which_parts_there_are() -> None:
    problem = _cutting((10, 10))
    tasks = dict(problem.tasks)
    tasks["0/cut"] = replace(tasks["0/cut"], when=(Condition("how", frozenset({"by hand"})),))
    tasks["0/grate"] = Task(
        "0/grate",
        (Mode("cook", 1, {"cook": 1}),),
        when=(Condition("how", frozenset({"grated"})),),
        family="cut",
    )
    choices = {"how": Choice("how", ("by hand", "grated"))}
    merged = merge(replace(problem, tasks=tasks, choices=choices))
    assert merged.settled == {"how": "grated"}
    assert merged.parts.keys() == {"0/grate", "1/cut"}
    assert not merged.problem.choices


def test_a_budget_over_a_run_counts_from_the_part_it_names() -> None:
    problem = _cutting((10, 10))
    tight = Budget("out", (Span("1/cut", "end", "1/simmer", "end"),), 9)
    merged = merge(replace(problem, budgets=(tight,)))
    assert satisfy(merged.problem, seconds=5).schedule is None
    loose = merge(replace(problem, budgets=(replace(tight, limit=10),)))
    assert satisfy(loose.problem, seconds=5).schedule is not None


def test_a_run_whose_last_part_would_come_too_late_is_divided() -> None:
    """Four loads of 7 minutes; the pot waits for all, and 20 minutes at most for the first."""
    load = (Mode("skillet", 7, {"cook": 1}),)
    loads = {str(number): Task(str(number), load, family="brown", group="a") for number in range(4)}
    problem = Problem(
        resources={"cook": Resource("cook", 2)},
        tasks={**loads, "fill": Task("fill", (Mode("cook", 5, {"cook": 1}),), group="a")},
        horizon=200,
        lags=tuple(Lag(name, "end", "fill", "start", 0, 20) for name in loads),
        families={"brown": Family("brown", 0, 0)},
        hands=("cook",),
    )
    merged = merge(problem)
    assert len({part.block for part in merged.parts.values()}) > 1
    assert satisfy(merged.problem, seconds=5).schedule is not None


def test_a_run_may_be_divided_once_more() -> None:
    problem = _cutting((10, 9, 8))
    whole, divided = merge(problem), merge(problem, Way(divided=frozenset({"cut"})))
    assert len({part.block for part in whole.parts.values()}) == 1
    assert len({part.block for part in divided.parts.values()}) == 2


def test_families_of_several_groups_are_divided() -> None:
    problem = _cutting((10, 9, 8))
    lone = Task("grate", (Mode("m", 3),), family="grate")
    more = replace(
        problem,
        tasks={**problem.tasks, "grate": lone},
        families={**problem.families, "grate": Family("grate", 1, 1)},
    )
    assert divisible_families(more) == ["cut"]
