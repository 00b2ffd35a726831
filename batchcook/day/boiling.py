"""Boiling for several dishes: in one pot and divided, or one after another in the same water.

What starts in cold water (potatoes) or boils equally long can be boiled in one pot and divided
after draining. Pasta and grains of other kinds follow each other: what is done is lifted out and
the next goes into the water that boils already. One choice a group of dishes leaves it to the
optimisation whether to do so; where no two dishes boil alike, nothing is added.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import combinations, pairwise, permutations

from batchcook.day.standins import links_for, streams_for
from batchcook.day.ways import Way, parts_words, with_ways
from batchcook.dishwork.cooking import BACK_TO_THE_BOIL, TAP_START, boiling_words
from batchcook.dishwork.work import Job, Keep, Potful, Work
from batchcook.foods import load_foods
from batchcook.kitchens.heating import heat_up_minutes
from batchcook.kitchens.kitchen import Kitchen
from batchcook.kitchens.techniques import load_routines, load_techniques
from batchcook.kitchens.vessels import pot_options
from batchcook.quantities import Quantity, say, ureg

__all__ = ["BOILED_APART", "share_boiling"]

BOILED_APART = "each in its own pot"

_TOGETHER = 2


def share_boiling(day: Work, kitchen: Kitchen, system: str) -> Work:
    """The day's work with the ways to boil in one pot, or in one water, open to choice.

    Args:
        day: All dishes' work side by side.
        kitchen: Where its pots and burners are.
        system: us or metric.
    """
    groups: dict[object, list[Potful]] = defaultdict(list)
    for each in day.potfuls:
        # Dry food may follow other dry food; anything else is boiled with its like alone.
        alike = None if each.dry else (each.food, each.cut, each.minutes)
        groups[each.seasoning, alike].append(each)
    for potfuls in groups.values():
        name = "how to boil " + " and ".join(each.cook for each in potfuls)
        day = with_ways(day, name, BOILED_APART, _ways(day, potfuls, kitchen, system))
    return day


def _ways(day: Work, potfuls: Sequence[Potful], kitchen: Kitchen, system: str) -> Iterator[Way]:
    """Every way to share, the most dishes first."""
    jobs = {job.id: job for job in day.jobs}
    # The pot that is filled first is filled for all that follow.
    ordered = sorted(potfuls, key=lambda each: (-_quarts(each.volume), each.minutes, each.dish))
    for number in range(len(ordered), 1, -1):
        for chosen in combinations(ordered, number):
            if len({each.dish for each in chosen}) < number:
                continue
            divided = _divided(day, jobs, chosen, kitchen, system)
            if divided is not None:
                yield divided
                continue
            orders = permutations(chosen) if number == _TOGETHER else [chosen]
            for order in orders:
                if _may_follow(order):
                    yield _in_turn(day, jobs, order, kitchen, system)


def _quarts(volume: Quantity) -> float:
    return float(volume.to("quart").magnitude)


# ---- one pot, divided --------------------------------------------------------------------------


def _divided(
    day: Work, jobs: dict[str, Job], potfuls: Sequence[Potful], kitchen: Kitchen, system: str
) -> Way | None:
    """All in one pot; None where they boil otherwise, or one pot does not hold them."""
    volume = ureg.Quantity(sum(_quarts(each.volume) for each in potfuls), "quart")
    pots = pot_options(kitchen, volume)
    if len({(each.food, each.cut, each.minutes) for each in potfuls}) > 1:
        return None
    if not pots or sum(pots[0].values()) > 1:
        return None
    host = next((each for each in potfuls if each.goes_on), potfuls[0])
    others = [each for each in potfuls if each is not host]
    called = " with " + " and ".join(each.dish for each in others)
    food = load_foods()[host.food].plural
    total = sum(each.grams for each in potfuls)
    weight = say(ureg.Quantity(total, "gram"), system, weigh=True)
    shares = parts_words({each.dish: each.grams / total for each in potfuls})
    dishes = {
        each.dish: f"{shares[each.dish]} "
        f"({say(ureg.Quantity(each.grams, 'gram'), system, weigh=True)} before boiling)"
        for each in potfuls
    }
    # What goes on in a pot is put into it at once, while it is hot.
    bowls = {each.dish: _own_pot(each) if each.goes_on else each.bowl for each in potfuls}
    divide = load_routines()["divide"]
    fill = replace(
        jobs[host.fill],
        id=host.fill + called,
        title=f"Boil {food}: fill one pot for {len(potfuls)} dishes",
        minutes=load_techniques()["boil"].minutes(volume=volume),
        dishes={each.dish: jobs[each.fill].dishes[each.dish] for each in potfuls},
        amounts=(f"{weight} {food} in all", *_seasonings(jobs, potfuls)),
        words=_words(jobs, [each.fill for each in potfuls]),
        bowl="",
    )
    heat_up = heat_up_minutes(volume, TAP_START, kitchen.burners)
    cook = replace(
        jobs[host.cook],
        id=host.cook + called,
        title=f"Boil {food} for {len(potfuls)} dishes",
        minutes=heat_up + host.minutes,
        dishes=fill.dishes,
        words=boiling_words(heat_up, host.minutes, dry=host.dry),
    )
    idle = {each.wash for each in others if not each.goes_on}
    minutes = load_techniques()["drain"].minutes(volume=volume) + divide.minutes(
        containers=len(others)
    )
    told = ", ".join(
        f"{shares[each.dish]} into the {bowls[each.dish]}"
        + (", which is the one they boiled in" if each is host and host.goes_on else "")
        for each in potfuls
    )
    drain = replace(
        jobs[host.drain],
        id=host.drain + called,
        title=f"Drain {weight} {food} and divide them by weight",
        minutes=minutes,
        dishes=dishes,
        words=f"{_words(jobs, [each.drain for each in potfuls])} Weigh them: {told}.".strip(),
        bowl=" and ".join(dict.fromkeys(bowls.values())),
        bowls=bowls,
        family=f"boil {food}",
        food=host.food,
    )
    apart = sum(jobs[id_].minutes for each in potfuls for id_ in (each.fill, each.drain))
    saved = apart + sum(jobs[id_].minutes for id_ in idle) - fill.minutes - drain.minutes
    stand_ins = {
        own: shared.id
        for each in potfuls
        for own, shared in ((each.fill, fill), (each.cook, cook), (each.drain, drain))
    }
    return Way(
        f"in one pot: {', '.join(each.dish for each in potfuls)}",
        (fill, cook, replace(drain, saves=saved)),
        frozenset(stand_ins.keys() | idle | {host.pot}),
        links_for(day.links, stand_ins),
        streams_for(day.streams, stand_ins),
        (
            Keep(
                host.pot + called,
                tuple(pots),
                (fill.id, cook.id, drain.id),
                host.wash,
                "the pot",
            ),
            Keep(host.burner + called, ({"burner": 1},), (fill.id, cook.id), cook.id, "a burner"),
        ),
        {each.pot: (drain.id,) for each in others if each.goes_on},
    )


def _own_pot(potful: Potful) -> str:
    """The pot as the dish's other steps call it, and whose it is: ``potato pot for the pie``."""
    return f"{potful.vessel} for the {potful.bowl.removeprefix('hot ').removesuffix(' bowl')}"


