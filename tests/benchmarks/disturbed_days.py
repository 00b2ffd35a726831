"""Fifty prep days drawn at random, each disturbed four times: ``python`` this file.

Prints how each went on after it was timed anew and planned anew, and every limit of safety broken
without being told. The arguments are how many days, how many disturbances of each, and the number
of the first day.
"""

from __future__ import annotations

import sys
import time
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))

from disturbances import disturbed
from random_prep_days import is_hot, plan_or_none, random_day

from batchcook.cookbook import load_cookbook

DAYS = 50
TIMES = 4
SECONDS = 2.0
MOST_DISHES = 4


def main(days: int = DAYS, times: int = TIMES, first: int = 0) -> int:
    """Disturb the days and print what came of them; how many disturbances had something wrong."""
    cookbook = load_cookbook()
    counts: Counter[str] = Counter()
    wrong = done = 0
    began = time.monotonic()
    number = first
    while done < days:
        day = random_day(number, cookbook, MOST_DISHES)
        plan = plan_or_none(day, cookbook, SECONDS)
        number += 1
        if plan is None:
            continue
        done += 1
        for place in range(times):
            seed = times * number + place
            try:
                how, found = disturbed(plan, seed, SECONDS, 60 if is_hot(day) else 120)
            except Exception as fault:  # noqa: BLE001 - a crash is one more thing found
                how, found = "crash", [f"{type(fault).__name__}: {fault}"]
            counts[how] += 1
            wrong += bool(found)
            sys.stdout.write(f"day {number - 1}, {dict(day.orders)}, disturbance {seed}: {how}\n")
            sys.stdout.writelines(f"    {each}\n" for each in found)
            sys.stdout.flush()
    told = ", ".join(f"{count} {how}" for how, count in sorted(counts.items()))
    sys.stdout.write(
        f"{days} days disturbed {times} times each in {time.monotonic() - began:.0f} s: {told}; "
        f"{wrong} with something wrong\n"
    )
    return wrong


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])) > 0)
