"""The solver against an exhaustive search that shares no code with it."""

from __future__ import annotations

from collections import Counter

from hypothesis import HealthCheck, given, settings
from oracle import best_values, is_sound, values_of
from small_problems import small_problems

from batchcook.scheduling.check import check
from batchcook.scheduling.listing import list_schedule
from batchcook.scheduling.problem import Problem
from batchcook.scheduling.schedule import Answer
from batchcook.scheduling.solver import solve

_SLOW = settings(
    max_examples=60,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)


@_SLOW
@given(small_problems())
def test_the_solver_finds_the_best_values_or_proves_there_is_no_schedule(problem: Problem) -> None:
    expected = best_values(problem)
    outcome = solve(problem, seconds=20, workers=2)
    if expected is None:
        assert outcome.answer is Answer.IMPOSSIBLE
        return
    assert outcome.answer is Answer.PLAN
    assert tuple(level.value for level in outcome.levels[:3]) == expected
    assert all(level.proved for level in outcome.levels[:3])
    assert outcome.schedule is not None
    assert values_of(problem, outcome.schedule) == expected
    assert is_sound(problem, outcome.schedule)
    assert check(problem, outcome.schedule) == []


def test_a_list_schedule_is_sound_or_not_given() -> None:
    given_and_not: Counter[bool] = Counter()

    @_SLOW
    @given(small_problems())
    def judge(problem: Problem) -> None:
        schedule = list_schedule(problem, samples=3)
        given_and_not[schedule is not None] += 1
        if schedule is not None:
            assert is_sound(problem, schedule)

    judge()
    # Of problems drawn at random most can be listed; one that never lists would pass else.
    assert given_and_not[True] > given_and_not[False]
