"""What stays on the heat until its next step says so, and how hot it is kept.

The clock of food out of refrigeration stands still while food is on heat, so every job whose
outcome waits there tells the cook to leave it there: a minute that nobody was told to keep hot is
not one to count as hot.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from batchcook.dishwork.draft import Draft
from batchcook.foodsafety.limits import KEPT_HOT

__all__ = ["IN_THE_COOKER", "ON_LOW", "say_keep_hot", "with_words"]

ON_LOW = f"Then on low heat, {KEPT_HOT}, until the next step."
"""What a cook reads whose outcome waits in its pot; right after work off the heat as well."""

IN_THE_COOKER = f"Then lid on, on low or warm, {KEPT_HOT}, until the next step."
"""The same for a slow cooker, whose warm setting is for what is cooked through."""


def say_keep_hot(draft: Draft) -> None:
    """Add it to all work whose outcome stays in its pot, on heat, for a further step.

    The end of the last simmer waits so for its tasting, and a slow cooker to be emptied.
    """
    followed = {before for step in draft.order for before in step.after}
    on_low = {
        job
        for step in draft.order
        if _waits_in_its_pot(draft, step.name)
        or (step.technique == "simmer" and step.name not in followed)
        for job in draft.ready[step.name]
    }
    kept = {
        job
        for step in draft.order
        if step.name in draft.heat and draft.heat[step.name].held_hot
        for job in draft.ready[step.name]
    }
    with_words(draft, on_low, ON_LOW)
    with_words(draft, kept - on_low, IN_THE_COOKER)


def with_words(draft: Draft, jobs: Iterable[str], words: str) -> None:
    """Add a sentence to what the cook reads at these jobs."""
    wanted = set(jobs)
    draft.jobs[:] = [
        replace(job, words=f"{_stopped(job.words)} {words}".strip()) if job.id in wanted else job
        for job in draft.jobs
    ]


def _stopped(words: str) -> str:
    return words if not words or words.endswith((".", "!")) else f"{words}."


def _waits_in_its_pot(draft: Draft, name: str) -> bool:
    """Whether a step's food goes on to a further one in its vessel without leaving the heat."""
    heat = draft.heat.get(name)
    if heat is None or heat.vessel is None:
        return False
    return any(
        name in step.after
        and step.name in draft.heat
        and draft.heat[step.name].vessel == heat.vessel
        for step in draft.order
    )
