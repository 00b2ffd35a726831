"""The freezer commands in a process of their own, and a writer that never stops."""

from __future__ import annotations

import datetime as dt
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

from batchcook.freezer.adding import details_of_addition
from batchcook.freezer.changes import Moment, add

__all__ = ["DAY", "NOW", "check_integrity", "command", "put_in", "run", "soup"]

NOW = dt.datetime(2026, 3, 14, 18, 30, tzinfo=dt.UTC)
DAY = dt.date(2026, 3, 14)
ROOT = Path(__file__).parents[2]

_COMMANDS = """\
import sys
from batchcook.cli.freezer import app
from batchcook.complaints import InputFault
try:
    app(standalone_mode=True)
except InputFault as fault:
    sys.exit(f"{fault}")
"""


def soup(title: str = "Minestrone", packed_on: dt.date = DAY, **other: object) -> dict[str, Any]:
    """The details of a soup that feeds four."""
    given: dict[str, Any] = {
        "rows": ("soup-or-stew",),
        "use_by": None,
        "portions": 4,
        "main": "beans",
        "raw": False,
        "thaw_days": 1,
    }
    return details_of_addition(title, packed_on=packed_on, **(given | other))


def put_in(place: Path, count: int = 1) -> tuple[str, ...]:
    """So many soups in the freezer; their codes."""
    return add(place, soup(), count, Moment(NOW, DAY))


def command(*words: str) -> list[str]:
    """A freezer command as a process is started with it."""
    return [sys.executable, "-c", _COMMANDS, *words]


def run(*words: str, before: Callable[[], None] | None = None) -> subprocess.CompletedProcess[str]:
    """A freezer command in a process of its own.

    Args:
        words: The command.
        before: What that process does before the program starts.
    """
    return subprocess.run(
        command(*words),
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
        preexec_fn=before,
    )


def check_integrity(place: Path) -> None:
    """SQLite's own check of the file."""
    connection = sqlite3.connect(place)
    try:
        assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    finally:
        connection.close()
