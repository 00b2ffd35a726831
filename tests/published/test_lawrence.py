"""S. Lawrence, "Resource constrained project scheduling: an experimental investigation of heuristic
scheduling techniques (supplement)", Carnegie-Mellon University, 1984. The instance of 10 jobs on
5 machines and its optimal makespan."""

from __future__ import annotations

from pathlib import Path

from batchcook.scheduling.check import check
from batchcook.scheduling.reading import read_job_shop
from batchcook.scheduling.solver import solve


def test_the_published_optimum_of_ten_jobs_on_five_machines_is_reached_and_proved() -> None:
    text = (Path(__file__).parent / "instances" / "la01.txt").read_text()
    problem = read_job_shop(text)
    assert len(problem.tasks) == 50
    outcome = solve(problem, seconds=60, workers=4)
    assert outcome.levels[0].value == 666
    assert outcome.levels[0].proved
    assert outcome.schedule is not None
    assert check(problem, outcome.schedule) == []