# ---- one after another in the same water ---------------------------------------------------------


def _may_follow(order: Sequence[Potful]) -> bool:
    """Whether these may be boiled in the same water in this order.

    The first fills the pot for all. What is lifted out leaves its pot to the next, so only the
    last may go on in it. Nothing gets an allergen from the water that its dish has not already.
    """
    leaves: frozenset[str] = frozenset()
    for each in order:
        if not leaves <= each.holds:
            return False
        leaves |= each.leaves
    return (
        all(each.dry for each in order)
        and not any(each.goes_on for each in order[:-1])
        and _quarts(order[0].volume) >= max(_quarts(each.volume) for each in order) - 1e-6
    )


def _in_turn(
    day: Work, jobs: dict[str, Job], order: Sequence[Potful], kitchen: Kitchen, system: str
) -> Way:
    """One lot after another in the water of the first."""
    first, last = order[0], order[-1]
    changes = [_change(jobs, one, other, system) for one, other in pairwise(order)]
    cooks = [_again(jobs, each) for each in order[1:]]
    stand_ins: dict[str, str] = {}
    for each, change, cook in zip(order[1:], changes, cooks, strict=True):
        stand_ins |= {each.fill: change.id, each.cook: cook.id}
    stand_ins |= {each.drain: change.id for each, change in zip(order, changes, strict=False)}
    called = " then " + " then ".join(each.dish for each in order[1:])
    boiling = (first.fill, first.cook, *(job.id for job in (*changes, *cooks)))
    return Way(
        f"in one water: {', then '.join(each.dish for each in order)}",
        (*changes, *cooks),
        frozenset(
            stand_ins.keys()
            | {each.wash for each in order[:-1]}
            | {keep for each in order for keep in (each.pot, each.burner)}
        ),
        links_for(day.links, stand_ins),
        streams_for(day.streams, stand_ins),
        (
            Keep(
                first.pot + called,
                tuple(pot_options(kitchen, first.volume)),
                boiling,
                last.wash,
                "the pot",
            ),
            Keep(first.burner + called, ({"burner": 1},), boiling, cooks[-1].id, "a burner"),
        ),
    )


