"""A choice among ways to do for several dishes together what each could do by itself."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import islice

from batchcook.dishwork.work import Job, Keep, Link, Stream, Work
from batchcook.scheduling.problem import Choice, Condition, Family

__all__ = ["Way", "parts_words", "with_ways"]

_MOST_WAYS = 12

_WHOLES = (2, 3, 4, 5, 6, 8, 10, 12)
"""The parts that a cook divides into without reckoning."""

_NEAR = 0.01
"""How far a share may be from the fraction it is told as."""


@dataclass(frozen=True)
class Way:
    """One way to share.

    Attributes:
        jobs: What is done in it only.
        idle: Jobs and keeps of the dishes' own that it does without.
        links: What binds its jobs.
        streams: The ways that foods take through its jobs.
        keeps: What is kept in it only.
        fillers: Keep of a dish to the jobs that fill it in this way.
    """

    name: str
    jobs: tuple[Job, ...]
    idle: frozenset[str]
    links: Sequence[Link]
    streams: Sequence[Stream]
    keeps: tuple[Keep, ...] = ()
    fillers: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


def with_ways(day: Work, name: str, apart: str, ways: Iterable[Way]) -> Work:
    """The day with one choice among some ways to share, or to do each dish's own, if there is one.

    Args:
        day: All the work.
        name: What the choice is called.
        apart: What it is called that nothing is shared.
        ways: The ways, those worth most first; no more than a dozen are offered, or made.
    """
    ways = tuple(islice(ways, _MOST_WAYS))
    if not ways:
        return day
    choice = Choice(name, (apart, *(way.name for way in ways)))

    def only_in(options: set[str]) -> tuple[Condition, ...]:
        return (Condition(choice.id, frozenset(options)),)

    def when(id_: str) -> tuple[Condition, ...]:
        """The ways in which a job or keep of a dish's own is needed."""
        without = {way.name for way in ways if id_ in way.idle}
        return only_in({*choice.options} - without) if without else ()

    made = {job.id: job for way in ways for job in way.jobs}
    used_in: dict[str, set[str]] = defaultdict(set)
    fillers: dict[str, dict[str, None]] = defaultdict(dict)
    for way in ways:
        for job in way.jobs:
            used_in[job.id].add(way.name)
        for keep_id, jobs in way.fillers.items():
            fillers[keep_id] |= dict.fromkeys(jobs)
    families = {job.family: Family(job.family, 0, 0) for job in made.values() if job.family}
    return replace(
        day,
        jobs=(
            *(replace(job, when=job.when + when(job.id)) for job in day.jobs),
            *(replace(job, when=only_in(used_in[job.id])) for job in made.values()),
        ),
        links=tuple(dict.fromkeys((*day.links, *(each for way in ways for each in way.links)))),
        keeps=(
            *(
                replace(
                    keep,
                    when=keep.when + when(keep.id),
                    fillers=(*keep.fillers, *fillers.get(keep.id, ())),
                )
                for keep in day.keeps
            ),
            *(replace(keep, when=only_in({way.name})) for way in ways for keep in way.keeps),
        ),
        streams=tuple(
            dict.fromkeys((*day.streams, *(each for way in ways for each in way.streams)))
        ),
        families={**day.families, **families},
        choices={**day.choices, choice.id: choice},
    )


def parts_words(shares: dict[str, float]) -> dict[str, str]:
    """Shares of a whole as a cook divides it: halves, thirds and so on, or percent.

    Args:
        shares: Dish to its share; together they are 1.
    """
    for whole in _WHOLES:
        parts = {dish: round(share * whole) for dish, share in shares.items()}
        near = all(abs(parts[dish] / whole - share) < _NEAR for dish, share in shares.items())
        if near and sum(parts.values()) == whole:
            return {dish: str(Fraction(part, whole)) for dish, part in parts.items()}
    return {dish: f"{share:.0%}" for dish, share in shares.items()}
