"""The work that no recipe names and every prep day has: before, around and after the cooking."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from batchcook.dishwork.work import CLOSING, Job, Link, Work
from batchcook.kitchens.techniques import load_routines
from batchcook.quantities import ureg

__all__ = ["with_day_work"]


def with_day_work(work: Work, containers: int, rinse_grams: Mapping[str, float]) -> Work:
    """The dishes' work between setting up and closing down.

    Args:
        work: All dishes.
        containers: How many labels there are to stick.
        rinse_grams: Weight of vegetables to rinse for each dish, in grams.
    """
    routines = load_routines()
    total = ureg.Quantity(sum(rinse_grams.values()), "gram")
    clear = _job("clear", routines["clear"].title, routines["clear"].minutes(), "Set up")
    rinse = _job("rinse", routines["rinse"].title, routines["rinse"].minutes(weight=total), "Rinse")
    stick = _job(
        "stick-labels",
        f"{routines['stick-labels'].title} ({containers} labels)",
        routines["stick-labels"].minutes(containers=containers),
        "Labels",
    )
    closing = routines["cleanup"]
    cleanup = replace(_job("cleanup", closing.title, closing.minutes(), "Close down"), id=CLOSING)
    # A job that may be left out holds nothing back, so it stands for no other at either end.
    sure = {job.id for job in work.jobs if not job.when}
    waiting = {link.after for link in work.links if link.low is not None and link.before in sure}
    leading = {link.before for link in work.links if link.low is not None and link.after in sure}
    links = [Link(clear.id, rinse.id), Link(clear.id, stick.id)]
    links += [Link(rinse.id, cleanup.id), Link(stick.id, cleanup.id)]
    for job in work.jobs:
        if job.id not in waiting:
            produce = job.uses.get("board:produce") or not job.uses.get("board:raw")
            links.append(Link(rinse.id if produce else clear.id, job.id))
        if job.technique == "portion":
            links.append(Link(stick.id, job.id))
        if job.family is not None:
            # Its last part is cleaned down after; that too comes before closing down.
            links.append(Link(job.id, cleanup.id, low=work.families[job.family].clean_down))
        elif job.id not in leading:
            links.append(Link(job.id, cleanup.id))
    return Work(
        (clear, rinse, stick, *work.jobs, cleanup),
        (*work.links, *links),
        work.keeps,
        work.streams,
        work.families,
        work.choices,
        baths=work.baths,
    )


def _job(name: str, title: str, minutes: int, label: str) -> Job:
    return Job(
        id=f"day/{name}",
        title=title,
        technique=name,
        minutes=minutes,
        hands=frozenset(),
        station="counter",
        label=label,
    )
