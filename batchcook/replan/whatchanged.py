"""What a new plan for the rest of the day does otherwise than the one before."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from datetime import timedelta

from batchcook.plan import Change, Cook, Plan, Task

__all__ = ["changes", "with_notes"]

_WORTH_SAYING = timedelta(minutes=2)
"""A task that moves by less is where it was."""


def changes(
    before: Plan, tasks: Iterable[Task], cooks: Iterable[Cook], begun: Collection[str]
) -> tuple[Change, ...]:
    """Every task that is earlier, later, another cook's, new or no more; in order of time.

    Args:
        before: The plan before.
        tasks: The new plan's tasks.
        cooks: Who cooks, for their names.
        begun: Tasks that had begun, which cannot change any more.
    """
    old = {task.id: task for task in before.tasks}
    names = {cook.id: cook.name for cook in cooks}
    found = []
    listed = set()
    for task in tasks:
        listed.add(task.id)
        if task.id in begun:
            continue
        change = _change(old.get(task.id), task, names)
        if change is not None:
            found.append((task.start, change))
    for task in before.tasks:
        if task.id not in listed and task.id not in begun:
            words = f"no more: it was to begin at {task.start:%H:%M}"
            found.append((task.start, _as(task, "dropped", words)))
    return tuple(change for _, change in sorted(found, key=lambda each: (each[0], each[1].task)))


def _change(old: Task | None, new: Task, names: Mapping[str, str]) -> Change | None:
    """How one task differs, or None where it does not."""
    if old is None:
        return _as(new, "new", f"new, at {new.start:%H:%M}")
    moved = new.start - old.start
    said = []
    if abs(moved) >= _WORTH_SAYING:
        said.append(f"{new.start:%H:%M} instead of {old.start:%H:%M}")
    other = new.cook != old.cook and new.cook is not None and old.cook is not None
    if other:
        said.append(f"{names.get(str(new.cook))} instead of {names.get(str(old.cook))}")
    if not said:
        return None
    words = ", ".join(said)
    if abs(moved) >= _WORTH_SAYING:
        return _as(new, "later" if moved > timedelta() else "earlier", words)
    return _as(new, "other cook", words)


def _as(task: Task, kind: str, words: str) -> Change:
    return Change.model_validate(
        {
            "task": task.id,
            "kind": kind,
            "title": task.title,
            "words": words,
            "dishes": tuple(task.dishes),
        }
    )


def with_notes(tasks: Iterable[Task], changed: Iterable[Change]) -> tuple[Task, ...]:
    """The tasks with what changed before the words that the cook reads."""
    said = {each.task: each.words for each in changed if each.kind != "dropped"}
    return tuple(
        task.model_copy(update={"words": f"Changed: {said[task.id]}. {task.words}".rstrip()})
        if task.id in said
        else task
        for task in tasks
    )
