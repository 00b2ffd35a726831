"""How long a cook waits: the program's help, the solver on the sample day, the whole plan command.

Run it as ``python tests/benchmarks/plan_speed.py``; whole processes, cold, the median of three.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from batchcook.cookbook import load_cookbook
from batchcook.day.formulation import formulate
from batchcook.day.prepday import load_prep_day
from batchcook.day.workday import day_work, ordered_dishes
from batchcook.scheduling.solver import solve

ROOT = Path(__file__).parent.parent.parent
SAMPLE = ROOT / "recipes" / "sample-prep-day.toml"


def _seconds(*words: str) -> float:
    """Wall-clock seconds of one run of the program, the median of three."""
    taken = []
    for _ in range(3):
        began = time.perf_counter()
        subprocess.run(
            [sys.executable, "-m", "batchcook", *words], cwd=ROOT, check=True, capture_output=True
        )
        taken.append(time.perf_counter() - began)
    return statistics.median(taken)


def _sample_solved() -> tuple[float, float]:
    """Seconds to the proof of the shortest day, and to the end of all levels."""
    day = load_prep_day(SAMPLE)
    problem = formulate(day_work(ordered_dishes(day, load_cookbook()), day), day).problem
    first, every = solve(problem, seconds=60, depth=1), solve(problem, seconds=60)
    for level in every.levels:
        print(f"  {level.name}: {level.value}, not under {level.bound}")
    return first.seconds, every.seconds


def main() -> None:
    """Print the figures."""
    print(f"batchcook --help                      {_seconds('--help'):6.2f} s  (wanted: 0.4)")
    first, every = _sample_solved()
    print(f"sample day, shortest proved           {first:6.2f} s  (wanted: 1)")
    print(f"sample day, all levels                {every:6.2f} s")
    with tempfile.TemporaryDirectory() as out:
        whole = _seconds("plan", str(SAMPLE), "--out", f"{out}/plan")
    print(f"batchcook plan, PDFs included, cold   {whole:6.2f} s  (wanted: 5)")


if __name__ == "__main__":
    main()
