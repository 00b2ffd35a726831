"""How fast invented prep days of growing size are solved, and how good the answers are.

Run ``python tests/benchmarks/prep_day_speed.py``: for each day the value and bound of its levels,
the gap of the makespan, the greedy list schedule's makespan, and the seconds. Days of more than
twelve hours, which no one would cook, are left out.
"""

from __future__ import annotations

import argparse
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from prep_days import prep_day

from batchcook.scheduling.check import check
from batchcook.scheduling.listing import list_schedule
from batchcook.scheduling.problem import Problem
from batchcook.scheduling.schedule import Schedule
from batchcook.scheduling.solver import solve

_LONGEST = 720
_DAYS = (
    (2, 2, False, 10.0),
    (5, 2, False, 10.0),
    (8, 2, False, 10.0),
    (12, 2, True, 10.0),
    (20, 3, False, 30.0),
)


def _length(schedule: Schedule | None) -> str:
    if schedule is None:
        return "-"
    return str(max(done.release for done in schedule.tasks.values()))


def _row(label: str, problem: Problem, seconds: float) -> None:
    greedy = list_schedule(problem, samples=2)
    reached: dict[str, float] = {}
    began = time.perf_counter()
    outcome = solve(
        problem,
        seconds=seconds,
        progress=lambda name, _value, _bound: reached.update({name: time.perf_counter() - began}),
    )
    if outcome.schedule is None:
        print(f"{label:16} {len(problem.tasks):5} {outcome.answer.value}")
        return
    day, hands, waiting, _ = outcome.levels
    if day.bound > _LONGEST:
        return
    sound = "sound" if not check(problem, outcome.schedule) else "BROKEN"
    gap = 100 * (day.value - day.bound) / day.value
    print(
        f"{label:16} {len(problem.tasks):5} {day.value:5}/{day.bound:<5} {gap:5.1f}% "
        f"{hands.value:5}/{hands.bound:<5} {waiting.value:5}/{waiting.bound:<5} "
        f"{_length(greedy):>6} {reached.get('makespan', 0):7.1f} {outcome.seconds:6.1f}  {sound}"
    )


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seeds", type=int, default=3, help="days of each size")
    seeds = parser.parse_args().seeds
    print(
        f"{'day':16} {'tasks':>5} {'makespan':>11} {'gap':>6} {'hands':>11} {'waiting':>11} "
        f"{'greedy':>6} {'last at':>7} {'all s':>6}"
    )
    for dishes, cooks, helper, seconds in _DAYS:
        for seed in range(1, seeds + 1):
            label = f"{dishes} dishes, {cooks}{'+1' if helper else ''} #{seed}"
            _row(label, prep_day(dishes, cooks, seed, helper=helper), seconds)


if __name__ == "__main__":
    main()
