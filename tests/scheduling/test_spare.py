"""What cannot run short is left out, and only that."""

from dataclasses import replace

from hypothesis import HealthCheck, given, settings
from oracle import best_values
from small_problems import small_problems

from batchcook.scheduling.problem import (
    Absence,
    Choice,
    Condition,
    Mode,
    Occupancy,
    Problem,
    Resource,
    Task,
)
from batchcook.scheduling.spare import most_at_once, without_spare


def _problem(pans: int, *absences: Absence) -> Problem:
    tasks = {name: Task(name, (Mode("m", 5, {"pan": 1}),)) for name in ("roll", "wash")}
    kept = Occupancy("kept", "pan", 2, ("roll",), "wash")
    return Problem({"pan": Resource("pan", pans, absences)}, tasks, 60, occupancies=(kept,))


def test_everything_at_once_is_the_most_of_each_task_and_all_that_is_kept() -> None:
    problem = _problem(4)
    assert most_at_once(problem, problem.resources["pan"]) == 4


def test_an_occupancy_of_what_always_suffices_is_left_out() -> None:
    assert without_spare(_problem(4)).occupancies == ()
    assert without_spare(_problem(3)).occupancies == _problem(3).occupancies


def test_what_is_missing_for_a_while_counts_against_what_there_is() -> None:
    away = Absence(10, 20, 1)
    assert without_spare(_problem(4, away)).occupancies != ()
    assert without_spare(_problem(5, away)).occupancies == ()


def test_an_occupancy_that_obliges_to_an_optional_task_stays() -> None:
    problem = _problem(9)
    wash = replace(problem.tasks["wash"], when=(Condition("c", frozenset({"x"})),))
    problem = replace(
        problem,
        tasks={**problem.tasks, "wash": wash},
        choices={"c": Choice("c", ("x", "y"))},
    )
    assert without_spare(problem).occupancies != ()


@settings(
    max_examples=40,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
@given(small_problems())
def test_the_best_schedules_are_as_good_without(problem: Problem) -> None:
    plenty = {
        key: replace(each, capacity=max(each.capacity, most_at_once(problem, each)))
        if not each.units
        else each
        for key, each in problem.resources.items()
    }
    ample = replace(problem, resources=plenty)
    assert best_values(without_spare(ample)) == best_values(ample)
