"""That the plan of a day does not depend on which search was lucky."""

from __future__ import annotations

from unittest import mock

from planned_days import day_of, starter

from batchcook.day.formulation import formulate
from batchcook.day.workday import day_work, ordered_dishes
from batchcook.scheduling import descent, solver


def test_a_day_proved_by_a_plain_search_and_one_proved_by_turns_are_the_same() -> None:
    day = day_of(cottage_pie=2, beef_barley_stew=1)
    problem = formulate(day_work(ordered_dishes(day, starter()), day), day).problem
    plain = solver.solve(problem, seconds=20)
    with mock.patch.object(descent, "_AT_ONCE_AT_MOST", 0.0005):
        by_turns = solver.solve(problem, seconds=20)
    assert all(level.proved for level in (*plain.levels[:2], *by_turns.levels[:2]))
    assert plain.schedule == by_turns.schedule
