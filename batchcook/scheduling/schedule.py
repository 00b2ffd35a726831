"""What a solver answers: a schedule, how good it is known to be, or why there is none."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum

__all__ = ["Answer", "Done", "InUse", "Level", "Outcome", "Schedule", "WarmUp"]


@dataclass(frozen=True)
class Done:
    """One task as scheduled, in minutes from the origin.

    Attributes:
        start: Start, set-up included.
        work: Start of the work itself (after the set-up; equal to start where there is none).
        end: End of the work.
        release: End of the clean-down (equal to end where there is none).
        mode: The chosen mode's name.
        follows: The part of the same family that it continues, or None.
        setting: The setting it is done at, or None.
        units: Resource id to the names of the units used, for resources with named units.
    """

    start: int
    work: int
    end: int
    release: int
    mode: str
    follows: str | None = None
    setting: int | None = None
    units: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


@dataclass(frozen=True)
class WarmUp:
    """A resource is brought to a setting, all of it reserved, for the task that starts at end."""

    resource: str
    start: int
    end: int
    setting: int
    task: str


@dataclass(frozen=True)
class Schedule:
    """Tasks that are done (absent ones are not listed), choices taken, settings changed."""

    tasks: Mapping[str, Done]
    choices: Mapping[str, str] = field(default_factory=dict)
    warm_ups: tuple[WarmUp, ...] = ()

    @property
    def first(self) -> int:
        """The minute in which the first task or warm-up begins; 0 where nothing is done."""
        starts = [done.start for done in self.tasks.values()]
        return min([*starts, *(each.start for each in self.warm_ups)], default=0)


@dataclass(frozen=True)
class InUse:
    """A schedule that somebody works by: what is as good in another way is better left as it is.

    Attributes:
        starts: When tasks start in it.
        units: Who or what does them, where that is a unit with a name.
    """

    starts: Mapping[str, int]
    units: Mapping[str, str]


class Answer(Enum):
    """Three answers, not two."""

    PLAN = "plan"
    IMPOSSIBLE = "impossible"
    UNKNOWN = "unknown"


@dataclass(frozen=True)
class Level:
    """One level of the lexicographic objective: its value, and the best bound known for it.

    The bound of a level holds given the values of the levels above it.
    """

    name: str
    value: int
    bound: int

    @property
    def proved(self) -> bool:
        """True when value and bound meet."""
        return self.value == self.bound


@dataclass(frozen=True)
class Outcome:
    """A solver's answer.

    Attributes:
        answer: A plan, proof that there is none, or not known in the time given.
        schedule: Present exactly with a plan.
        levels: In order of importance: makespan, hands-on, waiting, hand-overs.
        seconds: Time it took.
        reserved: Whether something of every budget was kept in hand, which the levels hold for.
    """

    answer: Answer
    schedule: Schedule | None = None
    levels: tuple[Level, ...] = ()
    seconds: float = 0.0
    reserved: bool = False
