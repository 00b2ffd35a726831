"""What could have been done together and is not, and why, in the words of the run sheet."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from batchcook import plan
from batchcook.dishwork.work import Job, Work

__all__ = ["kept_apart"]

_IN: Final = {"skillet": "skillet", "pot": "pot"}


def kept_apart(work: Work, taken: Mapping[str, str], *, proved: bool) -> tuple[plan.Apart, ...]:
    """Browning, boiling and softening that some dishes do by themselves though they could share.

    Args:
        work: All the work of the day.
        taken: Choice to the option taken.
        proved: Whether the day is proved shortest with the fewest hands-on minutes.
    """
    found = []
    for choice in work.choices.values():
        option = taken.get(choice.id)
        together: dict[str, tuple[Job, bool]] = {}
        for job in work.jobs:
            options = next((each.options for each in job.when if each.choice == choice.id), None)
            if options is not None and len(job.dishes) > 1:
                together[job.id] = (job, option in options)
        alone = {dish for job, _ in together.values() for dish in job.dishes}
        alone -= {dish for job, done in together.values() if done for dish in job.dishes}
        if alone:
            named = next(
                job for job, _ in together.values() if job.family and alone & job.dishes.keys()
            )
            dishes = tuple(dict.fromkeys(d for j in work.jobs for d in j.dishes if d in alone))
            found.append(plan.Apart(dishes=dishes, words=_words(named, proved=proved)))
    return tuple(found)


def _words(job: Job, *, proved: bool) -> str:
    """What is done apart, in what, and why."""
    what = str(job.family).replace("-", " ")
    why = (
        "together the day would be longer, or take more work, or keep food waiting too long"
        if proved
        else "no better day was found with them together"
    )
    vessel = _IN.get(job.station, "place")
    return f"{what[0].upper()}{what[1:]}: each in its own {vessel}, because {why}."
