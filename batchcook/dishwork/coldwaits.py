"""What is mixed or shaped cold waits in the refrigerator until the step that takes it.

Nothing warm is in it yet, so it goes back as cold as it came out. Common practice of cooks who
make more than one panful; a mixture with something hot in it would have to be cooled first.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from batchcook.cookbooks.recipe import Recipe, Step
from batchcook.dishwork.draft import Draft
from batchcook.dishwork.keephot import with_words
from batchcook.dishwork.streams import cold_once_handled
from batchcook.foods import load_foods
from batchcook.kitchens.techniques import load_techniques

__all__ = ["cold_waits", "say_cold_waits"]

_BACK = "What does not go on at once: covered, into the refrigerator."
_SHARE = "Take only this load's share out of the refrigerator."
_FETCH = "Fetch from the refrigerator what waits there."


def cold_waits(recipe: Recipe) -> frozenset[str]:
    """The steps whose outcome waits in the refrigerator for a further one.

    Args:
        recipe: The recipe.
    """
    followed = {before for step in recipe.steps for before in step.after}
    return frozenset(
        step.name
        for step in recipe.steps
        if step.name in followed and _cold(recipe, step) and _perishable(recipe, step)
    )


def say_cold_waits(draft: Draft) -> None:
    """Tell it where such a step ends, and where what waits is taken on."""
    waits = cold_waits(draft.recipe)
    for step in draft.order:
        if step.name in waits:
            with_words(draft, draft.ready[step.name], _BACK)
        if waits & set(step.after):
            lots = step.name in draft.lots and step.name not in draft.heat
            several = lots and len(draft.entry[step.name]) > 1
            _first_of_all(draft, draft.entry[step.name], _SHARE if several else _FETCH)


def _first_of_all(draft: Draft, jobs: Iterable[str], words: str) -> None:
    """Put a sentence before what the cook reads at these jobs."""
    wanted = set(jobs)
    draft.jobs[:] = [
        replace(job, words=f"{words} {job.words}".strip()) if job.id in wanted else job
        for job in draft.jobs
    ]


def _cold(recipe: Recipe, step: Step) -> bool:
    """Whether a step is work by hand on what has not been warmed."""
    technique = load_techniques()[step.technique]
    return (
        not technique.timed
        and not technique.per_load
        and "hot pans" not in technique.skills
        and all(_cold(recipe, recipe.step(before)) for before in step.after)
    )


def _perishable(recipe: Recipe, step: Step) -> bool:
    """Whether anything in it has to be kept cold."""
    foods = load_foods()
    return any(
        cold_once_handled(foods[recipe.ingredient(name).food].kind) for name in step.takes
    ) or any(_perishable(recipe, recipe.step(before)) for before in step.after)
