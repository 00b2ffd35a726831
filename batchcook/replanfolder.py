"""A plan folder after the rest of its day was planned anew."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from batchcook.documents.render import PdfUnavailable, documents
from batchcook.folder import write_folder
from batchcook.plan import Plan, write_plan
from batchcook.progress import FILE, Mark, append_marks

__all__ = ["paper_view", "write_replanned"]


def write_replanned(
    source: Path, target: Path, before: Plan, after: Plan, marks: Sequence[Mark], paper: str
) -> tuple[str, ...]:
    """Write the new plan with its papers; the plan before it is kept beside it.

    Args:
        source: The folder of the plan so far.
        target: The folder to write, which may be the same.
        before: The plan so far.
        after: The new plan.
        marks: What was said to be done or running, to be kept as progress.
        paper: letter or a4.

    Returns:
        The names of the files written.

    Raises:
        InputFault: The folder cannot be written.
        PdfUnavailable: Pango is missing; everything else is written.
    """
    at = before.finish if after.replanned is None else after.replanned.at
    files = {
        "plan.json": write_plan(after).encode(),
        f"plan-before-{at:%H%M}.json": write_plan(before).encode(),
    }
    if source != target and (source / FILE).exists():
        files[FILE] = (source / FILE).read_bytes()
    missing: PdfUnavailable | None = None
    try:
        files |= documents(paper_view(after), paper)
    except PdfUnavailable as fault:
        files |= fault.without_pdf
        missing = fault
    write_folder(target, files)
    append_marks(target, marks)
    if missing is not None:
        raise missing
    return tuple(sorted(files))


def paper_view(plan: Plan) -> Plan:
    """The plan as it hangs on the cupboard from now on: what is over is left out."""
    if plan.replanned is None:
        return plan
    at = plan.replanned.at
    tasks = tuple(task for task in plan.tasks if task.end > at)
    listed = {task.id for task in tasks}
    shared = tuple(
        run.model_copy(update={"bowls": tuple(b for b in run.bowls if b.task in listed)})
        for run in plan.shared
        if run.end > at
    )
    return plan.model_copy(
        update={
            "start": at,
            "tasks": tasks,
            "shared": tuple(run for run in shared if run.bowls),
            "occupancies": tuple(
                each for each in plan.occupancies if {each.from_task, each.to_task} <= listed
            ),
            "day_before": (),
        }
    )
