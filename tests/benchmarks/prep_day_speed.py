"""How fast invented prep days of growing size are solved, and how good the answers are.

Run ``python tests/benchmarks/prep_day_speed.py``: for each day the value and bound of its levels,
the gap of the makespan, when the last shorter day was found and when the length was settled, and
the length against three others: one dish after another, the greedy list schedule by most work
remaining, and the lower bound. Days of more than twelve hours, which no one would cook, are left
out.

With ``--picture FILE`` it draws how the time grows from 2 to 20 dishes instead; that needs
matplotlib, ``pip install '.[benchmarks]'``.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from prep_days import prep_day

from batchcook.scheduling.check import check
from batchcook.scheduling.listing import list_schedule
from batchcook.scheduling.problem import Problem
from batchcook.scheduling.schedule import Outcome, Schedule
from batchcook.scheduling.solver import solve

_LONGEST = 720
_DAYS = (
    (2, 2, False, 10.0),
    (5, 2, False, 10.0),
    (8, 2, False, 10.0),
    (12, 2, True, 10.0),
    (20, 3, False, 30.0),
)
_FRAME = "day"
_DISH_SECONDS = 5.0


@dataclass(frozen=True)
class _Solved:
    """An outcome, and when the length of the day was last improved and when it was settled."""

    outcome: Outcome
    improved: float
    settled: float


def _solved(problem: Problem, seconds: float, depth: int | None = None) -> _Solved:
    improved = 0.0
    settled: float | None = None
    began = time.perf_counter()

    def told(name: str, _value: int, _bound: int) -> None:
        nonlocal improved, settled
        now = time.perf_counter() - began
        if name == "makespan":
            improved = now
        elif settled is None:
            settled = now

    outcome = solve(problem, seconds=seconds, progress=told, depth=depth)
    whole = time.perf_counter() - began
    return _Solved(outcome, improved, whole if settled is None else settled)


def _length(schedule: Schedule | None) -> int | None:
    if schedule is None:
        return None
    return max(done.release for done in schedule.tasks.values())


def _dish(task: str) -> str:
    """The dish of a task, which its name begins with."""
    return task.partition("/")[0]


def _alone(problem: Problem, dish: str) -> Problem:
    """The day with one dish only."""
    tasks = {name: task for name, task in problem.tasks.items() if _dish(name) in {dish, _FRAME}}
    return replace(
        problem,
        tasks=tasks,
        lags=tuple(lag for lag in problem.lags if {lag.before, lag.after} <= tasks.keys()),
        occupancies=tuple(each for each in problem.occupancies if each.until in tasks),
    )


def _one_after_another(problem: Problem) -> int | None:
    """The days of the dishes alone added up, with one setting up and one cleaning up."""
    frame = sum(
        task.modes[0].duration for name, task in problem.tasks.items() if _dish(name) == _FRAME
    )
    lengths = [
        _length(solve(_alone(problem, dish), seconds=_DISH_SECONDS, depth=1).schedule)
        for dish in {_dish(name) for name in problem.tasks} - {_FRAME}
    ]
    known = [length - frame for length in lengths if length is not None]
    return sum(known) + frame if len(known) == len(lengths) else None


def _row(label: str, problem: Problem, seconds: float) -> str | None:
    """A line of the table; None for a day that is left out."""
    solved = _solved(problem, seconds)
    outcome = solved.outcome
    if outcome.schedule is None:
        return f"{label:16} {len(problem.tasks):5} {outcome.answer.value}"
    day, hands, waiting, _ = outcome.levels
    if day.bound > _LONGEST:
        return None
    greedy = _length(list_schedule(problem, samples=2))
    alone = _one_after_another(problem)
    sound = "sound" if not check(problem, outcome.schedule) else "BROKEN"
    gap = 100 * (day.value - day.bound) / day.value
    return (
        f"{label:16} {len(problem.tasks):5} {alone or '-':>6} {greedy or '-':>6} "
        f"{day.value:5}/{day.bound:<5} {gap:5.1f}% "
        f"{hands.value:5}/{hands.bound:<5} {waiting.value:5}/{waiting.bound:<5} "
        f"{solved.improved:7.1f} {solved.settled:7.1f} {outcome.seconds:6.1f}  {sound}"
    )


def _table(seeds: int) -> None:
    print(
        f"{'day':16} {'tasks':>5} {'singly':>6} {'greedy':>6} {'makespan':>11} {'gap':>6} "
        f"{'hands':>11} {'waiting':>11} {'last at':>7} {'settled':>7} {'all s':>6}"
    )
    for dishes, cooks, helper, seconds in _DAYS:
        for seed in range(1, seeds + 1):
            label = f"{dishes} dishes, {cooks}{'+1' if helper else ''} #{seed}"
            row = _row(label, prep_day(dishes, cooks, seed, helper=helper), seconds)
            if row is not None:
                print(row, flush=True)


def _growing(seeds: int, seconds: float) -> Iterator[tuple[int, float, float]]:
    """Dishes, seconds until the length was settled, and the gap in percent, day by day."""
    for dishes in range(2, 21, 2):
        cooks, helper = (2, dishes > 10) if dishes <= 16 else (3, False)
        for seed in range(1, seeds + 1):
            solved = _solved(prep_day(dishes, cooks, seed, helper=helper), seconds, depth=1)
            if not solved.outcome.levels:
                continue
            day = solved.outcome.levels[0]
            if day.bound <= _LONGEST:
                gap = 100 * (day.value - day.bound) / day.value
                print(f"{dishes:3} #{seed} {day.value}/{day.bound} {solved.settled:.2f} s")
                yield dishes, solved.settled, gap


def _draw(picture: Path, seeds: int, seconds: float) -> None:
    """Time and gap over the number of dishes, one mark a day."""
    from matplotlib.figure import Figure  # noqa: PLC0415 - not needed for the table

    found = list(_growing(seeds, seconds))
    figure = Figure(figsize=(7, 6), layout="constrained")
    times, gaps = figure.subplots(2, 1, sharex=True)
    for proved, mark, label in ((True, "ko", "proved shortest"), (False, "wo", "not proved")):
        days = [each for each in found if (each[2] == 0) == proved]
        times.semilogy(
            [day[0] for day in days], [day[1] for day in days], mark, mec="k", label=label
        )
    times.axhline(seconds, color="k", lw=0.5, ls=":")
    times.set_ylabel("seconds to settle the length")
    times.legend()
    gaps.plot([day[0] for day in found], [day[2] for day in found], "k_", ms=12)
    gaps.set_ylabel("gap to the bound, %")
    gaps.set_xlabel("dishes, each doubled")
    gaps.set_xticks(range(2, 21, 2))
    figure.savefig(picture, dpi=110)


def main() -> None:
    """Print the table, or draw the picture."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seeds", type=int, default=3, help="days of each size")
    parser.add_argument("--picture", type=Path, help="draw how the time grows, into this file")
    parser.add_argument("--seconds", type=float, default=10.0, help="for each day of the picture")
    asked = parser.parse_args()
    if asked.picture is None:
        _table(asked.seeds)
    else:
        _draw(asked.picture, asked.seeds, asked.seconds)


if __name__ == "__main__":
    main()
