"""How long a suggestion takes: eight nights, thirty recipes, an empty freezer and a half full one.

Run it as ``python tests/benchmarks/suggest_speed.py``; whole processes, cold. The recipes are the
twelve starter recipes and copies of them under other names, which nothing tells apart.
"""

from __future__ import annotations

import datetime as dt
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from batchcook.cookbook import recipe_files, starter_folder

ROOT = Path(__file__).parent.parent.parent
RECIPES = 30
WEEKS = 6
WANTED = 20.0


def _copies(folder: Path) -> None:
    """As many more recipes as make thirty."""
    files = list(recipe_files(starter_folder()))
    for number in range(RECIPES - len(files)):
        source = files[number % len(files)]
        name = f"{source.stem}-{number // len(files) + 2}"
        text = source.read_text("utf-8").replace('title = "', f'title = "No. {number} ', 1)
        (folder / f"{name}.toml").write_text(text, "utf-8")


def _run(*words: str) -> float:
    began = time.perf_counter()
    done = subprocess.run(
        [sys.executable, "-m", "batchcook", *words], cwd=ROOT, check=False, capture_output=True
    )
    taken = time.perf_counter() - began
    print(done.stdout.decode()[-900:], done.stderr.decode()[-300:])
    print(f"exit code {done.returncode}")
    return taken


def main() -> None:
    """Print the figures."""
    with tempfile.TemporaryDirectory() as place:
        recipes, store = Path(place, "recipes"), Path(place, "freezer.sqlite")
        recipes.mkdir()
        _copies(recipes)
        until = dt.datetime.now().astimezone().date() + dt.timedelta(days=WEEKS * 7)
        words = (
            *("suggest", "--nights", "8", "--until", until.isoformat()),
            *("--recipes", str(recipes), "--store", str(store)),
        )
        empty = _run(*words)
        for what, main_ingredient in (("Minestrone", "beans"), ("Chili", "beef")):
            _run(
                *("freezer", "add", what, "--keeps-as", "soup-or-stew", "--portions", "4"),
                *("--count", "2", "--main", main_ingredient, "--store", str(store)),
            )
        half = _run(*words)
    load = os.getloadavg()[0]
    print(f"load of the machine meanwhile            {load:6.2f}")
    print(f"8 nights, 30 recipes, freezer empty      {empty:6.2f} s  (wanted: {WANTED:g})")
    print(f"8 nights, 30 recipes, 4 nights in stock  {half:6.2f} s  (wanted: {WANTED:g})")


if __name__ == "__main__":
    main()
