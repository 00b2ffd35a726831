"""Longest paths and the bounds that rest on them."""

from __future__ import annotations

from batchcook.scheduling.energy import shortest_day
from batchcook.scheduling.network import network
from batchcook.scheduling.problem import (
    Absence,
    Choice,
    Condition,
    Lag,
    Mode,
    Problem,
    Resource,
    Span,
    Task,
)


def _chain() -> Problem:
    tasks = {name: Task(name, (Mode("m", 10, {"cook": 1}),)) for name in ("a", "b", "c")}
    lags = (Lag("a", "end", "b", "start", 5), Lag("b", "end", "c", "start"))
    return Problem({"cook": Resource("cook", 1)}, tasks, 100, lags)


def test_heads_and_tails_are_longest_paths() -> None:
    bounds = network(_chain())
    assert (bounds.heads["a"], bounds.heads["b"], bounds.heads["c"]) == (0, 15, 25)
    assert (bounds.tails["a"], bounds.tails["b"], bounds.tails["c"]) == (25, 10, 0)
    assert bounds.length == 35
    assert bounds.apart(Span("a", "start", "b", "end")) == 25


def test_a_path_through_a_task_that_may_be_absent_bounds_nothing() -> None:
    problem = _chain()
    maybe = (Condition("c", frozenset({"y"})),)
    tasks = {**problem.tasks, "b": Task("b", (Mode("m", 10, {"cook": 1}),), when=maybe)}
    choices = {"c": Choice("c", ("y", "n"))}
    changed = Problem(problem.resources, tasks, 100, problem.lags, choices=choices)
    assert network(changed).length == 10


def test_lags_that_contradict_each_other_are_found_without_search() -> None:
    tasks = {name: Task(name, (Mode("m", 10),)) for name in ("a", "b")}
    lags = (Lag("a", "end", "b", "start", 20), Lag("a", "start", "b", "start", None, 15))
    assert not network(Problem({}, tasks, 100, lags)).consistent


def test_the_work_and_the_absences_of_a_resource_bound_the_day() -> None:
    tasks = {str(name): Task(str(name), (Mode("m", 10, {"cook": 1}),)) for name in range(5)}
    cook = Resource("cook", 1, (Absence(20, 35, 1),))
    problem = Problem({"cook": cook}, tasks, 200)
    assert shortest_day(problem, network(problem)) == 65
