"""Softening vegetables for several dishes in one pot, divided by weight.

Onions, or onions with carrots and celery in like shares, that several dishes soften in the same
fat are softened together in the pot of one of them. The others' shares are lifted out; garlic,
spices and tomato paste then go into each pot for the last minute, as they scorch. From there on a
share is cooked food off the heat until its own pot takes it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from batchcook.day.standins import links_for, streams_for
from batchcook.day.ways import Way, parts_words, with_ways
from batchcook.dishwork.keephot import ON_LOW
from batchcook.dishwork.work import Job, Link, Moment, Stream, Sweat, Work
from batchcook.foods import describe, load_foods
from batchcook.kitchens.techniques import load_routines, load_techniques
from batchcook.quantities import Quantity, say, ureg

__all__ = ["SOFTENED_APART", "share_sweating"]

SOFTENED_APART = "each dish's vegetables in its own pot"

_TOGETHER = 2

_LIKE = 0.1
"""How far apart a vegetable's share in two dishes may be, the whole being 1: no cook tells."""

_CUT_VEGETABLES = ureg.Quantity(0.6, "kilogram / litre")
"""Diced vegetables, heaped: 160 g of onion in a cup of 0.24 l (foods table), less some air."""


def share_sweating(day: Work, system: str) -> Work:
    """The day's work with the ways to soften together open to choice.

    Args:
        day: All dishes' work side by side.
        system: us or metric.
    """
    groups: dict[object, list[Sweat]] = defaultdict(list)
    for each in day.sweats:
        groups[frozenset(each.base), frozenset(each.fats)].append(each)
    for sweats in groups.values():
        name = "how to soften " + " and ".join(each.job for each in sweats)
        day = with_ways(day, name, SOFTENED_APART, _ways(day, sweats, system))
    return day


def _ways(day: Work, sweats: Sequence[Sweat], system: str) -> Iterator[Way]:
    """Every way to share, the most dishes first."""
    for number in range(len(sweats), 1, -1):
        for chosen in combinations(sweats, number):
            way = _together(day, chosen, system)
            if way is not None:
                yield way


@dataclass(frozen=True)
class _Share:
    """One dish's share that is lifted out: where it goes on.

    Attributes:
        finish: What its own pot does with it for the last minute, if anything.
        idle: The washing of its own pot, where that is not needed any more.
    """

    sweat: Sweat
    finish: Job | None
    idle: frozenset[str]


def _together(day: Work, sweats: Sequence[Sweat], system: str) -> Way | None:
    """All in one pot; None where they cannot be, or nothing is saved."""
    hosts = [each for each in sweats if each.keeps_hot]
    if len(hosts) > 1 or len({each.dish for each in sweats}) < len(sweats) or not _alike(sweats):
        return None
    host = max(sweats, key=lambda each: (each.keeps_hot, _grams(each), each.dish))
    total = ureg.Quantity(sum(_grams(each) for each in sweats), "gram")
    if total / _CUT_VEGETABLES > host.volume:
        return None
    jobs = {job.id: job for job in day.jobs}
    shares = [_share(jobs, each) for each in sweats if each is not host]
    soften = _soften(jobs, host, sweats, system)
    finishes = tuple(share.finish for share in shares if share.finish is not None)
    idle = {id_ for share in shares for id_ in share.idle}
    saved = sum(jobs[each.job].minutes for each in sweats)
    saved += sum(jobs[id_].minutes for id_ in idle)
    saved -= sum(job.minutes for job in (soften, *finishes))
    if saved <= 0:
        return None
    links = links_for(day.links, {host.job: soften.id})
    streams = streams_for(day.streams, {host.job: soften.id})
    fillers = {host.pot: (soften.id,), host.burner: (soften.id,)}
    for share in shares:
        links += _links_of(day, share, soften.id)
        streams += _streams_of(day, share, soften.id)
        if share.finish is not None:
            fillers |= dict.fromkeys((share.sweat.pot, share.sweat.burner), (share.finish.id,))
    return Way(
        f"in one pot: {', '.join(each.dish for each in sweats)}",
        (replace(soften, saves=saved), *finishes),
        frozenset({each.job for each in sweats} | idle),
        links,
        streams,
        fillers=fillers,
    )


def _grams(sweat: Sweat) -> float:
    return sum(sweat.base.values())


def _alike(sweats: Sequence[Sweat]) -> bool:
    """Whether the vegetables stand in like shares to each other in every dish."""
    return all(
        max(shares) - min(shares) <= _LIKE
        for each in sweats[0].base
        for shares in [[sweat.base[each] / _grams(sweat) for sweat in sweats]]
    )


