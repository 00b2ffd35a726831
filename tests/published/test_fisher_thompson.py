"""H. Fisher and G. L. Thompson, "Probabilistic learning combinations of local job-shop scheduling
rules" (1963), in J. F. Muth and G. L. Thompson, Industrial Scheduling, Prentice Hall. The instance
of 6 jobs on 6 machines and its optimal makespan."""

from __future__ import annotations

from pathlib import Path

import pytest

from batchcook.scheduling.check import check
from batchcook.scheduling.reading import read_job_shop
from batchcook.scheduling.solver import solve

_TEXT = (Path(__file__).parent / "instances" / "ft06.txt").read_text()


def test_the_published_optimum_of_six_jobs_on_six_machines_is_reached_and_proved() -> None:
    problem = read_job_shop(_TEXT)
    assert len(problem.tasks) == 36
    outcome = solve(problem, seconds=60, workers=4)
    assert outcome.levels[0].value == 55
    assert outcome.levels[0].proved
    assert outcome.schedule is not None
    assert check(problem, outcome.schedule) == []


def test_a_job_shop_with_a_row_missing_is_refused() -> None:
    with pytest.raises(ValueError, match="6 jobs"):
        read_job_shop("\n".join(_TEXT.splitlines()[:-1]))
