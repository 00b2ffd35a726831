"""What is refuted without a search of the whole is impossible; what is possible never is."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import HealthCheck, assume, given, settings
from oracle import best_values
from small_problems import small_problems

from batchcook.scheduling.conflict import explain
from batchcook.scheduling.network import network
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
from batchcook.scheduling.refuting import impossible_part, refuted, too_tight
from batchcook.scheduling.schedule import Answer
from batchcook.scheduling.solver import satisfy
from batchcook.scheduling.tied import anchored, tied, tightened

SLOW = settings(
    max_examples=60,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)


def _loads(count: int) -> Problem:
    """Meat is cut, browned in loads in one skillet, and has 40 minutes from its first cut."""
    loads = [f"load {number}" for number in range(count)]
    tasks = {"cut": Task("cut", (Mode("m", 10, {"cook": 1}),))}
    tasks |= {
        name: Task(name, (Mode("m", 8, {"cook": 1, "skillet": 1}),), family="brown")
        for name in loads
    }
    tasks["soup"] = Task("soup", (Mode("m", 60, {"cook": 1}),))
    return Problem(
        {"cook": Resource("cook", 2), "skillet": Resource("skillet", 1)},
        tasks,
        2000,
        tuple(Lag("cut", "end", name, "start") for name in loads),
        tuple(
            Budget(f"out {name}", (Span("cut", "start", name, "start"),), 40, "out of the cold")
            for name in loads
        ),
        families={"brown": Family("brown", 4, 3)},
    )


def test_loads_that_no_skillet_takes_in_time_are_found_without_the_rest_of_the_day() -> None:
    assert impossible_part(_loads(3), seconds=20) is None
    part = impossible_part(_loads(5), seconds=20)
    assert part is not None
    assert set(part) == {"cut", *(f"load {number}" for number in range(5))}


def test_the_conflict_of_a_part_names_its_own_limits_by_reason() -> None:
    conflict = explain(_loads(5), seconds=20)
    assert conflict.proved
    assert conflict.minimal
    assert {each.kind for each in conflict.references} == {"budget", "capacity"}
    assert {each.id for each in conflict.references if each.kind == "capacity"} == {"skillet"}
    assert conflict.tasks is not None
    assert "soup" not in conflict.tasks


def test_what_a_budget_spends_elsewhere_ties_the_rest_of_its_spans() -> None:
    tasks = {name: Task(name, (Mode("m", 10),)) for name in ("cut", "sear", "cool", "pack")}
    spans = (Span("cut", "start", "sear", "start"), Span("cool", "start", "pack", "end"))
    lags = (Lag("cut", "end", "sear", "start", 5), Lag("cool", "end", "pack", "start", 30))
    problem = Problem({}, tasks, 500, lags, (Budget("out", spans, 65, "out of the cold"),))
    assert network(tightened(problem)).consistent
    short = replace(problem, budgets=(Budget("out", spans, 64, "out of the cold"),))
    assert not network(tightened(short)).consistent
    assert too_tight(short)


@SLOW
@given(small_problems())
def test_what_is_refuted_has_no_schedule(problem: Problem) -> None:
    assume(refuted(problem, seconds=10) is not None)
    assert best_values(problem) is None


@SLOW
@given(small_problems())
def test_the_tied_parts_of_a_possible_problem_are_possible(problem: Problem) -> None:
    assume(best_values(problem) is not None)
    whole = tightened(problem)
    assert not too_tight(problem)
    for group in tied(whole, network(whole)):
        part = anchored(whole, group)
        assert satisfy(part, seconds=20).answer is Answer.PLAN


def test_what_need_not_be_done_spends_nothing_of_a_budget() -> None:
    x = (Condition("c", frozenset({"x"})),)
    tasks = {name: Task(name, (Mode("m", 5),)) for name in ("cut", "sear")}
    tasks |= {name: Task(name, (Mode("m", 5),), when=x) for name in ("cool", "pack")}
    spans = (Span("cut", "start", "sear", "start"), Span("cool", "start", "pack", "start"))
    lags = (Lag("cut", "start", "sear", "start", 20), Lag("cool", "start", "pack", "start", 30))
    either = Problem(
        {},
        tasks,
        500,
        lags,
        (Budget("out", spans, 35),),
        choices={"c": Choice("c", ("x", "y"))},
    )
    assert refuted(either, seconds=10) is None
    assert satisfy(either, seconds=10).answer is Answer.PLAN
    both = replace(either, choices={"c": Choice("c", ("x",))})
    assert satisfy(both, seconds=10).answer is Answer.IMPOSSIBLE


def test_a_part_alone_may_have_its_set_up_or_have_continued_another() -> None:
    """What follows 14 minutes after the start and at the end of 4 leaves 10 for the set-up."""
    cut = (Mode("m", 4, {"cook": 1}),)
    tasks = {name: Task(name, cut, family="cut") for name in ("one", "other")}
    tasks["sear"] = Task("sear", (Mode("m", 5, {"cook": 1}),))
    lags = (Lag("one", "end", "sear", "start", 0, 0), Lag("one", "start", "sear", "start", 14, 14))
    problem = Problem(
        {"cook": Resource("cook", 2)}, tasks, 200, lags, families={"cut": Family("cut", 10, 3)}
    )
    assert satisfy(problem, seconds=10).answer is Answer.PLAN
    assert impossible_part(problem, seconds=10) is None
    at_once = (lags[0], replace(lags[1], low=4, high=4))
    assert impossible_part(replace(problem, lags=at_once), seconds=10) is None


def test_tasks_that_need_not_be_done_may_contradict_each_other() -> None:
    """One load at a time food is out too long; in two skillets at once it is not."""
    choices = {"c": Choice("c", ("x", "y"))}
    x = (Condition("c", frozenset({"x"})),)
    tasks = {name: Task(name, (Mode("m", 5),), when=x) for name in ("one", "other")}
    tasks["sure"] = Task("sure", (Mode("m", 10),))
    spans = (Span("one", "start", "other", "end"), Span("other", "start", "one", "end"))
    lags = (Lag("one", "end", "other", "start", 0, 0), Lag("other", "end", "sure", "start"))
    problem = Problem({}, tasks, 100, lags, (Budget("b", spans, 3),), choices=choices)
    bounds = network(tightened(problem))
    assert bounds.consistent
    assert bounds.heads["sure"] == 0
    assert refuted(problem, seconds=10) is None
    assert satisfy(problem, seconds=10).answer is Answer.PLAN
    done = replace(problem, tasks={**tasks, "one": replace(tasks["one"], when=())})
    done = replace(done, tasks={**done.tasks, "other": replace(tasks["other"], when=())})
    assert not network(tightened(done)).consistent
