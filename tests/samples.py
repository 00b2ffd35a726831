"""Makes ``output_samples/`` and the README's list of commands anew from what the program does.

Run it as ``python tests/samples.py``; ``tests/test_samples.py`` fails when either is stale.
"""

from __future__ import annotations

import datetime as dt
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

import typer.main
from playwright.sync_api import Page, ViewportSize, sync_playwright

from batchcook.cli.main import app
from batchcook.plan import Plan, read_plan

__all__ = [
    "README",
    "ROOT",
    "SAMPLES",
    "TERMINAL",
    "command_reference",
    "make_samples",
    "printed",
    "with_reference",
]

ROOT = Path(__file__).parent.parent
SAMPLES = ROOT / "output_samples"
README = ROOT / "README.md"

_MARKS = re.compile(r"(<!-- commands -->\n).*?(<!-- end -->)", re.DOTALL)

_MEASURED = Path("pictures") / "solve-time.png"
"""Made by a benchmark, ``tests/benchmarks/prep_day_speed.py --picture``, and kept."""

_TABLET: ViewportSize = {"width": 1024, "height": 768}
_INTO_THE_DAY = dt.timedelta(minutes=70)

TERMINAL = {
    "recipes-list.txt": ["recipes", "list"],
    "recipes-show.txt": ["recipes", "show", "cottage-pie", "--batches", "2"],
    "recipes-check.txt": ["recipes", "check"],
    "kitchen-show.txt": ["kitchen", "show"],
}


def make_samples(folder: Path) -> None:
    """Write the sample prep day's plan folder, and what the commands print, into ``folder``."""
    folder.mkdir(parents=True, exist_ok=True)
    plan = ["plan", "recipes/sample-prep-day.toml", "--seconds", "120", "--out"]
    told = printed([*plan, str(folder / "prep-day")])
    (folder / "plan.txt").write_text(told.split("Written to ")[0], "utf-8")
    for name, words in TERMINAL.items():
        (folder / name).write_text(printed(words), "utf-8")
    _pictures(folder)
    _screen(folder)


def _screen(folder: Path) -> None:
    """The kitchen screen in the midst of the day, for the README; needs Chromium."""
    plan = read_plan(folder / "prep-day")
    here = dt.datetime.now().astimezone().tzinfo
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"))
        page = browser.new_page(viewport=_TABLET)
        page.clock.install(time=plan.start.replace(tzinfo=here))
        page.goto((folder / "prep-day" / "kitchen-screen.html").as_uri())
        page.get_by_role("button", name="Begin the day").click()
        _go_on(page, plan, plan.start + _INTO_THE_DAY)
        page.evaluate("scrollTo(0, 0)")
        page.screenshot(path=folder / "pictures" / "kitchen-screen.png")
        browser.close()


def _go_on(page: Page, plan: Plan, until: dt.datetime) -> None:
    """Mark what the cooks do as done, as planned."""
    names = {cook.id: cook.name for cook in plan.cooks}
    now = plan.start
    for task in sorted(plan.tasks, key=lambda each: each.end):
        if task.cook is None or task.end > until:
            continue
        page.clock.run_for(round((task.end - now).total_seconds() * 1000) + 1000)
        now = task.end + dt.timedelta(seconds=1)
        whose = page.get_by_role("article", name=names[task.cook], exact=True)
        whose.get_by_role("button", name="Done", exact=True).click()
    page.clock.run_for(max(0, round((until - now).total_seconds() * 1000)))


def _pictures(folder: Path) -> None:
    """Pages of the PDFs as pictures, for the README; needs pdftoppm from poppler."""
    made = folder / "pictures"
    made.mkdir()
    program = shutil.which("pdftoppm") or "pdftoppm"
    for name, last in (("run-sheet", 2), ("labels", 1), ("shopping-list", 1)):
        source = folder / "prep-day" / f"{name}.pdf"
        for page in range(1, last + 1):
            only = ["-png", "-r", "70", "-f", str(page), "-l", str(page), "-singlefile"]
            picture = made / f"{name}-{page}"
            subprocess.run([program, *only, str(source), str(picture)], check=True)


def printed(words: list[str]) -> str:
    """What a command prints, at a fixed width and without colour."""
    done = subprocess.run(
        [sys.executable, "-m", "batchcook", *words],
        cwd=ROOT,
        env={"COLUMNS": "100", "NO_COLOR": "1", "PATH": "/usr/bin:/bin", "LANG": "C.UTF-8"},
        capture_output=True,
        text=True,
        check=True,
    )
    return done.stdout


def command_reference() -> str:
    """Every command with what it does, a line each, as a table in Markdown."""
    root = typer.main.get_command(app)
    lines = ["| command | what it does |", "| --- | --- |"]
    for name, command in _commands(root, "batchcook"):
        told = " ".join((command.help or "").strip().split("\n\n")[0].split())
        lines.append(f"| `{_usage(name, command)}` | {told} |")
    return "\n".join(["", *lines, ""])


def _commands(
    command: Any,  # noqa: ANN401 - typer brings its own copy of click, unnamed in its interface
    name: str,
) -> list[tuple[str, Any]]:
    """A command and all below it that do something."""
    if hasattr(command, "commands"):
        return [
            each
            for below, inner in command.commands.items()
            if not inner.hidden
            for each in _commands(inner, f"{name} {below}")
        ]
    return [(name, command)]


def _usage(name: str, command: Any) -> str:  # noqa: ANN401 - the same
    """The command with its arguments."""
    arguments = [
        (each.metavar or str(each.name)).upper().replace("|", "\\|")
        for each in command.params
        if each.param_type_name == "argument"
    ]
    return " ".join([name, *arguments])


def with_reference(readme: str) -> str:
    """The README with its list of commands made anew."""
    return _MARKS.sub(lambda found: f"{found[1]}\n{command_reference()}\n{found[2]}", readme)


def main() -> None:
    """Make both anew."""
    with tempfile.TemporaryDirectory() as scratch:
        made = Path(scratch) / "samples"
        make_samples(made)
        shutil.copy(SAMPLES / _MEASURED, made / _MEASURED)
        shutil.rmtree(SAMPLES, ignore_errors=True)
        shutil.copytree(made, SAMPLES)
    README.write_text(with_reference(README.read_text("utf-8")), "utf-8")


if __name__ == "__main__":
    main()
