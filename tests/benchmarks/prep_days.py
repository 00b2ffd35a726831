"""Invented prep days for measuring the scheduler, drawn from a seed.

Each has what makes a day in a kitchen hard: parts of chopping families, browning in loads that go
straight on, pots kept from filling to washing, burners, an oven that keeps a temperature, slow
cookers, packing that may not wait, and washing up. All durations are ours.
"""

from __future__ import annotations

import random
from collections.abc import Mapping
from dataclasses import dataclass, field

from batchcook.scheduling.problem import (
    Absence,
    Family,
    Lag,
    Mode,
    Occupancy,
    Problem,
    Resource,
    Task,
)

__all__ = ["prep_day"]

_VEGETABLES = ("onion", "carrot", "celery", "pepper", "squash")
_MEATS = ("beef cubes", "ground beef", "chicken")
_MOST_OUT = 120
_STRAIGHT_ON = 10


@dataclass
class _Draft:
    """A problem in the making."""

    rng: random.Random
    helper: bool
    tasks: dict[str, Task] = field(default_factory=dict)
    lags: list[Lag] = field(default_factory=list)
    occupancies: list[Occupancy] = field(default_factory=list)
    families: dict[str, Family] = field(default_factory=dict)

    def work(
        self,
        name: str,
        minutes: int,
        *,
        easy: bool = False,
        family: str | None = None,
        hands: int = 1,
        uses: Mapping[str, int] | None = None,
    ) -> str:
        """Add a task by hand; an easy one can be left to the helper, who takes longer."""
        uses = uses or {}
        demands = {"cooks": hands, **uses} if hands else dict(uses)
        modes = [Mode("cook", minutes, demands)]
        if easy and self.helper:
            demands = {"helper": 1, **uses}
            modes.append(Mode("helper", minutes * 13 // 10, demands))
        group = name.split("/", maxsplit=1)[0]
        self.tasks[name] = Task(name, tuple(modes), family=family, group=group)
        return name

    def then(self, before: str, after: str, high: int | None = None) -> None:
        """Let one task follow the end of another, at most ``high`` minutes later."""
        self.lags.append(Lag(before, "end", after, "start", 0, high))

    def keep(self, resource: str, fillers: list[str], until: str) -> None:
        """Keep one of a resource from the first filler to the end of the last use."""
        name = f"{resource} of {until}"
        self.occupancies.append(Occupancy(name, resource, 1, tuple(fillers), until))


def prep_day(dishes: int, cooks: int, seed: int, *, helper: bool = False) -> Problem:
    """A day of ``dishes`` dishes, each doubled, for ``cooks`` equal cooks."""
    rng = random.Random(f"{dishes} {cooks} {seed}")  # noqa: S311 - a benchmark, not a secret
    draft = _Draft(rng, helper)
    for family, (set_up, clean_down) in {"dice": (3, 3), "brown": (4, 5), "raw": (3, 5)}.items():
        names = _MEATS if family != "dice" else _VEGETABLES
        for name in names:
            draft.families[f"{family} {name}"] = Family(f"{family} {name}", set_up, clean_down)
    draft.work("day/set up", 20)
    kinds = (_stew, _stew, _soup, _bake, _bake, _slow, _kit)
    for number in range(1, dishes + 1):
        rng.choice(kinds)(draft, f"dish {number}")
    draft.work("day/clean up", 15)
    for name in list(draft.tasks):
        if name != "day/set up":
            draft.then("day/set up", name)
        if not name.startswith("day/"):
            draft.then(name, "day/clean up")
    return Problem(
        resources=_kitchen(cooks, dishes, helper=helper),
        tasks=draft.tasks,
        horizon=1440,
        lags=tuple(draft.lags),
        occupancies=tuple(draft.occupancies),
        families=draft.families,
        hands=("cooks", "helper") if helper else ("cooks",),
    )


def _kitchen(cooks: int, dishes: int, *, helper: bool) -> dict[str, Resource]:
    names = tuple(f"cook {number}" for number in range(1, cooks + 1))
    lunch = (Absence(240, 270, cooks),)
    resources = [
        Resource("cooks", cooks, lunch, names, (names,)),
        Resource("burner", 4 if dishes < 16 else 6),
        Resource("skillet", 2),
        Resource("pot", 4 if dishes < 16 else 6),
        Resource("board", 3),
        Resource("meat board", 1),
        Resource("oven", 2, warm_up=15, keeps=10),
        Resource("slow cooker", 1 if dishes < 10 else 3),
        Resource("sink", 1),
    ]
    if helper:
        resources.append(
            Resource("helper", 1, (Absence(240, 300, 1),), ("helper",), (("helper",),))
        )
    return {resource.id: resource for resource in resources}


def _vegetables(draft: _Draft, dish: str) -> list[str]:
    picked = draft.rng.sample(_VEGETABLES, draft.rng.randint(1, 3))
    return [
        draft.work(
            f"{dish}/dice {name}",
            draft.rng.randint(4, 12),
            family=f"dice {name}",
            uses={"board": 1},
        )
        for name in sorted(picked)
    ]


def _seared(draft: _Draft, dish: str, meat: str) -> list[str]:
    """Cut the meat, then brown it in loads, out of the refrigerator at most two hours."""
    cut = draft.work(
        f"{dish}/cut {meat}",
        draft.rng.randint(6, 14),
        family=f"raw {meat}",
        uses={"meat board": 1},
    )
    loads = [
        draft.work(
            f"{dish}/brown {meat} {load}",
            7,
            family=f"brown {meat}",
            uses={"skillet": 1, "burner": 1},
        )
        for load in range(1, draft.rng.randint(2, 4) + 1)
    ]
    for load in loads:
        draft.then(cut, load)
        draft.lags.append(Lag(cut, "start", load, "start", None, _MOST_OUT, weight=1))
    return loads


def _packed(draft: _Draft, dish: str, cooked: str) -> str:
    """Portion within reach of the two hours, then lay flat in the freezer when cold."""
    portion = draft.work(f"{dish}/portion", draft.rng.randint(10, 20), easy=True)
    cool = draft.work(f"{dish}/cool", draft.rng.randint(30, 60), hands=0)
    freeze = draft.work(f"{dish}/freeze", 4, easy=True)
    draft.lags.append(Lag(cooked, "end", portion, "start", 0, 60, weight=2))
    draft.then(portion, cool, 0)
    draft.lags.append(Lag(cool, "end", freeze, "start", 0, 60, weight=1))
    return portion


def _washed(draft: _Draft, dish: str, portion: str) -> str:
    wash = draft.work(f"{dish}/wash", draft.rng.randint(4, 8), easy=True, uses={"sink": 1})
    draft.then(portion, wash)
    return wash


def _pot(draft: _Draft, dish: str, seared: list[str]) -> None:
    """Sweat, bring to heat and simmer in a pot that is kept until it is washed."""
    sweat = draft.work(f"{dish}/sweat", draft.rng.randint(6, 10))
    simmer = draft.work(f"{dish}/simmer", draft.rng.choice((35, 50, 75, 95, 115)), hands=0)
    for part in _vegetables(draft, dish):
        draft.then(part, sweat)
    for load in seared:
        draft.lags.append(Lag(load, "end", simmer, "start", 0, _STRAIGHT_ON + 35))
        draft.lags.append(Lag(load, "end", sweat, "end", None, _STRAIGHT_ON))
    draft.then(sweat, simmer, 45)
    portion = _packed(draft, dish, simmer)
    wash = _washed(draft, dish, portion)
    draft.keep("pot", [sweat, *seared], wash)
    draft.keep("burner", [sweat], simmer)


def _stew(draft: _Draft, dish: str) -> None:
    _pot(draft, dish, _seared(draft, dish, draft.rng.choice(_MEATS)))


def _soup(draft: _Draft, dish: str) -> None:
    _pot(draft, dish, [])


def _bake(draft: _Draft, dish: str) -> None:
    """Put together and bake at a temperature within a tolerance."""
    put = draft.work(f"{dish}/assemble", draft.rng.randint(8, 18))
    for part in _vegetables(draft, dish):
        draft.then(part, put)
    setting = draft.rng.choice((350, 375, 400))
    name = f"{dish}/bake"
    minutes = draft.rng.choice((35, 45, 60))
    draft.tasks[name] = Task(
        name, (Mode("oven", minutes, {"oven": 1}),), settings=(setting - 25, setting, setting + 25)
    )
    draft.then(put, name, 30)
    _washed(draft, dish, _packed(draft, dish, name))


def _slow(draft: _Draft, dish: str) -> None:
    """Brown, fill the slow cooker, wait, shred."""
    loads = _seared(draft, dish, "beef cubes")
    fill = draft.work(f"{dish}/fill", 5)
    cook = draft.work(f"{dish}/slow-cook", 240, hands=0)
    for load in loads:
        draft.lags.append(Lag(load, "end", fill, "start", 0, 20))
    draft.then(fill, cook, 0)
    shred = draft.work(f"{dish}/shred", draft.rng.randint(10, 18))
    draft.lags.append(Lag(cook, "end", shred, "start", 0, 60))
    wash = _washed(draft, dish, _packed(draft, dish, shred))
    draft.keep("slow cooker", [fill], wash)


def _kit(draft: _Draft, dish: str) -> None:
    """Cut raw meat and bag it with its marinade."""
    meat = draft.rng.choice(_MEATS)
    cut = draft.work(
        f"{dish}/cut {meat}", draft.rng.randint(8, 16), family=f"raw {meat}", uses={"meat board": 1}
    )
    mix = draft.work(f"{dish}/mix", draft.rng.randint(4, 8))
    bag = draft.work(f"{dish}/bag", draft.rng.randint(8, 14))
    draft.then(cut, bag)
    draft.then(mix, bag)
    draft.lags.append(Lag(cut, "start", bag, "end", None, _MOST_OUT, weight=1))
