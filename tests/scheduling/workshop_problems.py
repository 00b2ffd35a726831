"""Random problems of three to seven tasks with all that a problem can have.

Too large to be solved by trying everything. Spans of budgets and occupancies lead forward, as those
of food and vessels do.
"""

from __future__ import annotations

import random
from dataclasses import replace

from batchcook.scheduling.problem import (
    Absence,
    Anchor,
    Budget,
    Choice,
    Condition,
    Family,
    Lag,
    Mode,
    Occupancy,
    Problem,
    Resource,
    Span,
    Task,
)

__all__ = ["workshop_problem"]

_UNITS = ("u", "v")
_ANCHORS: tuple[Anchor, ...] = ("start", "end")


def workshop_problem(seed: int) -> Problem:
    """The problem of a seed; many have no schedule."""
    rng = random.Random(seed)  # noqa: S311 - variety, not secrecy
    choices = {
        name: Choice(name, ("x", "y", "z")[: rng.randint(2, 3)])
        for name in ("c", "d")[: rng.choice((0, 0, 1, 1, 2))]
    }
    families = {
        name: Family(name, rng.randint(0, 3), rng.randint(0, 3))
        for name in ("f", "g")[: rng.choice((0, 1, 1, 2))]
    }
    ovens = ("oven", "other oven")[: rng.choice((0, 0, 1, 2))]
    resources = _resources(rng, ovens)
    tasks = {
        name: _task(rng, name, choices, tuple(families), ovens)
        for name in (f"t{number}" for number in range(rng.randint(3, 7)))
    }
    empty = Problem(resources, tasks, rng.randint(14, 40), families=families, choices=choices)
    budgets = _budgets(rng, empty)
    occupancies = _occupancies(rng, empty)
    forward = [
        *(Lag(each.before, "start", each.after, "start") for b in budgets for each in b.spans),
        *(Lag(name, "end", o.until, "start") for o in occupancies for name in o.fillers),
    ]
    return replace(
        empty,
        lags=(*_lags(rng, empty), *forward),
        budgets=budgets,
        occupancies=occupancies,
        hands=("cook",),
        free_origin=rng.random() < 0.2,
    )


def _resources(rng: random.Random, ovens: tuple[str, ...]) -> dict[str, Resource]:
    away = [rng.choice((("u",), ("v",), _UNITS)) for _ in range(rng.choice((0, 0, 1, 2)))]
    starts = [rng.randint(0, 12) for _ in away]
    absences = tuple(
        Absence(start, start + rng.randint(1, 5), len(units))
        for start, units in zip(starts, away, strict=True)
    )
    named = rng.random() < 0.5
    found = [
        Resource("cook", 2, absences, _UNITS if named else (), tuple(away) if named else ()),
        Resource("pot", rng.randint(1, 3), (Absence(3, 6, 1),) if rng.random() < 0.3 else ()),
        Resource("somebody", 2),
    ]
    for name in ovens:
        heat_up = rng.randint(1, 4)
        warming = {"somebody": 1} if rng.random() < 0.5 else {}
        keeps = rng.randint(0, heat_up)
        found.append(
            Resource(name, rng.randint(1, 2), warm_up=heat_up, keeps=keeps, warming=warming)
        )
    return {each.id: each for each in found}


def _task(
    rng: random.Random,
    name: str,
    choices: dict[str, Choice],
    families: tuple[str, ...],
    ovens: tuple[str, ...],
) -> Task:
    family = rng.choice((None, *families))
    bakes = bool(ovens) and family is None and rng.random() < 0.6
    modes = []
    for mode in ("m", "n")[: rng.choice((1, 1, 2))]:
        demands = {
            "cook": rng.choice((0, 1, 1, 2)),
            "pot": rng.choice((0, 0, 1)),
            "somebody": rng.choice((0, 0, 1)),
        }
        if bakes:
            demands[rng.choice(ovens)] = 1
        kept = {key: amount for key, amount in demands.items() if amount}
        minutes = rng.randint(1 if family or bakes else 0, 7)
        when = _conditions(rng, choices) if mode == "n" and rng.random() < 0.3 else ()
        modes.append(Mode(mode, minutes, kept, when))
    return Task(
        name,
        tuple(modes),
        when=_conditions(rng, choices) if rng.random() < 0.3 else (),
        family=family,
        settings=tuple(rng.sample((1, 2, 3), rng.randint(1, 2))) if bakes else (),
        earliest=rng.choice((None, None, None, rng.randint(0, 8))),
        latest=rng.choice((None, None, None, rng.randint(10, 30))),
        group=rng.choice((None, "g", "h")),
    )


def _conditions(rng: random.Random, choices: dict[str, Choice]) -> tuple[Condition, ...]:
    names = rng.sample(sorted(choices), rng.randint(1, len(choices))) if choices else []
    return tuple(
        Condition(name, frozenset(rng.sample(options, rng.randint(1, len(options) - 1))))
        for name in names
        for options in [choices[name].options]
    )


def _two(rng: random.Random, problem: Problem) -> tuple[str, str]:
    """Two tasks in their order."""
    first, second = sorted(rng.sample(range(len(problem.tasks)), 2))
    names = list(problem.tasks)
    return names[first], names[second]


def _lags(rng: random.Random, problem: Problem) -> list[Lag]:
    found = []
    for _ in range(rng.randint(0, len(problem.tasks))):
        before, after = _two(rng, problem)
        low = rng.choice((None, 0, 0, 0, 1, 3, -2))
        high = rng.choice((None, None, 0, 3, 6, 10))
        if low is not None and high is not None:
            high = max(low, high)
        origin, to = rng.choice(_ANCHORS[:1] + 2 * _ANCHORS[1:]), rng.choice(_ANCHORS)
        when = _conditions(rng, dict(problem.choices)) if rng.random() < 0.2 else ()
        found.append(Lag(before, origin, after, to, low, high, when, rng.randint(0, 2)))
    return found


def _budgets(rng: random.Random, problem: Problem) -> tuple[Budget, ...]:
    found = []
    for number in range(rng.choice((0, 0, 1, 2))):
        pairs = [_two(rng, problem) for _ in range(rng.randint(1, 3))]
        spans = tuple(
            Span(before, "start", after, rng.choice(_ANCHORS))
            for before, after in pairs
            if set(problem.tasks[after].when) <= set(problem.tasks[before].when)
        )
        if spans:
            found.append(Budget(f"b{number}", spans, rng.randint(2, 20)))
    return tuple(found)


def _occupancies(rng: random.Random, problem: Problem) -> tuple[Occupancy, ...]:
    found = []
    names = list(problem.tasks)
    for number in range(rng.choice((0, 1, 1, 2))):
        place = rng.randint(1, len(names) - 1)
        until = problem.tasks[names[place]]
        fillers = tuple(
            name
            for name in sorted(rng.sample(names[:place], min(place, rng.randint(1, 2))))
            if set(until.when) <= set(problem.tasks[name].when)
        )
        if fillers:
            when = _conditions(rng, dict(problem.choices)) if rng.random() < 0.3 else ()
            found.append(Occupancy(f"o{number}", "pot", 1, fillers, until.id, when))
    return tuple(found)
