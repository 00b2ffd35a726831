"""How long each freezer command takes, cold, with 1,000 containers and five years of entries.

Run it as ``python tests/benchmarks/freezer_speed.py``; every figure is the median of three
processes, started afresh: on the clock, and of the processor's time, which is what counts where
the machine has other work too.
"""

from __future__ import annotations

import datetime as dt
import json
import random
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from batchcook.freezer.adding import details_of_addition
from batchcook.freezer.entries import MOVED, PACKED, RATED, TAKEN, Draft
from batchcook.freezer.store import read_journal, write_entries

__all__ = ["five_years", "main"]

TODAY = dt.date(2026, 1, 31)
MAINS = ("beef", "chicken", "pork", "fish", "beans", "egg", "turkey")
DISHES = 40
RUNS = 3


def five_years(place: Path) -> None:
    """A household that packs 60 to 80 containers a month for five years, and has 1,000 left."""
    chance = random.Random(11)  # noqa: S311 - a made-up household, no secret
    there: list[str] = []
    for month in range(60):
        day = dt.date(2021 + month // 12, month % 12 + 1, 9)
        drafts = _prep_day(day, chance)
        there += [draft.subject for draft in drafts]
        _write(place, day, drafts)
        left = 1000 if month == 59 else min(1000, 100 + 16 * month)
        eaten = [there.pop(0) for _ in range(len(there) - left)]
        _write(place, day, [Draft(MOVED, key, day) for key in eaten])
        for start in range(0, len(eaten), 3):
            _write(place, day, [Draft(TAKEN, key, day) for key in eaten[start : start + 3]])
        dish = f"dish-{chance.randrange(DISHES)}"
        _write(place, day, [Draft(RATED, dish, day, {"verdict": "keep", "note": ""})])


def main() -> None:
    """Print the figures."""
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "freezer.sqlite"
        five_years(place)
        entries = len(read_journal(place).entries)
        listed = json.loads(_run(place, "list", "--json"))
        print(f"{len(listed)} containers, {entries} entries, {place.stat().st_size / 1e6:.1f} MB")
        codes = iter([each["key"] for each in reversed(listed)])
        sheet = str(Path(folder) / "sheet")
        commands = {
            "list": lambda: ("list",),
            "list --json": lambda: ("list", "--json"),
            "check": lambda: ("check", "--days", "7"),
            "history": lambda: ("history", listed[0]["key"]),
            "outage": lambda: ("outage", "--hours", "30"),
            "take": lambda: ("take", next(codes)),
            "thaw": lambda: ("thaw", next(codes)),
            "throw": lambda: ("throw", next(codes), "--why", "spilled"),
            "correct": lambda: ("correct", next(codes), "--portions", "3"),
            "add": lambda: ("add", "Soup", "--keeps-as", "soup-or-stew", "--portions", "4"),
            "verdict": lambda: ("verdict", "dish-1", "keep"),
            "undo": lambda: ("undo",),
            "sheet, HTML": lambda: ("sheet", "--out", f"{sheet}.html"),
            "sheet, PDF": lambda: ("sheet", "--out", f"{sheet}.pdf"),
        }
        for name, words in commands.items():
            print(f"{name:14} {_median(place, words)}")
        month = ("month", "2026-02", "--nights", "tue,thu", "--on", TODAY.isoformat())
        out = ("--out", str(Path(folder) / "month"))
        fresh = _median(place, lambda: (*month, *out))
        print(f"{'month':14} {fresh} (planned, sheet as PDF and HTML, calendar)")


def _prep_day(day: dt.date, chance: random.Random) -> list[Draft]:
    drafts = []
    for letter in "ABCDEFGH":
        dish = chance.randrange(DISHES)
        details = details_of_addition(
            f"Dish {dish}",
            packed_on=day,
            rows=("soup-or-stew" if dish % 2 else "raw-steaks",),
            use_by=None,
            portions=(2, 4, 4, 6)[dish % 4],
            main=MAINS[dish % len(MAINS)],
            raw=False,
            thaw_days=1,
        )
        for number in range(1, chance.randint(8, 11)):
            code = f"{letter}{number}"
            key = f"{code}@{day.isoformat()}"
            finish = "Bring to a simmer over medium heat, stirring, until 165 degF in the middle."
            kept = {"code": code, **details, "holds": "quart tub", "grams": 900, "finish": finish}
            drafts.append(Draft(PACKED, key, day, kept))
    return drafts


def _write(place: Path, day: dt.date, drafts: list[Draft]) -> None:
    now = dt.datetime.combine(day, dt.time(18), tzinfo=dt.UTC)
    if not drafts:
        return
    write_entries(place, lambda _: (drafts, None), now=now)


def _run(place: Path, *words: str) -> str:
    group = () if words[0] in {"month", "verdict"} else ("freezer",)
    done = subprocess.run(
        [sys.executable, "-m", "batchcook", *group, *words, "--store", str(place)],
        capture_output=True,
        text=True,
        check=False,
    )
    if done.returncode not in {0, 4}:
        raise SystemExit(done.stderr)
    return done.stdout


def _median(place: Path, words: Callable[[], tuple[str, ...]]) -> str:
    """Seconds that a command takes, on the clock and of the processor."""
    clock, processor = [], []
    for _ in range(RUNS):
        said = words()
        start, used = time.perf_counter(), _processor()
        _run(place, *said)
        clock.append(time.perf_counter() - start)
        processor.append(_processor() - used)
    return f"{statistics.median(clock):5.2f} s, processor {statistics.median(processor):.2f} s"


def _processor() -> float:
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


if __name__ == "__main__":
    main()
