"""Published instances through the general model, beside a plain CP-SAT model of each.

Run ``python tests/benchmarks/published_instances.py``: the makespan, the seconds that each model
takes (the least of a few runs), and their ratio.
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from ortools.sat.python import cp_model

from batchcook.scheduling.problem import Problem
from batchcook.scheduling.reading import read_job_shop, read_psplib
from batchcook.scheduling.solver import solve

_INSTANCES = Path(__file__).parents[1] / "published" / "instances"
_RUNS = 5
_SECONDS = 60.0
_WORKERS = 4


def _plain(problem: Problem) -> tuple[int, float]:
    """A model of starts, intervals, cumulatives and precedences, as anyone would write it."""
    began = time.perf_counter()
    model = cp_model.CpModel()
    starts, ends, intervals = {}, {}, {}
    for task in problem.tasks.values():
        duration = task.modes[0].duration
        starts[task.id] = model.new_int_var(0, problem.horizon, task.id)
        ends[task.id] = starts[task.id] + duration
        intervals[task.id] = model.new_fixed_size_interval_var(starts[task.id], duration, task.id)
    for lag in problem.lags:
        model.add(starts[lag.after] >= ends[lag.before])
    for resource in problem.resources.values():
        users = [task for task in problem.tasks.values() if resource.id in task.modes[0].demands]
        chosen = [intervals[task.id] for task in users]
        if resource.capacity == 1:
            model.add_no_overlap(chosen)
        else:
            demands = [task.modes[0].demands[resource.id] for task in users]
            model.add_cumulative(chosen, demands, resource.capacity)
    makespan = model.new_int_var(0, problem.horizon, "makespan")
    model.add_max_equality(makespan, list(ends.values()))
    model.minimize(makespan)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = _WORKERS
    solver.parameters.max_time_in_seconds = _SECONDS
    solver.solve(model)
    return round(solver.objective_value), time.perf_counter() - began


def _general(problem: Problem) -> tuple[int, float]:
    began = time.perf_counter()
    outcome = solve(problem, seconds=_SECONDS, workers=_WORKERS)
    return outcome.levels[0].value, time.perf_counter() - began


def main() -> None:
    """Print the table."""
    print(f"{'instance':12} {'makespan':>8} {'plain s':>8} {'general s':>10} {'ratio':>6}")
    for path in sorted(_INSTANCES.iterdir()):
        read = read_psplib if path.suffix == ".sm" else read_job_shop
        problem = read(path.read_text())
        plain, general = [], []
        for _ in range(_RUNS):
            plain.append(_plain(problem))
            general.append(_general(problem))
        usual = min(seconds for _, seconds in plain)
        ours = min(seconds for _, seconds in general)
        print(f"{path.stem:12} {general[0][0]:8} {usual:8.3f} {ours:10.3f} {ours / usual:6.2f}")


if __name__ == "__main__":
    main()
