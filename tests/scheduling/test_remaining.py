"""What is left of a problem once part of it is done."""

from __future__ import annotations

import pytest

from batchcook.scheduling.begun import Begun
from batchcook.scheduling.check import check
from batchcook.scheduling.problem import (
    Absence,
    Budget,
    Choice,
    Condition,
    Family,
    Lag,
    Mode,
    Occupancy,
    Problem,
    Resource,
    Span,
    Task,
)
from batchcook.scheduling.remaining import NOW, margin, remaining
from batchcook.scheduling.schedule import Answer, Outcome
from batchcook.scheduling.solver import solve


def task(name: str, minutes: int, family: str | None = None, **demands: int) -> Task:
    return Task(name, (Mode("m", minutes, demands),), family=family)


def problem(*tasks: Task, **parts: object) -> Problem:
    resources = {"pot": Resource("pot", 1), "hand": Resource("hand", 1, units=("ann",))}
    return Problem(resources, {each.id: each for each in tasks}, 500, **parts)  # type: ignore[arg-type] # the parts are Problem's own fields


def solved(left: Problem) -> Outcome:
    outcome = solve(left, seconds=10, workers=2)
    if outcome.schedule is not None:
        assert check(left, outcome.schedule) == []
    return outcome


def starts(left: Problem) -> dict[str, int]:
    outcome = solved(left)
    assert outcome.schedule is not None
    return {name: done.start for name, done in outcome.schedule.tasks.items()}


def test_what_is_over_is_gone_and_what_waits_begins_now() -> None:
    whole = problem(task("a", 10), task("b", 5), lags=(Lag("a", "end", "b", "start"),))
    left = remaining(whole, {"a": Begun(-20, -2, True, "m")}, {}, 10)
    assert starts(left) == {NOW: 10, "b": 10}


def test_what_runs_keeps_what_it_holds_to_its_end() -> None:
    whole = problem(task("a", 30, hand=1), task("b", 5, hand=1))
    left = remaining(whole, {"a": Begun(0, 24, False, "m")}, {}, 10)
    assert starts(left)["b"] == 24


def test_a_minimal_lag_from_the_past_counts_what_has_passed() -> None:
    whole = problem(task("a", 5), task("b", 5), lags=(Lag("a", "end", "b", "start", 30),))
    left = remaining(whole, {"a": Begun(-5, 0, True, "m")}, {}, 10)
    assert starts(left)["b"] == 30


@pytest.mark.parametrize(("high", "answer"), [(9, Answer.IMPOSSIBLE), (10, Answer.PLAN)])
def test_a_maximal_lag_from_the_past_can_be_too_late(high: int, answer: Answer) -> None:
    whole = problem(task("a", 5), task("b", 5), lags=(Lag("a", "end", "b", "start", 0, high),))
    left = remaining(whole, {"a": Begun(-5, 0, True, "m")}, {}, 10)
    assert solved(left).answer is answer


def test_what_waits_since_before_now_is_not_to_wait_on() -> None:
    """Of two tasks as long, the one that food has waited for goes first."""
    whole = problem(
        task("a", 5),
        task("later", 20, hand=1),
        task("soon", 20, hand=1),
        lags=(Lag("a", "end", "soon", "start", None, None, weight=3),),
    )
    left = remaining(whole, {"a": Begun(-5, 0, True, "m")}, {}, 10)
    outcome = solved(left)
    assert outcome.schedule is not None
    assert outcome.schedule.tasks["soon"].start == 10
    # The minutes before now are nothing that anybody can still save.
    assert {level.name: level.value for level in outcome.levels}["waiting"] == 0
    other = remaining(
        whole, {"a": Begun(-5, 0, True, "m"), "later": Begun(5, 25, False, "m")}, {}, 10
    )
    assert {level.name: level.value for level in solved(other).levels}["waiting"] == 3 * 15


@pytest.mark.parametrize(("limit", "answer"), [(49, Answer.IMPOSSIBLE), (50, Answer.PLAN)])
def test_a_budget_keeps_the_minutes_already_spent(limit: int, answer: Answer) -> None:
    spans = (Span("a", "start", "b", "start"), Span("c", "start", "d", "end"))
    whole = problem(
        task("a", 5),
        task("b", 5),
        task("c", 5),
        task("d", 5, hand=1),
        lags=(Lag("c", "end", "d", "start"),),
        budgets=(Budget("out", spans, limit),),
    )
    past = {"a": Begun(-60, -55, True, "m"), "b": Begun(-20, -15, True, "m")}
    left = remaining(whole, past, {}, 10)
    assert solved(left).answer is answer


def test_an_open_occupancy_is_held_from_now_on() -> None:
    whole = problem(
        task("fill", 5),
        task("wash", 5),
        task("other", 5, pot=1),
        lags=(Lag("fill", "end", "wash", "start", 20),),
        occupancies=(Occupancy("kept", "pot", 1, ("fill",), "wash"),),
    )
    left = remaining(whole, {"fill": Begun(0, 5, True, "m")}, {}, 10)
    assert starts(left)["other"] == 30


