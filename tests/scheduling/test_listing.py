"""List schedules: sound, repeated, and as good as a list can be."""

from __future__ import annotations

from pathlib import Path

import pytest

from batchcook.scheduling.check import check
from batchcook.scheduling.listing import list_schedule
from batchcook.scheduling.network import network
from batchcook.scheduling.problem import (
    Budget,
    Choice,
    Condition,
    Lag,
    Mode,
    Occupancy,
    Problem,
    Resource,
    Span,
    Task,
)
from batchcook.scheduling.reading import read_psplib
from batchcook.scheduling.schedule import Schedule

_INSTANCES = Path(__file__).parents[1] / "published" / "instances"


def _length(schedule: Schedule) -> int:
    return max(done.release for done in schedule.tasks.values())


@pytest.mark.parametrize("name", ["j301_1", "j3017_7", "j3025_5", "j601_1"])
def test_a_list_schedule_of_a_published_instance_is_sound_and_no_shorter_than_its_paths(
    name: str,
) -> None:
    problem = read_psplib((_INSTANCES / f"{name}.sm").read_text())
    schedule = list_schedule(problem)
    assert schedule is not None
    assert check(problem, schedule) == []
    assert _length(schedule) >= network(problem).length


def test_the_same_list_gives_the_same_schedule() -> None:
    problem = read_psplib((_INSTANCES / "j301_1.sm").read_text())
    assert list_schedule(problem, samples=5) == list_schedule(problem, samples=5)


def test_a_task_is_moved_later_where_what_follows_it_would_come_too_late() -> None:
    tasks = {
        "cut": Task("cut", (Mode("m", 5),)),
        "busy": Task("busy", (Mode("m", 60, {"cook": 1}),), group="a"),
        "sear": Task("sear", (Mode("m", 5, {"cook": 1}),), group="b"),
    }
    lags = (Lag("cut", "end", "sear", "start", 0, 10),)
    problem = Problem({"cook": Resource("cook", 1)}, tasks, 200, lags)
    schedule = list_schedule(problem)
    assert schedule is not None
    assert check(problem, schedule) == []


def test_spans_of_a_budget_are_kept_within_it() -> None:
    tasks = {
        "out": Task("out", (Mode("m", 1),)),
        "busy": Task("busy", (Mode("m", 60, {"cook": 1}),)),
        "sear": Task("sear", (Mode("m", 5, {"cook": 1}),)),
    }
    budget = Budget("clock", (Span("out", "start", "sear", "start"),), 20)
    lags = (Lag("out", "end", "sear", "start"),)
    problem = Problem({"cook": Resource("cook", 1)}, tasks, 200, lags, (budget,))
    schedule = list_schedule(problem)
    assert schedule is not None
    assert check(problem, schedule) == []


def test_an_occupancy_takes_the_vessel_that_is_free() -> None:
    choices = {f"pot {dish}": Choice(f"pot {dish}", ("large", "small")) for dish in ("a", "b")}
    tasks, occupancies = {}, []
    for dish in ("a", "b"):
        tasks[f"cook {dish}"] = Task(f"cook {dish}", (Mode("m", 30),))
        occupancies += [
            Occupancy(
                f"{dish} {size}",
                size,
                1,
                (f"cook {dish}",),
                f"cook {dish}",
                (Condition(f"pot {dish}", frozenset({size})),),
            )
            for size in ("large", "small")
        ]
    resources = {size: Resource(size, 1) for size in ("large", "small")}
    problem = Problem(resources, tasks, 100, occupancies=tuple(occupancies), choices=choices)
    schedule = list_schedule(problem)
    assert schedule is not None
    assert _length(schedule) == 30
    assert set(schedule.choices.values()) == {"large", "small"}
