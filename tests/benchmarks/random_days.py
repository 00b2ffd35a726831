"""A thousand prep days drawn at random, each planned and checked: ``python`` this file.

Prints how many were planned, refused, or not answered in the time, and everything found wrong.
The first argument is how many days, the second the seconds of search for each, the third the
number of the first day. A line is printed for each day.
"""

from __future__ import annotations

import sys
import time
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))

from random_prep_days import outcome, random_day

from batchcook.cookbook import load_cookbook

DAYS = 1000
SECONDS = 1.0
MOST_DISHES = 5


def main(days: int = DAYS, seconds: float = SECONDS, first: int = 0) -> int:
    """Plan the days and print what came of them; the number of days with something wrong."""
    cookbook = load_cookbook()
    counts: Counter[str] = Counter()
    wrong = 0
    began = time.monotonic()
    for seed in range(first, first + days):
        started = time.monotonic()
        day = random_day(seed, cookbook, MOST_DISHES)
        try:
            how, found = outcome(day, cookbook, seconds)
        except Exception as fault:  # noqa: BLE001 - a crash is one more thing found
            how, found = "crash", [f"{type(fault).__name__}: {fault}"]
        counts[how] += 1
        wrong += bool(found)
        took = time.monotonic() - started
        sys.stdout.write(f"day {seed}, {dict(day.orders)}: {how}, {took:.1f} s\n")
        sys.stdout.writelines(f"    {each}\n" for each in found)
        sys.stdout.flush()
    told = ", ".join(f"{count} {how}" for how, count in counts.most_common())
    sys.stdout.write(
        f"{days} days in {time.monotonic() - began:.0f} s: {told}; {wrong} with something wrong\n"
    )
    return wrong


if __name__ == "__main__":
    words = sys.argv[1:]
    sys.exit(
        main(
            int(words[0]) if words else DAYS,
            float(words[1]) if len(words) > 1 else SECONDS,
            int(words[2]) if len(words) > 2 else 0,
        )
        > 0
    )
