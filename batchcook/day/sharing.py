"""Work that several dishes share: same food, same cut, one run; loads that fit one skillet.

Families bear equal names across dishes, so laying dishes side by side is enough for runs. How the
loads of a family are browned is besides a choice left to the optimisation, one a family: each in
its own skillet, part loads of two dishes in one, or two skillets at once under one cook's hands.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from itertools import islice, pairwise
from math import ceil

from batchcook.day.standins import links_for, streams_for
from batchcook.dishwork.work import Job, Link, Work
from batchcook.kitchens.techniques import load_techniques
from batchcook.scheduling.problem import Choice, Condition

__all__ = ["APART", "TWO_AT_ONCE", "share"]

APART = "each alone"
TWO_AT_ONCE = "two skillets at once"

_MOST_MATCHINGS = 12
_SECOND_SKILLET = 1.3
"""A cook minds two skillets in less than a third more time than one: common practice, no source."""

Loads = tuple[str, ...]
"""The jobs that one combined job stands for."""


def share(works: Iterable[Work], load_grams: float, *, skillets: int, burners: int) -> Work:
    """All dishes' work side by side, with the ways to combine skillet loads open to choice.

    Args:
        works: Each dish's own work.
        load_grams: What one skillet browns at once.
        skillets: How many skillets there are.
        burners: How many burners there are.
    """
    day = sum(works, Work())
    loads = defaultdict(list)
    for job in day.jobs:
        if job.station == "skillet" and job.family:
            loads[job.family].append(job)
    for family, jobs in loads.items():
        options: dict[str, tuple[Loads, ...]] = {APART: ()}
        options |= _pairings(jobs, load_grams)
        if min(skillets, burners) > 1:
            options |= _at_once(jobs)
        if len(options) > 1:
            day = _with_choice(day, family, options, {job.id: job for job in jobs}, load_grams)
    return day


def _pairings(jobs: Sequence[Job], load_grams: float) -> dict[str, tuple[Loads, ...]]:
    """The ways to brown part loads of different dishes together, two in one skillet."""
    parts = [job for job in jobs if job.grams < 0.98 * load_grams]
    # There may be millions of them: no more are made than are offered.
    matchings = (pairs for pairs in _matchings(parts, load_grams) if pairs)
    return {
        " and ".join(" with ".join(pair) for pair in pairs): pairs
        for pairs in islice(matchings, _MOST_MATCHINGS)
    }


def _matchings(parts: Sequence[Job], load_grams: float) -> Iterable[tuple[Loads, ...]]:
    """Every set of disjoint pairs of different dishes that fit one skillet."""
    if not parts:
        yield ()
        return
    first, *rest = parts
    yield from _matchings(rest, load_grams)
    for other in rest:
        fits = first.grams + other.grams <= load_grams * 1.02
        if fits and set(first.dishes) != set(other.dishes):
            remaining = [part for part in rest if part is not other]
            for pairs in _matchings(remaining, load_grams):
                yield ((first.id, other.id), *pairs)


def _at_once(jobs: Sequence[Job]) -> dict[str, tuple[Loads, ...]]:
    """Each dish's loads two by two, on two burners."""
    by_dish: dict[str, list[str]] = defaultdict(list)
    for job in jobs:
        by_dish[next(iter(job.dishes))].append(job.id)
    twos = tuple(
        (ids[number], ids[number + 1])
        for ids in by_dish.values()
        for number in range(0, len(ids) - 1, 2)
    )
    return {TWO_AT_ONCE: twos} if twos else {}


