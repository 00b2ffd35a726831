"""The solver: its three answers, its levels, and that it repeats."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

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
from batchcook.scheduling.reading import read_job_shop
from batchcook.scheduling.schedule import Answer, InUse, Schedule
from batchcook.scheduling.solver import solve

_LAWRENCE = Path(__file__).parents[1] / "published" / "instances" / "la01.txt"


def _parts(count: int, minutes: int, *, cooks: int = 1) -> Problem:
    """Parts of one family for equal cooks."""
    names = tuple(f"cook {number}" for number in range(cooks))
    tasks = {
        f"part {number}": Task(
            f"part {number}", (Mode("m", minutes, {"cooks": 1}),), family="dice", group="g"
        )
        for number in range(count)
    }
    return Problem(
        resources={"cooks": Resource("cooks", cooks, units=names)},
        tasks=tasks,
        horizon=200,
        families={"dice": Family("dice", 3, 4)},
        hands=("cooks",),
    )


def _planned(problem: Problem) -> Schedule:
    outcome = solve(problem, seconds=30, workers=2)
    assert outcome.answer is Answer.PLAN
    assert all(level.proved for level in outcome.levels)
    assert outcome.schedule is not None
    assert check(problem, outcome.schedule) == []
    return outcome.schedule


def test_parts_of_a_family_by_one_cook_share_one_set_up_and_one_clean_down() -> None:
    outcome = solve(_parts(4, 5), seconds=30, workers=2)
    assert [level.value for level in outcome.levels] == [27, 27, 0, 0]


def test_a_run_is_split_over_two_cooks_where_that_shortens_the_day() -> None:
    outcome = solve(_parts(4, 5, cooks=2), seconds=30, workers=2)
    assert [level.value for level in outcome.levels[:2]] == [17, 34]


def test_a_run_is_kept_whole_where_splitting_it_wins_nothing() -> None:
    problem = _parts(2, 5, cooks=2)
    long = Task("simmer", (Mode("m", 60),))
    problem = Problem(
        resources=problem.resources,
        tasks={**problem.tasks, "simmer": long},
        horizon=200,
        families=problem.families,
        hands=problem.hands,
    )
    schedule = _planned(problem)
    followed = [done.follows for done in schedule.tasks.values() if done.follows is not None]
    assert len(followed) == 1


def test_a_lag_that_no_schedule_can_keep_is_impossible() -> None:
    tasks = {name: Task(name, (Mode("m", 5, {"r": 1}),)) for name in ("a", "b")}
    lags = (Lag("a", "start", "b", "start", None, 4), Lag("b", "start", "a", "start", None, 4))
    problem = Problem({"r": Resource("r", 1)}, tasks, 60, lags)
    assert solve(problem, seconds=20).answer is Answer.IMPOSSIBLE


def test_no_answer_in_the_time_given_is_unknown() -> None:
    problem = read_job_shop(_LAWRENCE.read_text())
    assert solve(problem, seconds=0, workers=1).answer is Answer.UNKNOWN


def test_one_choice_guards_modes_tasks_and_lags_together() -> None:
    choice = Choice("vessel", ("large", "small"))
    large = (Condition("vessel", frozenset({"large"})),)
    small = (Condition("vessel", frozenset({"small"})),)
    cook = Task("cook", (Mode("one", 30, when=large), Mode("two", 20, when=small)))
    tasks = {
        "cook": cook,
        "second load": Task("second load", (Mode("m", 20),), when=small),
        "wash": Task("wash", (Mode("m", 5),)),
    }
    lags = (
        Lag("cook", "end", "second load", "start"),
        Lag("cook", "end", "wash", "start"),
        Lag("second load", "end", "wash", "start"),
    )
    problem = Problem({}, tasks, 100, lags, choices={"vessel": choice})
    schedule = _planned(problem)
    assert schedule.choices == {"vessel": "large"}
    assert set(schedule.tasks) == {"cook", "wash"}


def test_a_vessel_is_kept_from_the_first_of_its_fillers_until_it_is_washed() -> None:
    tasks = {
        name: Task(name, (Mode("m", minutes),))
        for name, minutes in {"fill a": 5, "wash a": 5, "fill b": 5, "wash b": 5}.items()
    }
    lags = (
        Lag("fill a", "end", "wash a", "start", 20),
        Lag("fill b", "end", "wash b", "start", 20),
    )
    kept = (
        Occupancy("a", "pot", 1, ("fill a",), "wash a"),
        Occupancy("b", "pot", 1, ("fill b",), "wash b"),
    )
    problem = Problem({"pot": Resource("pot", 1)}, tasks, 100, lags, occupancies=kept)
    assert solve(problem, seconds=20).levels[0].value == 60


def test_what_is_warm_in_one_oven_warms_nothing_in_another() -> None:
    # The second oven has a task at 300 and one at 400: 10 to warm, 10, 10 to warm, 20. Nothing that
    # is at 400 in the first oven, though it could be in the second, spares that.
    either = tuple(Mode(name, 20, {name: 1}) for name in ("oven 1", "oven 2"))
    bakes = {
        "cool": Task("cool", (Mode("oven 2", 10, {"oven 2": 1}),), settings=(300,)),
        "hot": Task("hot", (Mode("oven 2", 20, {"oven 2": 1}),), settings=(400,)),
        "hot too": Task("hot too", either, settings=(400,)),
    }
    ovens = {name: Resource(name, 1, warm_up=10, keeps=5) for name in ("oven 1", "oven 2")}
    schedule = _planned(Problem(ovens, bakes, 100))
    assert max(done.end for done in schedule.tasks.values()) == 50


def test_tasks_share_a_setting_where_one_suits_both_though_tolerance_is_not_transitive() -> None:
    bakes = {
        "low": Task("low", (Mode("m", 30, {"oven": 1}),), settings=(350,)),
        "middle": Task("middle", (Mode("m", 30, {"oven": 1}),), settings=(350, 400)),
        "high": Task("high", (Mode("m", 30, {"oven": 1}),), settings=(400,)),
    }
    problem = Problem({"oven": Resource("oven", 3, warm_up=10, keeps=5)}, bakes, 200)
    schedule = _planned(problem)
    assert max(done.release for done in schedule.tasks.values()) == 80
    assert schedule.tasks["low"].setting != schedule.tasks["high"].setting
    assert len(schedule.warm_ups) == 2


def test_a_free_origin_minimises_the_length_and_not_the_end() -> None:
    late = Task("late", (Mode("m", 10),), earliest=50)
    first = Task("first", (Mode("m", 10),))
    lags = (Lag("first", "end", "late", "start"),)
    problem = Problem({}, {"first": first, "late": late}, 100, lags, free_origin=True)
    schedule = _planned(problem)
    assert schedule.tasks["late"].end - schedule.tasks["first"].start == 20


def test_a_day_whose_origin_is_free_begins_with_what_warms_up_for_its_first_task() -> None:
    bake = Task("bake", (Mode("m", 10, {"oven": 1}),), settings=(350,))
    problem = Problem({"oven": Resource("oven", 1, warm_up=12)}, {"bake": bake}, 100)
    for free in (False, True):
        outcome = solve(replace(problem, free_origin=free), seconds=10, workers=2)
        assert (outcome.levels[0].value, outcome.levels[0].bound) == (22, 22)


def test_a_setting_is_not_kept_a_minute_longer_than_it_is() -> None:
    bakes = {
        name: Task(name, (Mode("m", 5, {"oven": 1}),), settings=(350,)) for name in ("one", "two")
    }
    kept = Problem({"oven": Resource("oven", 1, warm_up=10, keeps=3)}, bakes, 100)
    for gap, length in ((3, 23), (4, 30)):
        lags = (Lag("one", "end", "two", "start", gap, None),)
        schedule = _planned(replace(kept, lags=lags))
        assert max(done.release for done in schedule.tasks.values()) == length


@pytest.mark.parametrize(("limit", "answer"), [(5, Answer.IMPOSSIBLE), (6, Answer.PLAN)])
def test_a_budget_is_kept_to_the_minute(limit: int, answer: Answer) -> None:
    tasks = {name: Task(name, (Mode("m", 3, {"cook": 1}),)) for name in ("out", "mix", "heat")}
    spans = (Span("out", "start", "heat", "start"),)
    problem = Problem(
        {"cook": Resource("cook", 1)},
        tasks,
        60,
        (Lag("out", "end", "mix", "start"), Lag("mix", "end", "heat", "start")),
        budgets=(Budget("raw", spans, limit),),
    )
    assert solve(problem, seconds=10, workers=2).answer is answer


def test_a_clean_down_may_lie_beside_what_its_part_is_waited_for() -> None:
    # The clean-down is no work between the head and the tail of its part: it comes after it.
    tasks = {
        "cut": Task("cut", (Mode("m", 5, {"cook": 1}),), family="cut"),
        "stir": Task("stir", (Mode("m", 5, {"cook": 1}),)),
        "rest": Task("rest", (Mode("m", 20),)),
        "stand": Task("stand", (Mode("m", 20),)),
    }
    problem = Problem(
        {"cook": Resource("cook", 1)},
        tasks,
        100,
        (Lag("cut", "end", "rest", "start"), Lag("stir", "end", "stand", "start")),
        families={"cut": Family("cut", 0, 10)},
    )
    day = solve(problem, seconds=10, workers=2).levels[0]
    assert (day.value, day.bound) == (30, 30)


def test_work_that_need_not_be_done_makes_no_day_longer() -> None:
    asked = (Condition("way", frozenset({"long"})),)
    tasks = {
        name: Task(name, (Mode("m", 5, {"cook": 1}),), when=asked, earliest=50)
        for name in ("late", "later")
    }
    tasks["now"] = Task("now", (Mode("m", 10, {"cook": 1}),), family="now")
    problem = Problem(
        {"cook": Resource("cook", 1)},
        tasks,
        100,
        families={"now": Family("now", 0, 0)},
        choices={"way": Choice("way", ("long", "short"))},
    )
    day = solve(problem, seconds=10, workers=2).levels[0]
    assert (day.value, day.bound) == (10, 10)


def test_units_that_are_away_at_different_times_are_told_apart() -> None:
    cooks = Resource(
        "cooks",
        2,
        (Absence(0, 10, 1), Absence(20, 30, 1)),
        ("ann", "bo"),
        (("ann",), ("ann",)),
    )
    tasks = {
        "whole": Task("whole", (Mode("m", 30, {"cooks": 1}),)),
        "between": Task("between", (Mode("m", 10, {"cooks": 1}),)),
    }
    schedule = _planned(Problem({"cooks": cooks}, tasks, 30, hands=("cooks",)))
    assert schedule.tasks["whole"].units == {"cooks": ("bo",)}
    assert schedule.tasks["between"].units == {"cooks": ("ann",)}


def test_tasks_of_a_group_stay_with_one_cook() -> None:
    tasks = {
        f"{dish} {step}": Task(f"{dish} {step}", (Mode("m", 10, {"cooks": 1}),), group=dish)
        for dish in ("stew", "soup")
        for step in (1, 2, 3)
    }
    lags = tuple(
        Lag(f"{dish} {step}", "end", f"{dish} {step + 1}", "start")
        for dish in ("stew", "soup")
        for step in (1, 2)
    )
    problem = Problem(
        {"cooks": Resource("cooks", 2, units=("ann", "bo"))}, tasks, 60, lags, hands=("cooks",)
    )
    outcome = solve(problem, seconds=20)
    assert outcome.levels[3].name == "hand-overs"
    assert outcome.levels[3].value == 0


@pytest.mark.parametrize("level", ["makespan", "hands"])
def test_progress_is_told_level_by_level(level: str) -> None:
    told: list[tuple[str, int, int]] = []
    solve(
        _parts(5, 5, cooks=2),
        seconds=20,
        progress=lambda name, value, bound: told.append((name, value, bound)),
    )
    of_level = [(value, bound) for name, value, bound in told if name == level]
    assert of_level
    assert all(value >= bound for value, bound in of_level)


_REPEAT = """
import sys
sys.path[:0] = sys.argv[1:]
from prep_days import prep_day
from batchcook.scheduling.solver import solve
outcome = solve(prep_day(3, 2, 4), seconds=60)
assert all(level.proved for level in outcome.levels), outcome.levels
print(outcome.schedule)
"""


def test_the_same_problem_gives_the_same_schedule_in_another_process() -> None:
    root = Path(__file__).parents[2]
    command = [sys.executable, "-c", _REPEAT, str(root / "tests" / "benchmarks"), str(root)]
    first, second = (
        subprocess.run(command, capture_output=True, text=True, check=True).stdout for _ in range(2)
    )
    assert "Done(" in first
    assert first == second


def test_a_day_of_nothing_takes_no_time() -> None:
    nothing = Problem({}, {}, 10, families={"dice": Family("dice", 1, 1)})
    outcome = solve(nothing, seconds=1)
    assert outcome.answer is Answer.PLAN
    assert outcome.levels[0].value == 0


def test_what_somebody_works_by_is_left_as_it_is_where_nothing_is_better() -> None:
    tasks = {
        "simmer": Task("simmer", (Mode("m", 60),)),
        "chop": Task("chop", (Mode("m", 10),)),
        "wash": Task("wash", (Mode("m", 5),)),
    }
    problem = Problem({}, tasks, 200)
    found = solve(problem, seconds=10, workers=2, in_use=InUse({"chop": 30, "wash": 44}, {}))
    assert found.schedule is not None
    assert found.schedule.tasks["chop"].start == 30
    assert found.schedule.tasks["wash"].start == 44
    assert {level.name: level.value for level in found.levels}["waiting"] == 0
    # What is moved even so is moved as little as the rest lets it, at two a minute.
    soon = replace(problem, lags=(Lag("chop", "start", "wash", "start", 0, 11),))
    moved = solve(soon, seconds=10, workers=2, in_use=InUse({"chop": 30, "wash": 44}, {}))
    assert {level.name: level.value for level in moved.levels}["waiting"] == 2 * 3
