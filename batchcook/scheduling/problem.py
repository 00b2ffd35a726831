"""A resource-constrained scheduling problem, stated as data.

The classical multi-mode RCPSP with minimal and maximal time lags (Brucker et al., European
Journal of Operational Research 112 (1999) 3-41; Neumann, Schwindt and Zimmermann, Project
Scheduling with Time Windows and Scarce Resources, 2003), extended by what a workshop needs:
set-up families, occupancies that span tasks, settings, and choices that several elements share.
Times are integer minutes from the origin 0. Nothing here knows what a task is about.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

__all__ = [
    "Absence",
    "Anchor",
    "Budget",
    "Choice",
    "Condition",
    "Family",
    "Lag",
    "Mode",
    "Occupancy",
    "Problem",
    "Resource",
    "Span",
    "Task",
]

Anchor = Literal["start", "end"]


@dataclass(frozen=True)
class Condition:
    """True when ``choice`` took one of ``options``."""

    choice: str
    options: frozenset[str]


@dataclass(frozen=True)
class Choice:
    """A decision with several exclusive options, taken once for all that refer to it."""

    id: str
    options: tuple[str, ...]


@dataclass(frozen=True)
class Absence:
    """``amount`` of a resource is missing in the half-open interval [start, end)."""

    start: int
    end: int
    amount: int


@dataclass(frozen=True)
class Resource:
    """A renewable resource.

    Attributes:
        id: Name.
        capacity: How much of it can be in use at once.
        absences: When some of it is missing.
        units: Names of its interchangeable units, as many as the capacity, or empty. Where they
            are named, a schedule says which unit each task used, and the links of a family's run
            keep one unit.
        absence_units: For each absence of a resource with named units, which units are missing
            (same order as ``absences``).
        warm_up: None for an ordinary resource. A number makes it one that keeps a *setting* (an
            oven its temperature): a task on it starts right after ``warm_up`` minutes in which
            the whole resource is reserved for that change, unless the setting is already kept.
        keeps: How long after its last task a setting is kept; at most ``warm_up``.
        warming: What a warm-up demands of other resources while it lasts.
    """

    id: str
    capacity: int
    absences: tuple[Absence, ...] = ()
    units: tuple[str, ...] = ()
    absence_units: tuple[tuple[str, ...], ...] = ()
    warm_up: int | None = None
    keeps: int = 0
    warming: Mapping[str, int] = field(default_factory=dict)

    def warm_up_takes(self, resource: str) -> int:
        """How much of a resource, itself or another, is in use while this one warms up."""
        return self.capacity if resource == self.id else self.warming.get(resource, 0)


@dataclass(frozen=True)
class Mode:
    """One way to do a task.

    Attributes:
        id: Name, unique within the task. The parts of a family give equal ways equal names.
        duration: Minutes of the work itself.
        demands: Resource id to amount, held from start to release.
        when: Choices that must have been taken so for this mode to be open.
    """

    id: str
    duration: int
    demands: Mapping[str, int] = field(default_factory=dict)
    when: tuple[Condition, ...] = ()


@dataclass(frozen=True)
class Family:
    """Tasks that share a set-up when one follows another without a gap.

    A part that begins where another part of the family ends, in a mode of the same name and on
    the same units, needs no set-up, and the earlier one no clean-down. A part lasts at least a
    minute, which rules out cycles of links.

    Attributes:
        id: Name.
        set_up: Minutes before the work of the first part of a run. They belong to that part:
            its start is the start of the set-up.
        clean_down: Minutes after the work of the last part of a run. That part's *end* is the
            end of its work; its *release* is the end of the clean-down, and until then it keeps
            what it demands.
    """

    id: str
    set_up: int
    clean_down: int


@dataclass(frozen=True)
class Task:
    """Work to be scheduled without interruption.

    Attributes:
        id: Name.
        modes: The ways to do it, at least one.
        when: It is done only if all these hold; always, where empty.
        family: The family it is a part of, or None.
        settings: The settings it could be done at, for a task whose modes demand a resource
            with ``warm_up``; empty otherwise. Tasks that overlap on such a resource share one.
        earliest: Start no earlier than this, or None.
        latest: End (of the work) no later than this, or None.
        group: Tasks of one group are better done by the same unit; None for no preference.
        reason: Why ``earliest`` or ``latest`` holds, for explaining a conflict.
    """

    id: str
    modes: tuple[Mode, ...]
    when: tuple[Condition, ...] = ()
    family: str | None = None
    settings: tuple[int, ...] = ()
    earliest: int | None = None
    latest: int | None = None
    group: str | None = None
    reason: str = ""


@dataclass(frozen=True)
class Lag:
    """``low`` <= (``to`` of ``after``) - (``origin`` of ``before``) <= ``high``, in minutes.

    It binds only when both tasks are done and ``when`` holds. None is no limit. ``weight`` is the
    cost of each minute of that difference beyond ``low`` (0 where low is None), for the level of
    the objective that counts waiting.
    """

    before: str
    origin: Anchor
    after: str
    to: Anchor
    low: int | None = 0
    high: int | None = None
    when: tuple[Condition, ...] = ()
    weight: int = 0
    reason: str = ""


@dataclass(frozen=True)
class Span:
    """The time from an anchor of one task to an anchor of another."""

    before: str
    origin: Anchor
    after: str
    to: Anchor


@dataclass(frozen=True)
class Budget:
    """The spans together last at most ``limit`` minutes; a span of an absent task counts 0."""

    id: str
    spans: tuple[Span, ...]
    limit: int
    reason: str = ""


@dataclass(frozen=True)
class Occupancy:
    """``amount`` of a resource is kept from the first start of ``fillers`` to the end of ``until``.

    Absent fillers do not count; with no filler done there is no occupancy. ``until`` is done
    whenever a filler is and ``when`` holds.
    """

    id: str
    resource: str
    amount: int
    fillers: tuple[str, ...]
    until: str
    when: tuple[Condition, ...] = ()


@dataclass(frozen=True)
class Problem:
    """A whole problem.

    Attributes:
        resources: By id, as are tasks, families and choices.
        horizon: No task is released after this minute.
        hands: Ids of the resources whose busy minutes (demand times time held, set-ups and
            clean-downs included) the second level of the objective counts.
        free_origin: False: the day begins at 0 and the makespan is the last release. True: the
            makespan is the last release less the first start of a task or a warm-up (a day with
            only a latest finish).
    """

    resources: Mapping[str, Resource]
    tasks: Mapping[str, Task]
    horizon: int
    lags: tuple[Lag, ...] = ()
    budgets: tuple[Budget, ...] = ()
    occupancies: tuple[Occupancy, ...] = ()
    families: Mapping[str, Family] = field(default_factory=dict)
    choices: Mapping[str, Choice] = field(default_factory=dict)
    hands: tuple[str, ...] = ()
    free_origin: bool = False
