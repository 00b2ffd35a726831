"""The day and its hands-on time three ways: nothing shared, families as blocks, runs of parts.

Run it as ``python tests/benchmarks/sharing_three_ways.py [seconds]``.
"""

from __future__ import annotations

import datetime as dt
import sys
from collections import defaultdict
from dataclasses import replace

from batchcook.cookbook import load_cookbook
from batchcook.day.formulation import formulate
from batchcook.day.framing import with_day_work
from batchcook.day.prepday import PrepDay
from batchcook.day.workday import day_work, ordered_dishes
from batchcook.dishwork.dishes import dish_work
from batchcook.dishwork.work import Job, Link, Work
from batchcook.kitchens.kitchen import default_kitchen
from batchcook.scheduling.problem import Family
from batchcook.scheduling.solver import solve

DAYS = {
    "four": ("beef-barley-stew", "sausage-lentil-soup", "chicken-coconut-curry", "cottage-pie"),
    "five": (
        "beef-barley-stew",
        "sausage-lentil-soup",
        "squash-red-lentil-soup",
        "cottage-pie",
        "turkey-meatballs",
    ),
    "six": (
        "beef-barley-stew",
        "spinach-ricotta-shells",
        "squash-red-lentil-soup",
        "cottage-pie",
        "turkey-meatballs",
        "vegetable-egg-bake",
    ),
}


def unshared(work: Work) -> Work:
    """Every part its own set-up and clean-down."""
    families: dict[str, Family] = {}
    jobs = []
    for job in work.jobs:
        if job.family is None:
            jobs.append(job)
            continue
        family = replace(work.families[job.family], id=f"{job.id} alone")
        families[family.id] = family
        jobs.append(replace(job, family=family.id))
    return replace(work, jobs=tuple(jobs), families=families)


def as_blocks(work: Work) -> Work:
    """All cutting and measuring of one family as one indivisible piece of work."""
    groups: dict[str, list[Job]] = defaultdict(list)
    for job in work.jobs:
        if job.family is not None and job.station in {"board", "counter"}:
            groups[job.family].append(job)
    stands_for: dict[str, str] = {}
    blocks = []
    for family, parts in groups.items():
        block = replace(parts[0], id=f"block/{family}", minutes=sum(part.minutes for part in parts))
        blocks.append(block)
        stands_for |= {part.id: block.id for part in parts}
    links = [
        replace(
            link,
            before=stands_for.get(link.before, link.before),
            after=stands_for.get(link.after, link.after),
        )
        for link in work.links
    ]
    streams = [
        replace(
            stream,
            moments=tuple(
                replace(moment, job=stands_for.get(moment.job, moment.job))
                for moment in stream.moments
            ),
        )
        for stream in work.streams
    ]
    return replace(
        work,
        jobs=(*(job for job in work.jobs if job.id not in stands_for), *blocks),
        links=tuple(Link(**vars(link)) for link in dict.fromkeys(links)),
        streams=tuple(streams),
    )


def main() -> None:
    """Print a table."""
    seconds = float(sys.argv[1]) if len(sys.argv) > 1 else 20.0
    cookbook, kitchen = load_cookbook(), default_kitchen()
    print(f"{'day':6} {'way':16} {'length':>7} {'bound':>7} {'hands-on':>9}")
    for name, ids in DAYS.items():
        day = PrepDay(dt.date(2027, 1, 16), dt.time(7), dict.fromkeys(ids, 2), kitchen)
        dishes = ordered_dishes(day, cookbook)
        apart = sum((dish_work(dish, kitchen) for dish in dishes), Work())
        ways = {
            "nothing shared": with_day_work(unshared(apart), 30, {}),
            "one block each": with_day_work(as_blocks(apart), 30, {}),
            "runs of parts": day_work(dishes, day),
        }
        for way, work in ways.items():
            outcome = solve(formulate(work, day).problem, seconds=seconds, depth=2)
            if not outcome.levels:
                print(f"{name:6} {way:16} {outcome.answer.value}")
                continue
            length, hands = outcome.levels[:2]
            print(f"{name:6} {way:16} {length.value:7} {length.bound:7} {hands.value:9}")


if __name__ == "__main__":
    main()