def _change(jobs: dict[str, Job], one: Potful, other: Potful, system: str) -> Job:
    """What is done comes out, and the next goes in: one handful of minutes, no sink."""
    foods = load_foods()
    lift = load_routines()["lift"]
    apart = sum(jobs[id_].minutes for id_ in (one.drain, other.fill, one.wash))
    minutes = lift.minutes()
    return replace(
        jobs[other.fill],
        id=f"{one.drain} then {other.dish}",
        title=f"Lift out the {foods[one.food].plural}; the {foods[other.food].plural} go into "
        "the same water",
        minutes=minutes,
        hands=lift.skills,
        dishes={
            each.dish: f"{say(ureg.Quantity(each.grams, 'gram'), system, weigh=True)} "
            f"{foods[each.food].plural}"
            for each in (one, other)
        },
        words=" ".join(
            each
            for each in (
                _of(one, jobs[one.drain].words),
                "Keep the water; top it up if it is low.",
                _of(other, jobs[other.fill].words),
            )
            if each
        ),
        amounts=(),
        bowl=one.bowl,
        bowls={one.dish: one.bowl, other.dish: "into the same water"},
        family="boil in one water",
        saves=apart - minutes,
    )


def _of(potful: Potful, words: str) -> str:
    """What a recipe says, with the food it says it of."""
    return f"{load_foods()[potful.food].plural.capitalize()}: {words}" if words else ""


def _again(jobs: dict[str, Job], potful: Potful) -> Job:
    """A lot that goes into water that boils already."""
    return replace(
        jobs[potful.cook],
        id=f"{potful.cook} in the same water",
        minutes=BACK_TO_THE_BOIL + potful.minutes,
        words=f"{BACK_TO_THE_BOIL} min to come back to the boil, then {potful.minutes} min",
    )


def _words(jobs: dict[str, Job], ids: Iterable[str]) -> str:
    return " ".join(dict.fromkeys(jobs[id_].words for id_ in ids if jobs[id_].words))


def _seasonings(jobs: dict[str, Job], potfuls: Sequence[Potful]) -> tuple[str, ...]:
    """What else goes into the water, as each dish lists it."""
    if not potfuls[0].seasoning:
        return ()
    return tuple(line for each in potfuls for line in jobs[each.fill].amounts[1:])
