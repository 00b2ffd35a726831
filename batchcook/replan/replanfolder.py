"""A plan folder after the rest of its day was planned anew."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from datetime import datetime
from pathlib import Path

from batchcook.complaints import Complaint, InputFault
from batchcook.documents.pdf import check_paper
from batchcook.documents.render import PdfUnavailable, documents
from batchcook.filelock import held
from batchcook.folder import write_folder
from batchcook.plan import Occupancy, Plan, Task, write_plan
from batchcook.plans.dayfolder import PLAN_FILE, name_of_plan_before, write_day
from batchcook.plans.progress import FILE, Mark, with_marks

__all__ = ["paper_view", "write_replanned"]


def write_replanned(
    source: Path, target: Path, before: Plan, after: Plan, marks: Sequence[Mark], paper: str
) -> tuple[str, ...]:
    """Write the new plan with its papers; the plan before it is kept beside it.

    Args:
        source: The folder of the plan so far.
        target: The folder to write, which may be the same; what was followed of another plan in
            it is set aside.
        before: The plan so far.
        after: The new plan.
        marks: What was said to be done or running, to be kept as progress.
        paper: letter or a4; that of the plan so far where it is empty.

    Returns:
        The names of the files written.

    Raises:
        InputFault: The folder cannot be written; it is as it was.
        PdfUnavailable: Pango is missing; everything else is written.
    """
    paper = paper or before.paper
    check_paper(paper)
    after = after.model_copy(update={"paper": paper})
    at = before.finish if after.replanned is None else after.replanned.at
    files = {
        name_of_plan_before(source, at): write_plan(before).encode(),
    }
    missing: PdfUnavailable | None = None
    try:
        files |= documents(after, paper, on_paper=paper_view(after))
    except PdfUnavailable as fault:
        files |= fault.without_pdf
        missing = fault
    with held(source):  # a screen that follows the day may be marking meanwhile
        progress = with_marks(_progress(source), marks)
        if progress and (marks or source != target):
            files[FILE] = progress
        files[PLAN_FILE] = write_plan(after).encode()
        if source == target:
            write_folder(target, files)
        else:
            write_day(target, files)
    if missing is not None:
        raise missing
    return tuple(sorted(files))


def _progress(folder: Path) -> bytes:
    """What is kept of the day so far."""
    try:
        return (folder / FILE).read_bytes()
    except FileNotFoundError:
        return b""
    except OSError as fault:
        what = f"cannot be read ({fault.strerror})"
        raise InputFault(Complaint(str(folder / FILE), what, "the progress of a plan")) from None


def paper_view(plan: Plan) -> Plan:
    """The plan as it hangs on the cupboard from now on: what is over is left out.

    The clock of food that is out already is told by its deadline alone, which knows its past.
    """
    if plan.replanned is None:
        return plan
    at = plan.replanned.at
    tasks = tuple(_from(task, at) for task in plan.tasks if task.end > at)
    listed = {task.id for task in tasks}
    old = {(each.dish, each.food) for each in plan.events if each.task not in listed}
    shared = tuple(
        run.model_copy(
            update={
                "start": max(run.start, at),
                "bowls": tuple(bowl for bowl in run.bowls if bowl.task in listed),
            }
        )
        for run in plan.shared
        if run.end > at
    )
    return plan.model_copy(
        update={
            "start": at,
            "tasks": tasks,
            "shared": tuple(run for run in shared if run.bowls),
            "lags": tuple(each for each in plan.lags if {each.before, each.after} <= listed),
            "budgets": (),
            "occupancies": tuple(_held(plan, listed)),
            "settings": tuple(each for each in plan.settings if each.task in listed),
            "events": tuple(each for each in plan.events if (each.dish, each.food) not in old),
            "deadlines": tuple(each for each in plan.deadlines if each.task in listed),
            "day_before": (),
        }
    )


def _from(task: Task, at: datetime) -> Task:
    """What is left of a task; what goes by itself says that it is on already."""
    if task.start >= at:
        return task
    title = task.title if task.cook is not None else f"{task.title}, on since {task.start:%H:%M}"
    return task.model_copy(update={"start": at, "title": title})


def _held(plan: Plan, listed: Collection[str]) -> Iterator[Occupancy]:
    """What is kept until a task to come, from that task on where it was taken before."""
    for each in plan.occupancies:
        if each.from_task in listed and each.to_task in listed:
            yield each
        elif each.to_task in listed:
            yield each.model_copy(update={"from_task": each.to_task})
