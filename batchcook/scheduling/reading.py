"""Reads published scheduling problems: PSPLIB single-mode files and job shops."""

from __future__ import annotations

from itertools import pairwise

from batchcook.scheduling.problem import Lag, Mode, Problem, Resource, Task

__all__ = ["read_job_shop", "read_psplib"]


def read_psplib(text: str) -> Problem:
    """Read a PSPLIB single-mode RCPSP file (``.sm``).

    Args:
        text: The file's text. The format is that of Kolisch and Sprecher, European Journal of
            Operational Research 96 (1997) 205-216.

    Returns:
        The problem; tasks and resources are named by the file's numbers.

    Raises:
        ValueError: If the text lacks a section or a number.
    """
    lines = text.splitlines()
    precedences = _rows(lines, "PRECEDENCE RELATIONS:", 2)
    requests = _rows(lines, "REQUESTS/DURATIONS:", 3)
    capacities = _rows(lines, "RESOURCEAVAILABILITIES:", 2)[0]
    resources = {
        str(place): Resource(str(place), capacity)
        for place, capacity in enumerate(capacities, start=1)
    }
    tasks = {str(row[0]): Task(str(row[0]), (_mode(row[2], row[3:]),)) for row in requests}
    lags = tuple(
        Lag(str(row[0]), "end", str(successor), "start")
        for row in precedences
        for successor in row[3:]
    )
    horizon = sum(row[2] for row in requests)
    return Problem(resources=resources, tasks=tasks, horizon=horizon, lags=lags)


def _rows(lines: list[str], heading: str, skip: int) -> list[list[int]]:
    """The rows of numbers from ``skip`` lines after a heading up to the next rule of stars."""
    if heading not in lines:
        raise ValueError(f"no section {heading!r}")
    first = lines.index(heading) + skip
    rows = []
    for line in lines[first:]:
        if line.startswith("*"):
            break
        if line.strip() and not line.startswith("-"):
            rows.append([int(word) for word in line.split()])
    if not rows:
        raise ValueError(f"section {heading!r} is empty")
    return rows


def _mode(duration: int, amounts: list[int]) -> Mode:
    demands = {str(place): amount for place, amount in enumerate(amounts, start=1) if amount}
    return Mode("1", duration, demands)


def read_job_shop(text: str) -> Problem:
    """Read a job shop: a line ``jobs machines``, then a line a job of machine and duration pairs.

    Raises:
        ValueError: If the numbers are not as many as the first line says.
    """
    rows = [[int(word) for word in line.split()] for line in text.splitlines() if line.strip()]
    jobs, machines = rows[0]
    if len(rows) != jobs + 1 or any(len(row) != 2 * machines for row in rows[1:]):
        raise ValueError(f"expected {jobs} jobs of {machines} operations")
    tasks = {}
    lags = []
    for job, row in enumerate(rows[1:], start=1):
        names = [f"{job}.{step}" for step in range(1, machines + 1)]
        for name, machine, duration in zip(names, row[::2], row[1::2], strict=True):
            tasks[name] = Task(name, (Mode("1", duration, {str(machine): 1}),))
        lags += [Lag(one, "end", other, "start") for one, other in pairwise(names)]
    return Problem(
        resources={str(machine): Resource(str(machine), 1) for machine in range(machines)},
        tasks=tasks,
        horizon=sum(sum(row[1::2]) for row in rows[1:]),
        lags=tuple(lags),
    )
