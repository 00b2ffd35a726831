"""What dishes share, when one of them is given up: the others go on without it.

What has not begun is not shared with it any more. Where it has, the others need its pot all the
same.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Mapping
from dataclasses import replace

from batchcook.dishwork.work import Job, Keep, Work
from batchcook.plan import Plan
from batchcook.scheduling.problem import Condition

__all__ = ["kept_for_others", "leads_to_shared", "still_needed", "without_ways"]


def without_ways(work: Work, dropped: Collection[str], begun: Collection[str]) -> Work:
    """The work without the ways to share with dishes that are given up.

    Of a choice that something begun depends on, what goes with that is left.

    Args:
        work: All the work of the day.
        dropped: The dishes given up.
        begun: Jobs that have begun.
    """
    begun_as: dict[str, set[str]] = {}
    for job in work.jobs:
        for each in job.when if job.id in begun else ():
            begun_as.setdefault(each.choice, set(each.options)).intersection_update(each.options)
    out: dict[str, set[str]] = defaultdict(set)
    for choice, options in begun_as.items():
        out[choice] = set(work.choices[choice].options) - options
    for job in work.jobs:
        if set(job.dishes) & set(dropped) and set(job.dishes) - set(dropped):
            for each in job.when:
                if each.choice not in begun_as:
                    out[each.choice] |= each.options

    def left(conditions: tuple[Condition, ...]) -> tuple[Condition, ...]:
        return tuple(
            replace(each, options=each.options - out.get(each.choice, set())) for each in conditions
        )

    def open_(conditions: tuple[Condition, ...]) -> bool:
        return all(each.options for each in conditions)

    jobs = [replace(job, when=left(job.when)) for job in work.jobs]
    shut = {job.id for job in jobs if not open_(job.when)}
    return replace(
        work,
        jobs=tuple(job for job in jobs if job.id not in shut),
        links=tuple(
            replace(link, when=left(link.when))
            for link in work.links
            if not {link.before, link.after} & shut and open_(left(link.when))
        ),
        keeps=tuple(
            replace(keep, when=left(keep.when), fillers=fillers)
            for keep in work.keeps
            if open_(left(keep.when))
            and (fillers := tuple(each for each in keep.fillers if each not in shut))
        ),
        streams=tuple(
            each for each in work.streams if not any(moment.job in shut for moment in each.moments)
        ),
        choices={
            name: replace(
                choice,
                options=tuple(each for each in choice.options if each not in out.get(name, ())),
            )
            for name, choice in work.choices.items()
        },
    )


def still_needed(
    work: Work, gone: Collection[str], dropped: Collection[str]
) -> Mapping[str, tuple[Condition, ...]]:
    """Jobs of dropped dishes that the others cannot do without, with when they are done.

    What comes before a shared job in the same pot, such as bringing its water to the boil, and
    the washing of that pot.

    Args:
        work: All the work of the day.
        gone: Jobs that serve dropped dishes only.
        dropped: The dishes given up.
    """
    jobs = {job.id: job for job in work.jobs}
    options: dict[str, dict[str, set[str]]] = defaultdict(lambda: defaultdict(set))
    for keep in work.keeps:
        shared = _shared(keep, jobs, gone, dropped)
        if not shared:
            continue
        conditions = keep.when or [each for id_ in shared for each in jobs[id_].when]
        needed = _before(work, shared, set(keep.fillers) & set(gone))
        if keep.until in gone and jobs[keep.until].technique == "wash":
            needed.add(keep.until)
        for id_ in needed:
            for each in conditions:
                options[id_][each.choice] |= each.options
    return {
        id_: tuple(Condition(choice, frozenset(each)) for choice, each in found.items())
        for id_, found in options.items()
    }


def leads_to_shared(plan: Plan, dropped: Collection[str]) -> set[str]:
    """The tasks at a pot of dropped dishes that others wait for: their food goes into it next.

    Args:
        plan: The plan so far.
        dropped: The dishes given up.
    """
    tasks = {task.id: task for task in plan.tasks if task.station == "pot"}
    ahead = {
        id_
        for id_, task in tasks.items()
        if set(task.dishes) & set(dropped) and set(task.dishes) - set(dropped)
    }
    found: set[str] = set()
    while ahead:
        ahead = {
            lag.before
            for lag in plan.lags
            if lag.after in ahead and lag.before in tasks and lag.min_minutes is not None
        } - found
        found |= ahead
    return found


def kept_for_others(
    keep: Keep, jobs: Mapping[str, Job], gone: Collection[str], dropped: Collection[str]
) -> tuple[Keep, ...]:
    """What is left of a keep whose last job is gone: until the end of what is shared in it.

    Args:
        keep: What was kept.
        jobs: All jobs of the day, by id.
        gone: Jobs that are done no more.
        dropped: The dishes given up.
    """
    shared = _shared(keep, jobs, gone, dropped)
    if not shared:
        return ()
    if keep.when:
        fillers = tuple(each for each in keep.fillers if each not in gone)
        return (replace(keep, fillers=fillers, until=shared[-1]),)
    # Each of these is another way to do the same, so that at most one is done.
    return tuple(
        replace(keep, id=f"{keep.id} for {each}", fillers=(each,), until=each) for each in shared
    )


def _shared(
    keep: Keep, jobs: Mapping[str, Job], gone: Collection[str], dropped: Collection[str]
) -> list[str]:
    """The jobs done in a pot for a dropped dish and for others."""
    return [
        id_
        for id_ in keep.fillers
        if id_ not in gone
        and jobs[id_].station == "pot"
        and set(jobs[id_].dishes) & set(dropped)
        and set(jobs[id_].dishes) - set(dropped)
    ]


def _before(work: Work, shared: Collection[str], among: Collection[str]) -> set[str]:
    """Those of some jobs that lead to shared ones."""
    found: set[str] = set()
    ahead = set(shared)
    while ahead:
        ahead = {
            link.before
            for link in work.links
            if link.low is not None and link.after in ahead and link.before in among
        } - found
        found |= ahead
    return found
