"""The way of each food through a dish: out of the cold, on heat, off heat, cold again."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise, product

from batchcook.cookbooks.recipe import Recipe, Step
from batchcook.dishwork.work import Lot, Moment, Spell, Stream
from batchcook.foods import load_foods
from batchcook.foodsafety.kinds import KEEPS_UNOPENED
from batchcook.foodsafety.limits import STRAIGHT_ON_MINUTES
from batchcook.scheduling.problem import Anchor

__all__ = [
    "StepHeat",
    "StepJobs",
    "allowed",
    "cold_once_handled",
    "from_the_cold",
    "spells_of",
    "streams_of",
]

_PERISHABLE = frozenset({"egg", "dairy", "cheese", "bacon", "cooked-sausage"})
"""Kinds of food, besides everything raw from an animal, that count from leaving the cold."""

_OPENED = KEEPS_UNOPENED | {"frozen"}
"""Kinds that count from the job that opens or thaws them, unless they go on heat in that job."""

Point = tuple[str, Anchor]


@dataclass(frozen=True)
class StepHeat:
    """When a step's food is on heat.

    Attributes:
        branches: For each load, when it goes on heat and when it comes off.
        vessel: The vessel it stays in, so that a next step in it is the same heat.
        straight_on: It comes off half raw and goes straight on to the next heat.
        receives: The job from whose start the vessel is hot, for what goes straight on.
        held_hot: It is kept hot after its time, until the next job begins.
    """

    branches: tuple[tuple[Point, Point], ...]
    vessel: str | None = None
    straight_on: bool = False
    receives: str | None = None
    held_hot: bool = False


@dataclass(frozen=True)
class StepJobs:
    """What the steps of a dish begin and end with, step name to each.

    Attributes:
        entry: Their first jobs.
        ready: The jobs after which their outcome is ready.
        lots: For those in pans, what of the dish each of these jobs is of.
        cold: Those after which it waits in the refrigerator.
    """

    entry: Mapping[str, Sequence[str]]
    ready: Mapping[str, Sequence[str]]
    lots: Mapping[str, Sequence[Lot]] = field(default_factory=dict)
    cold: frozenset[str] = frozenset()


def streams_of(
    recipe: Recipe,
    order: Sequence[Step],
    heat: Mapping[str, StepHeat],
    cut: Mapping[str, str],
    jobs: StepJobs,
    packed: tuple[str, str],
) -> tuple[Stream, ...]:
    """Every distinct way that a food of the recipe takes.

    A food that keeps at room temperature begins its way when it is first heated. What is cut, and
    what is mixed or shaped cold, goes back into the refrigerator until the step that takes it.
    Foods that take the same way are told once, by the heaviest of them.

    Args:
        recipe: The recipe.
        order: Its steps, each after those it takes from.
        heat: For each step with heat, when its food is on it.
        cut: For each ingredient that is cut ahead, the job that does it.
        jobs: What each step begins and ends with.
        packed: The job at whose end the dish is away in the cold, and how that is called.
    """
    foods = load_foods()
    found: dict[tuple[Moment, ...], Stream] = {}
    for step in order:
        heaviest = sorted(step.takes, key=lambda name: _grams(recipe, name), reverse=True)
        for name, path in product(heaviest, _paths(step, order)):
            food = foods[recipe.ingredient(name).food]
            perishable = from_the_cold(food.kind)
            if food.kind in _OPENED:
                # Put on heat by the job that opens it, it is not out at all.
                perishable = step.name not in heat or name in cut
            if not perishable and not any(each.name in heat for each in path):
                continue
            start = _Start(perishable, cut.get(name))
            for moments in _ways(path, heat, start, jobs, packed):
                found.setdefault(moments, Stream(recipe.id, food.key, food.kind, moments))
    return tuple(found.values())


@dataclass(frozen=True)
class _Start:
    """Whether a food comes out of the refrigerator, and the job before the first step, if any."""

    perishable: bool
    cut: str | None

    def moments(self, first: str) -> list[Moment]:
        """Its way until the first job of the first step."""
        if not self.perishable:
            return []
        if self.cut is None:
            return [Moment("out", first, "start")]
        return [
            Moment("out", self.cut, "start"),
            Moment("refrigerated", self.cut, "end"),
            Moment("out", first, "start"),
        ]


def _grams(recipe: Recipe, name: str) -> float:
    """Weight of an ingredient in one batch."""
    ingredient = recipe.ingredient(name)
    weight = load_foods()[ingredient.food].to_grams(ingredient.amount, ingredient.cut)
    return float(weight.to("gram").magnitude)


def from_the_cold(kind: str) -> bool:
    """Whether a kind of food comes out of the refrigerator, and its time counts from there."""
    return kind.startswith("raw-") or kind in _PERISHABLE


def cold_once_handled(kind: str) -> bool:
    """Whether a kind of food that has been cut, opened or thawed waits in the refrigerator."""
    return from_the_cold(kind) or kind in _OPENED


def spells_of(stream: Stream) -> tuple[Spell, ...]:
    """The times on its way that count against the clock, straight handings-on apart."""
    spells = []
    since: Moment | None = None
    for moment in stream.moments:
        if moment.event in {"out", "off-heat"}:
            since = moment
        elif moment.straight:
            since = None
        elif since is not None:
            if (since.job, since.anchor) != (moment.job, moment.anchor):
                spells.append(Spell(since.job, since.anchor, moment.job, moment.anchor))
            since = None
    return tuple(spells)


def allowed(stream: Stream, limit: int) -> int:
    """Minutes of ``limit`` that a food's spells may add up to.

    A straight handing-on has its own short limit, which is set aside from the whole.
    """
    return limit - STRAIGHT_ON_MINUTES * sum(moment.straight for moment in stream.moments)


def _paths(step: Step, order: Sequence[Step]) -> list[list[Step]]:
    """Every way on from a step through those that take its outcome: it may be divided."""
    following = [each for each in order if step.name in each.after]
    if not following:
        return [[step]]
    return [[step, *path] for each in following for path in _paths(each, order)]


def _ways(
    path: Sequence[Step],
    heat: Mapping[str, StepHeat],
    start: _Start,
    jobs: StepJobs,
    packed: tuple[str, str],
) -> list[tuple[Moment, ...]]:
    """One way for each combination of loads that the same food can be in."""
    heats = [heat.get(step.name) for step in path]
    # Each load fetches its own food, so it leaves the cold when its load begins.
    picks = [
        range(len(each.branches) if each else len(jobs.entry[step.name]))
        for step, each in zip(path, heats, strict=True)
    ]
    ways = []
    for pick in product(*picks):
        if not _of_one_food(path, pick, jobs.lots):
            continue
        moments = start.moments(_job(jobs.entry, path[0], pick[0]))
        for number, (step, each, branch) in enumerate(zip(path, heats, pick, strict=True)):
            if each is None:
                if moments and step.name in jobs.cold and number + 1 < len(path):
                    back = _job(jobs.ready, step, branch)
                    taken = _job(jobs.entry, path[number + 1], pick[number + 1])
                    moments.append(Moment("refrigerated", back, "end"))
                    moments.append(Moment("out", taken, "start"))
                continue
            (on, off) = each.branches[branch]
            before = heats[number - 1] if number else None
            same = before is not None and before.vessel is not None and before.vessel == each.vessel
            if same and moments and moments[-1].event == "off-heat":
                moments.pop()
            elif before is not None and before.straight_on and each.receives is not None:
                moments.append(Moment("on-heat", each.receives, "start", straight=True))
            else:
                moments.append(Moment("on-heat", *on))
            if each.held_hot:
                moments.append(Moment("held-hot", *off))
                after = path[number + 1] if number + 1 < len(path) else None
                leaves = jobs.entry[after.name][0] if after else packed[0]
                moments.append(Moment("off-heat", leaves, "start"))
            else:
                moments.append(Moment("off-heat", *off))
        moments.append(
            Moment("frozen" if packed[1] == "frozen" else "refrigerated", packed[0], "end")
        )
        ways.append(tuple(moments))
    return list(dict.fromkeys(ways))


def _job(jobs: Mapping[str, Sequence[str]], step: Step, place: int) -> str:
    """The job of a step at a place; the only one where its loads have none of their own."""
    mine = jobs[step.name]
    return mine[place] if len(mine) > 1 else mine[0]


def _of_one_food(
    path: Sequence[Step], pick: Sequence[int], lots: Mapping[str, Sequence[Lot]]
) -> bool:
    """Whether what lies in pans goes on from its own lot into its own load."""
    return all(
        one.vessel != other.vessel
        or one.name not in lots
        or other.name not in lots
        or lots[one.name][here].joins(lots[other.name][there])
        for (one, here), (other, there) in pairwise(zip(path, pick, strict=True))
    )