def test_a_run_goes_on_without_a_new_set_up() -> None:
    whole = problem(
        task("a", 10, "chop", hand=1),
        task("b", 10, "chop", hand=1),
        families={"chop": Family("chop", 4, 2)},
    )
    now = margin(whole)
    left = remaining(whole, {"a": Begun(-10, now + 3, False, "m", clean=False)}, {}, now)
    outcome = solved(left)
    assert outcome.schedule is not None
    done = outcome.schedule.tasks["b"]
    assert (done.follows, done.start, done.end, done.release) == ("a", now + 3, now + 13, now + 15)


def test_what_waits_for_a_clean_down_waits_for_it_where_it_is_done_late() -> None:
    now = 10
    clean = Family("cut", 0, 4)
    whole = problem(
        task("a", 10, family="cut", hand=1),
        task("other", 30, hand=1),
        task("close", 5, pot=1),
        families={"cut": clean},
        lags=(Lag("a", "end", "close", "start", low=4),),
    )
    # Whoever cut has left; the other hand is busy, so the board is washed after that.
    state = Begun(-10, 0, True, "m", stays=False, clean=False)
    left = remaining(whole, {"a": state, "other": Begun(5, 35, False, "m")}, {}, now)
    outcome = solved(left)
    assert outcome.schedule is not None
    done = outcome.schedule.tasks
    assert done["a"].release >= 35 + 4
    assert done["close"].start >= done["a"].release


def test_what_was_not_cleaned_up_is_cleaned_up_now() -> None:
    whole = problem(
        task("a", 10, "chop", hand=1),
        task("b", 10, hand=1),
        families={"chop": Family("chop", 4, 2)},
    )
    now = margin(whole)
    left = remaining(whole, {"a": Begun(-10, 0, True, "m", clean=False)}, {}, now)
    assert starts(left)["b"] == now + 2


def test_a_choice_that_has_begun_stays_taken() -> None:
    pot, pan = (Condition("how", frozenset({each})) for each in ("pot", "pan"))
    whole = problem(
        Task("in pot", (Mode("m", 50),), when=(pot,)),
        Task("more pot", (Mode("m", 50),), when=(pot,)),
        Task("in pan", (Mode("m", 1),), when=(pan,)),
        choices={"how": Choice("how", ("pot", "pan"))},
    )
    left = remaining(whole, {"in pot": Begun(0, 5, True, "m")}, {"how": "pot"}, 10)
    assert set(starts(left)) == {NOW, "more pot"}


def test_times_away_that_are_over_bind_nothing() -> None:
    whole = problem(task("a", 5, hand=1))
    hand = Resource(
        "hand", 1, (Absence(0, 8, 1), Absence(5, 20, 1)), ("ann",), (("ann",), ("ann",))
    )
    left = remaining(
        Problem({"hand": hand, "pot": Resource("pot", 1)}, whole.tasks, 500), {}, {}, 10
    )
    assert left.resources["hand"].absences == (Absence(10, 20, 1),)
    assert starts(left)["a"] == 20


def test_an_oven_does_not_warm_up_in_the_past() -> None:
    oven = Resource("oven", 2, warm_up=8, keeps=4)
    bake = Task("bake", (Mode("oven", 10, {"oven": 1}),), settings=(350,))
    whole = Problem({"oven": oven}, {"bake": bake}, 500)
    cold = remaining(whole, {}, {}, 10)
    assert starts(cold)["bake"] == 18
    warming = remaining(whole, {}, {}, 10, warming={"oven": 3})
    assert starts(warming)["bake"] == 13


def test_what_bakes_keeps_the_oven_at_its_setting() -> None:
    oven = Resource("oven", 2, warm_up=8, keeps=4)
    tasks = {
        name: Task(name, (Mode("oven", 20, {"oven": 1}),), settings=(350,)) for name in ("a", "b")
    }
    whole = Problem({"oven": oven}, tasks, 500)
    left = remaining(whole, {"a": Begun(5, 25, False, "oven", setting=350)}, {}, 10)
    assert starts(left)["b"] == 10


@pytest.mark.parametrize(("ended", "start"), [(30, 30), (26, 30), (25, 38)])
def test_an_oven_is_hot_for_as_long_as_it_keeps_what_it_was_set_to(ended: int, start: int) -> None:
    oven = Resource("oven", 2, warm_up=8, keeps=4)
    tasks = {
        name: Task(name, (Mode("oven", 10, {"oven": 1}),), settings=(350,)) for name in ("a", "b")
    }
    whole = Problem({"oven": oven}, tasks, 500)
    assert margin(whole) <= 30
    left = remaining(whole, {"a": Begun(ended - 10, ended, True, "oven", setting=350)}, {}, 30)
    assert starts(left)["b"] == start


def test_an_oven_that_is_hot_for_another_setting_is_heated_from_now_on() -> None:
    oven = Resource("oven", 2, warm_up=8, keeps=4)
    tasks = {
        name: Task(name, (Mode("oven", 10, {"oven": 1}),), settings=(degrees,))
        for name, degrees in (("a", 350), ("b", 425))
    }
    whole = Problem({"oven": oven}, tasks, 500)
    begun = {"a": Begun(17, 27, True, "oven", setting=350)}
    assert starts(remaining(whole, begun, {}, 30))["b"] == 38
    # Turned to the other setting already, it is hot as soon as what that takes yet is over.
    assert starts(remaining(whole, begun, {}, 30, warming={"oven": 5}))["b"] == 35