def _soften(jobs: dict[str, Job], host: Sweat, sweats: Sequence[Sweat], system: str) -> Job:
    """The vegetables of all dishes in the host's pot, the others' shares lifted out."""
    foods = load_foods()
    own = jobs[host.job]
    others = [each for each in sweats if each is not host]
    total = sum(_grams(each) for each in sweats)
    parts = parts_words({each.dish: _grams(each) / total for each in sweats})
    fats = {fat: sum(each.fats[fat] for each in sweats) for fat in host.fats}
    base = {key: sum(each.base[key] for each in sweats) for key in host.base}
    weight = ureg.Quantity(total + sum(fats.values()) + host.last_grams, "gram")
    vegetables = " and ".join(foods[food].plural for food, _ in base)
    bowls = {each.dish: host.vessel if each is host else each.bowl for each in sweats}
    lifted = ", ".join(f"{parts[each.dish]} into the {each.bowl}" for each in others)
    stays = "what stays in the pot goes on as the recipe says" if host.last else "the rest stays"
    return replace(
        own,
        id=f"{own.id} with {' and '.join(each.dish for each in others)}",
        title=f"Soften {say(ureg.Quantity(total, 'gram'), system, weigh=True)} {vegetables} "
        f"for {len(sweats)} dishes",
        minutes=load_techniques()["sweat"].minutes(
            weight=weight, of={food: each for (food, _), each in base.items()}
        )
        + load_routines()["divide"].minutes(containers=len(others)),
        dishes={
            each.dish: f"{parts[each.dish]} "
            f"({say(ureg.Quantity(_grams(each), 'gram'), system, weigh=True)} raw)"
            for each in sweats
        },
        amounts=(
            *(describe(foods[fat], _gram(each), None, system) for fat, each in fats.items()),
            *(
                describe(foods[food], _gram(each), cut, system)
                for (food, cut), each in base.items()
            ),
            # Only once the others' shares are out: they are to taste of none of it.
            *(f"then {each}" for each in host.last),
        ),
        words=f"Soften the vegetables in the fat until they are glassy. Weigh them and lift out "
        f"{lifted}; {stays}. {own.words}".strip(),
        bowl=" and ".join(bowls.values()),
        bowls=bowls,
        family=f"soften {vegetables}",
    )


def _gram(weight: float) -> Quantity:
    return ureg.Quantity(weight, "gram")


def _share(jobs: dict[str, Job], sweat: Sweat) -> _Share:
    """A share that is lifted out, and what its own pot still does."""
    if not sweat.last:
        return _Share(sweat, None, frozenset() if sweat.onward else frozenset({sweat.wash}))
    own, routine = jobs[sweat.job], load_routines()["last-minute"]
    finish = replace(
        own,
        id=f"{own.id} from one pot",
        title=f"Finish softening in the {sweat.vessel}",
        minutes=routine.minutes(),
        amounts=sweat.last,
        words=f"What is in the {sweat.bowl} goes into the {sweat.vessel}, with this for the last "
        f"minute; the rest of it is done. {ON_LOW if sweat.onward else ''}".strip(),
    )
    return _Share(sweat, finish, frozenset())


def _links_of(day: Work, share: _Share, soften: str) -> list[Link]:
    """What was to be ready for its own softening, and what waited for that."""
    own, finish = share.sweat.job, share.finish
    found = []
    for link in day.links:
        if link.after == own:
            early = link.before in share.sweat.cutting or finish is None
            found.append(replace(link, after=soften if early or finish is None else finish.id))
        elif link.before == own and finish is not None:
            found.append(replace(link, before=finish.id))
        elif link.before == own:
            # In its bowl it may wait as long as cooked food may; only in its pot it would dry out.
            found.append(replace(link, before=soften, high=None, reason=""))
    if finish is not None:
        found.append(Link(soften, finish.id))
    return found


def _streams_of(day: Work, share: _Share, soften: str) -> list[Stream]:
    """The ways of foods that were softened in their own pot: on heat, lifted out, on heat again."""
    own, finish = share.sweat.job, share.finish
    found = []
    for stream in day.streams:
        moments: list[Moment] = []
        for moment in stream.moments:
            if moment.job != own:
                moments.append(moment)
            elif moment.event == "on-heat":
                moments += [
                    replace(moment, job=soften),
                    Moment("off-heat", soften, "end"),
                ]
                if finish is not None:
                    moments.append(Moment("on-heat", finish.id, "start"))
                elif share.sweat.onward is not None:
                    moments.append(Moment("on-heat", share.sweat.onward, "start"))
            elif finish is not None:
                moments.append(replace(moment, job=finish.id))
        if any(moment.job == own for moment in stream.moments):
            found.append(replace(stream, moments=tuple(moments)))
    return found
