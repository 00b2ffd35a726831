"""What cannot run short, and only that."""

from batchcook.scheduling.problem import Absence, Mode, Occupancy, Problem, Resource, Task
from batchcook.scheduling.spare import most_at_once, suffices


def _problem(pans: int, *absences: Absence) -> Problem:
    tasks = {name: Task(name, (Mode("m", 5, {"pan": 1}),)) for name in ("roll", "wash")}
    kept = Occupancy("kept", "pan", 2, ("roll",), "wash")
    return Problem({"pan": Resource("pan", pans, absences)}, tasks, 60, occupancies=(kept,))


def _suffices(problem: Problem) -> bool:
    return suffices(problem, problem.resources["pan"])


def test_everything_at_once_is_the_most_of_each_task_and_all_that_is_kept() -> None:
    problem = _problem(4)
    assert most_at_once(problem, problem.resources["pan"]) == 4


def test_what_all_at_once_do_not_use_up_limits_nothing() -> None:
    assert _suffices(_problem(4))
    assert not _suffices(_problem(3))


def test_what_is_missing_for_a_while_counts_against_what_there_is() -> None:
    away = Absence(10, 20, 1)
    assert not _suffices(_problem(4, away))
    assert _suffices(_problem(5, away))


def test_who_is_there_while_an_oven_warms_up_counts_too() -> None:
    tasks = {
        name: Task(name, (Mode("m", 5, {"oven": 1}),), settings=(350,)) for name in ("pie", "bread")
    }
    oven = Resource("oven", 1, warm_up=10, warming={"somebody": 1})
    cooks = Resource("somebody", 1)
    problem = Problem({"oven": oven, "somebody": cooks}, tasks, 60)
    assert most_at_once(problem, cooks) == 2
    assert not suffices(problem, cooks)
