"""Random problems small enough to be solved by trying everything."""

from __future__ import annotations

from hypothesis import strategies as st

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

__all__ = ["small_problems"]

_BOTH: tuple[Anchor, ...] = ("start", "end")
_ANCHORS = st.sampled_from(_BOTH)
_UNITS = ("u", "v")


@st.composite
def small_problems(draw: st.DrawFn) -> Problem:
    """Two or three tasks with a few of everything a problem can have."""
    count = draw(st.integers(2, 3))
    warm = count == 2 and draw(st.booleans())
    choices = {"c": Choice("c", ("x", "y"))} if draw(st.booleans()) else {}
    families = {"f": Family("f", draw(st.integers(0, 2)), draw(st.integers(0, 1)))}
    tasks = {}
    for number in range(count):
        task = _task(draw, f"t{number}", choices, warm=warm, several=count == 2)
        tasks[task.id] = task
    names = list(tasks)
    return Problem(
        resources=_resources(draw, warm=warm),
        tasks=tasks,
        horizon=draw(st.integers(4, 7)),
        lags=tuple(_lag(draw, names, choices) for _ in range(draw(st.integers(0, 2)))),
        budgets=_budgets(draw, names),
        occupancies=_occupancies(draw, names),
        families=families,
        choices=choices,
        hands=("cook",),
        free_origin=draw(st.booleans()),
    )


def _resources(draw: st.DrawFn, *, warm: bool) -> dict[str, Resource]:
    named = draw(st.booleans())
    absences = []
    away = []
    for _ in range(draw(st.integers(0, 2))):
        start = draw(st.integers(0, 4))
        missing = draw(st.sampled_from((("u",), ("v",), ("u", "v"))))
        absences.append(Absence(start, start + draw(st.integers(1, 2)), len(missing)))
        away.append(missing)
    cook = Resource(
        "cook",
        2,
        tuple(absences),
        _UNITS if named else (),
        tuple(away) if named else (),
    )
    pot = Resource("pot", draw(st.integers(1, 2)))
    resources = {"cook": cook, "pot": pot}
    if warm:
        keeps = draw(st.integers(0, 1))
        for oven in ("oven", "other oven"):
            heat_up = draw(st.integers(keeps, 2))
            resources[oven] = Resource(oven, 2, warm_up=heat_up, keeps=keeps)
    return resources


def _task(
    draw: st.DrawFn, name: str, choices: dict[str, Choice], *, warm: bool, several: bool
) -> Task:
    family = draw(st.sampled_from((None, "f")))
    bakes = warm and draw(st.booleans())
    modes = []
    for mode in ("m", "n")[: draw(st.integers(1, 2)) if several else 1]:
        demands = {
            "cook": draw(st.integers(0, 2)),
            "pot": draw(st.integers(0, 1)),
        }
        if bakes:
            demands[draw(st.sampled_from(("oven", "other oven")))] = 1
        when = _conditions(draw, choices) if mode == "n" else ()
        duration = draw(st.integers(0 if family is None and not bakes else 1, 3))
        modes.append(
            Mode(mode, duration, {key: amount for key, amount in demands.items() if amount}, when)
        )
    return Task(
        name,
        tuple(modes),
        when=_conditions(draw, choices) if draw(st.integers(0, 3)) == 0 else (),
        family=family,
        settings=draw(st.sampled_from(((1,), (2,), (1, 2)))) if bakes else (),
        earliest=draw(st.sampled_from((None, None, 1))),
        latest=draw(st.sampled_from((None, None, 5))),
        group=draw(st.sampled_from((None, "g"))),
    )


def _conditions(draw: st.DrawFn, choices: dict[str, Choice]) -> tuple[Condition, ...]:
    if not choices:
        return ()
    return (Condition("c", frozenset({draw(st.sampled_from(("x", "y")))})),)


def _lag(draw: st.DrawFn, names: list[str], choices: dict[str, Choice]) -> Lag:
    before = draw(st.sampled_from(names))
    after = draw(st.sampled_from([name for name in names if name != before]))
    low = draw(st.sampled_from((None, 0, 0, 1, -1)))
    high = draw(st.sampled_from((None, 0, 1, 3)))
    if low is not None and high is not None:
        high = max(low, high)
    when = _conditions(draw, choices) if draw(st.booleans()) else ()
    weight = draw(st.integers(0, 2))
    return Lag(before, draw(_ANCHORS), after, draw(_ANCHORS), low, high, when, weight)


def _budgets(draw: st.DrawFn, names: list[str]) -> tuple[Budget, ...]:
    if draw(st.integers(0, 2)):
        return ()
    first = Span(names[0], "start", names[1], "end")
    second = Span(names[-1], draw(_ANCHORS), names[0], draw(_ANCHORS))
    return (Budget("b", (first, second), draw(st.integers(0, 4))),)


def _occupancies(draw: st.DrawFn, names: list[str]) -> tuple[Occupancy, ...]:
    if draw(st.integers(0, 2)):
        return ()
    fillers = tuple(names[: draw(st.integers(1, len(names)))])
    return (Occupancy("o", "pot", 1, fillers, names[-1]),)
