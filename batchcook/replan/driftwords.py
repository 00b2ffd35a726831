"""What the words of ``replan`` say about the day."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.kitchens.written import parse_clock
from batchcook.plan import Plan
from batchcook.plans.progress import DayState, Mark, read_marks, state_of
from batchcook.replan.daysofar import as_planned, but_for
from batchcook.replan.replanning import Drift
from batchcook.wholenumbers import whole_number

__all__ = ["Words", "drift_of"]


@dataclass(frozen=True)
class Words:
    """The command's options as they were written."""

    at: str
    done: Sequence[str]
    running: Sequence[str]
    without: Sequence[str]
    drop: Sequence[str]
    as_planned: bool = False


def drift_of(plan: Plan, folder: Path, words: Words) -> tuple[Drift, tuple[Mark, ...]]:
    """What is not as planned, and the marks to keep of it.

    Args:
        plan: The plan.
        folder: Where its progress is kept.
        words: What the command line said.

    Raises:
        InputFault: With everything that cannot be read.
    """
    at = dt.datetime.combine(plan.date, parse_clock(words.at, "--at"))
    complaints: list[Complaint] = []
    marks = [
        *_marks(plan, "start", words.running, at, complaints),
        *_marks(plan, "done", words.done, at, complaints),
    ]
    without, cooks = _missing(plan, words.without, complaints)
    if complaints:
        raise InputFault(complaints)
    kept = read_marks(folder, plan.date)
    state: DayState | None = state_of([*kept, *marks]) if kept or marks else None
    if state is not None and words.as_planned:
        state = but_for(plan, as_planned(plan, at), state)
    return Drift(at, state, without, cooks, tuple(words.drop)), tuple(marks)


def _marks(
    plan: Plan, kind: str, words: Sequence[str], at: dt.datetime, complaints: list[Complaint]
) -> list[Mark]:
    """A mark for each task named; without a time as planned, but not later than now."""
    option = "--done" if kind == "done" else "--running"
    tasks = {task.id: task for task in plan.tasks}
    found = []
    for word in words:
        name, _, time = (word, "", "") if word in tasks else word.rpartition("=")
        if name not in tasks:
            name = name or word
            complaints.append(
                Complaint(
                    option,
                    f"{name!r} is no task",
                    "a task's id, as in plan.json",
                    nearest(name, tasks),
                )
            )
            continue
        planned = tasks[name].end if kind == "done" else tasks[name].start
        try:
            clock = parse_clock(time.removeprefix("started ").strip(), option) if time else None
        except InputFault as fault:
            complaints += fault.complaints
            continue
        when = min(planned, at) if clock is None else dt.datetime.combine(plan.date, clock)
        found.append(
            Mark("done" if kind == "done" else "start", when, name, supposed=clock is None)
        )
    return found


def _missing(
    plan: Plan, words: Sequence[str], complaints: list[Complaint]
) -> tuple[Mapping[str, int], tuple[str, ...]]:
    """Resources with what is missing of them, and the cooks who are gone."""
    without: dict[str, int] = {}
    cooks: list[str] = []
    for word in words:
        name, _, rest = word.partition("=")
        if name == "cook":
            cooks += _cook(plan, rest, complaints)
            continue
        resources = [each for each in plan.resources if _is_called(each.id, name)]
        if len(resources) != 1:
            known = [each.id for each in plan.resources if not each.id.startswith("cook:")]
            expected = "burner=1 or the like, of " + ", ".join(known)
            complaints.append(
                Complaint("--without", f"{word!r} is not there", expected, nearest(name, known))
            )
            continue
        (there,) = resources
        count = whole_number(rest) or 0 if rest else there.capacity
        if not 1 <= count <= there.capacity:
            what = f"{rest!r} of {there.id} cannot be missing"
            expected = f"a number from 1 to {there.capacity}"
            complaints.append(Complaint("--without", what, expected))
            continue
        without[there.id] = count
    return without, tuple(cooks)


def _is_called(resource: str, name: str) -> bool:
    """By its whole id, or by its kind where there is one of that kind."""
    return resource == name or resource.partition(":")[0] == name


def _cook(plan: Plan, name: str, complaints: list[Complaint]) -> list[str]:
    found = [each.id for each in plan.cooks if name.lower() in {each.id, each.name.lower()}]
    if not found:
        names = [each.name for each in plan.cooks]
        what = f"no cook is called {name!r}"
        complaints.append(
            Complaint("--without", what, "one of " + ", ".join(names), nearest(name, names))
        )
    return found
