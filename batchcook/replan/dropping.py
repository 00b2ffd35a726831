"""The work of a day without the dishes that are given up on the way."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace

from batchcook.dishwork.chilling import ICE_BATH
from batchcook.dishwork.work import CLOSING, Job, Keep, Link, Work
from batchcook.replan.sharedpots import kept_for_others, still_needed, without_ways

__all__ = ["clearing_job", "without_dishes"]

_CLEARING_MINUTES = 10
"""To put away what there is of a dish and wash what it was in: common practice, no source."""

_LET_GO = {"burner", ICE_BATH}
"""Free as soon as a dish is given up; a vessel has to be washed first."""

_SOON = 5
"""Weight of each minute that what was given up stands about."""


def clearing_job(dish: str) -> str:
    """The id of the job that puts away what there is of a dish."""
    return f"{dish}/put-away"


def without_dishes(work: Work, dropped: Mapping[str, str], begun: Collection[str]) -> Work:
    """What is left of the work; what has begun stays, and what is dirty or out is put away.

    What becomes of the food of a dropped dish is told, not scheduled: it is to happen at once.

    Args:
        work: All the work of the day.
        dropped: The dishes given up, each with its title.
        begun: Jobs that have begun.
    """
    if not dropped:
        return work
    work = without_ways(work, dropped, begun)
    by_id = {job.id: job for job in work.jobs}
    gone = {
        job.id
        for job in work.jobs
        if job.dishes and set(job.dishes) <= set(dropped) and job.id not in begun
    }
    needed = still_needed(work, gone, dropped)
    gone -= needed.keys()
    clearing = [
        _clearing(dish, title)
        for dish, title in dropped.items()
        if any(dish in job.dishes and job.id in begun for job in work.jobs)
    ]
    jobs = tuple(
        replace(_relieved(job, dropped), when=job.when + needed.get(job.id, ()))
        for job in work.jobs
        if job.id not in gone
    )
    kept = Work(
        (*jobs, *clearing),
        (
            *(link for link in work.links if not {link.before, link.after} & gone),
            *_soon(work, clearing, begun),
        ),
        tuple(keep for each in work.keeps for keep in _keeps(each, by_id, gone, begun, dropped)),
        tuple(each for each in work.streams if each.dish not in dropped),
        work.families,
        work.choices,
        baths=work.baths,
    )
    return replace(kept, links=(*kept.links, *_last_of_all(kept)))


def _relieved(job: Job, dropped: Mapping[str, str]) -> Job:
    """A job that served a dropped dish too, without it."""
    if not set(job.dishes) & set(dropped) or set(job.dishes) <= set(dropped):
        return job
    return replace(
        job, dishes={dish: job.dishes[dish] for dish in job.dishes if dish not in dropped}
    )


def _clearing(dish: str, title: str) -> Job:
    return Job(
        id=clearing_job(dish),
        title=f"Put away or throw out what there is of {title}, wash up after it",
        technique="wash",
        minutes=_CLEARING_MINUTES,
        hands=frozenset(),
        station="sink",
        label="Put away",
        dishes={dish: ""},
        words="What was out of the refrigerator too long is thrown out.",
    )


def _keeps(
    keep: Keep,
    jobs: Mapping[str, Job],
    gone: Collection[str],
    begun: Collection[str],
    dropped: Collection[str],
) -> tuple[Keep, ...]:
    """A vessel of a dropped dish is kept until it is put away, if it is in use at all.

    What it is shared with goes on in it.
    """
    used = any(filler in begun for filler in keep.fillers)
    fillers = tuple(filler for filler in keep.fillers if filler not in gone)
    dish = next((dish for dish in dropped if keep.id.startswith(f"{dish}/")), None)
    if dish is None or keep.until not in {*gone, CLOSING}:
        return (replace(keep, fillers=fillers),) if fillers else ()
    if shared := kept_for_others(keep, jobs, gone, dropped):
        return shared
    if not used or all(option.keys() <= _LET_GO for option in keep.options):
        return ()
    return (replace(keep, fillers=fillers, until=clearing_job(dish)),)


def _soon(work: Work, clearing: Collection[Job], begun: Collection[str]) -> list[Link]:
    """A dish is put away as soon as there are hands."""
    return [
        link
        for each in clearing
        for link in [
            Link(job.id, each.id, origin="start", weight=_SOON)
            for job in work.jobs
            if job.id in begun and set(job.dishes) & set(each.dishes)
        ][:1]
    ]


def _last_of_all(work: Work) -> list[Link]:
    """Closing down still comes after everything else."""
    leading = {link.before for link in work.links if link.low is not None}
    return [
        Link(job.id, CLOSING)
        for job in work.jobs
        if job.id not in leading and job.id != CLOSING and not job.when
    ]