def _with_choice(
    day: Work,
    family: str,
    options: Mapping[str, tuple[Loads, ...]],
    by_id: Mapping[str, Job],
    load_grams: float,
) -> Work:
    """The day with one choice of how a family's loads are combined."""
    choice = Choice(f"how to {family}", tuple(options))

    def when(names: Iterable[str]) -> tuple[Condition, ...]:
        return (Condition(choice.id, frozenset(names)),)

    jobs = []
    for job in day.jobs:
        alone = [name for name, pairs in options.items() if not any(job.id in p for p in pairs)]
        if job.id in by_id and len(alone) < len(options):
            jobs.append(replace(job, when=job.when + when(alone)))
        else:
            jobs.append(job)
    links, streams = list(day.links), list(day.streams)
    combined = {
        (pair, name == TWO_AT_ONCE): [n for n, pairs in options.items() if pair in pairs]
        for name, pairs in options.items()
        for pair in pairs
    }
    # The order among the loads of a dish is not that of what stands for them.
    unordered = [each for each in day.links if (each.origin, each.to) != ("start", "start")]
    combined_of: dict[str, Loads] = {}
    for (pair, at_once), names in combined.items():
        first, second = (by_id[each] for each in pair)
        made = _both_pans(first, second) if at_once else _one_pan(first, second, load_grams)
        jobs.append(replace(made, when=when(names)))
        combined_of[made.id] = pair
        for part in pair:
            links += links_for(unordered, {part: made.id})
            streams += streams_for(day.streams, {part: made.id})
    doubles = [
        job for job in jobs if job.id not in {each.id for each in day.jobs} and _is_double(job)
    ]
    links += [
        Link(one.id, other.id, origin="start", to="start")
        for one, other in pairwise(doubles)
        if set(one.dishes) == set(other.dishes)
    ]
    whole_of: dict[str, list[str]] = defaultdict(list)
    for made in jobs:
        if made.id not in {each.id for each in day.jobs}:
            for part in combined_of[made.id]:
                whole_of[part].append(made.id)
    keeps = tuple(
        replace(
            keep,
            fillers=(
                *keep.fillers,
                *(each for filler in keep.fillers for each in whole_of.get(filler, ())),
            ),
        )
        for keep in day.keeps
    )
    return replace(
        day,
        jobs=tuple(jobs),
        keeps=keeps,
        links=tuple(dict.fromkeys(links)),
        streams=tuple(dict.fromkeys(streams)),
        choices={**day.choices, choice.id: choice},
    )


def _is_double(job: Job) -> bool:
    """Whether a job minds two skillets; equal ones of a dish are kept in order."""
    return job.uses.get("burner", 0) > 1


def _one_pan(first: Job, second: Job, load_grams: float) -> Job:
    """Part loads of two dishes in one skillet."""
    share_of_load = min(1.0, (first.grams + second.grams) / load_grams)
    per_load = load_techniques()[first.technique].per_load
    minutes = max(3, round(per_load * (0.5 + 0.5 * share_of_load)))
    other = second.id.split("/", maxsplit=1)[0]
    return replace(
        _joined(first, second),
        id=f"{first.id} with {other}",
        title=f"{first.title.split(', load')[0]}, two dishes in one skillet",
        minutes=minutes,
        saves=first.minutes + second.minutes - minutes,
        bowls={dish: each.bowl for each in (first, second) for dish in each.dishes},
    )


def _both_pans(first: Job, second: Job) -> Job:
    """Two loads of one dish in two skillets."""
    joined = _joined(first, second)
    each = {dish: f"{amount}, a skillet each" for dish, amount in joined.dishes.items()}
    return replace(
        joined,
        dishes=each,
        id=f"{first.id} and {second.id.rsplit('/', maxsplit=1)[-1]}",
        title=f"{first.title.split(', load')[0]} in two skillets at once",
        minutes=ceil(max(first.minutes, second.minutes) * _SECOND_SKILLET),
        uses={name: 2 * amount for name, amount in first.uses.items()},
    )


def _joined(first: Job, second: Job) -> Job:
    """What two loads have in common, and what they add up to."""
    words = [first.words] if first.words == second.words else [first.words, second.words]
    dishes = dict(first.dishes)
    for dish, amount in second.dishes.items():
        dishes[dish] = f"{dishes[dish]} and {amount}" if dish in dishes else amount
    return replace(
        first,
        dishes=dishes,
        grams=first.grams + second.grams,
        words=" ".join(words),
        amounts=tuple(dict.fromkeys(first.amounts + second.amounts)),
    )
