"""PSPLIB: R. Kolisch and A. Sprecher, "PSPLIB - A project scheduling problem library",
European Journal of Operational Research 96 (1997) 205-216. Instances and optimal makespans."""

from __future__ import annotations

from pathlib import Path

import pytest

from batchcook.scheduling.check import check
from batchcook.scheduling.reading import read_psplib
from batchcook.scheduling.solver import solve

_INSTANCES = Path(__file__).parent / "instances"


@pytest.mark.parametrize(
    ("name", "activities", "optimum"),
    [("j301_1", 32, 43), ("j3017_7", 32, 57), ("j3025_5", 32, 72), ("j601_1", 62, 77)],
)
def test_the_published_optimum_is_reached_and_proved(
    name: str, activities: int, optimum: int
) -> None:
    problem = read_psplib((_INSTANCES / f"{name}.sm").read_text())
    assert len(problem.tasks) == activities
    outcome = solve(problem, seconds=60, workers=4)
    assert outcome.levels[0].value == optimum
    assert outcome.levels[0].proved
    assert outcome.schedule is not None
    assert check(problem, outcome.schedule) == []


def test_a_file_without_a_section_is_refused() -> None:
    with pytest.raises(ValueError, match="PRECEDENCE RELATIONS"):
        read_psplib("projects : 1\n")
