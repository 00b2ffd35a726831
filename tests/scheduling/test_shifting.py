"""A schedule moved as a whole."""

from dataclasses import replace

from batchcook.scheduling.problem import Absence, Mode, Problem, Resource, Task
from batchcook.scheduling.schedule import Done, Schedule
from batchcook.scheduling.shifting import begun_at_once, begun_late

COOK = Resource("cook", 1)
PROBLEM = Problem(
    resources={"cook": COOK},
    tasks={"chop": Task("chop", (Mode("by hand", 10, {"cook": 1}),))},
    horizon=60,
    free_origin=True,
)
SCHEDULE = Schedule({"chop": Done(start=5, work=5, end=15, release=15, mode="by hand")})


def test_it_ends_at_the_horizon_where_nothing_is_in_the_way() -> None:
    assert begun_late(PROBLEM, SCHEDULE).tasks["chop"].release == 60


def test_it_is_put_before_an_absence_that_is_in_the_way() -> None:
    away = replace(COOK, absences=(Absence(40, 60, 1),))
    assert begun_late(replace(PROBLEM, resources={"cook": away}), SCHEDULE).tasks["chop"].end == 40


def test_a_window_holds_it_back() -> None:
    held = replace(PROBLEM.tasks["chop"], latest=30)
    assert begun_late(replace(PROBLEM, tasks={"chop": held}), SCHEDULE).tasks["chop"].end == 30


def test_idle_minutes_before_the_first_task_are_left_out() -> None:
    day = replace(PROBLEM, free_origin=False)
    assert begun_at_once(day, SCHEDULE).tasks["chop"].start == 0


def test_what_may_not_begin_sooner_stays_where_it_may() -> None:
    away = replace(COOK, absences=(Absence(0, 3, 1),))
    day = replace(PROBLEM, resources={"cook": away}, free_origin=False)
    assert begun_at_once(day, SCHEDULE).tasks["chop"].start == 3
