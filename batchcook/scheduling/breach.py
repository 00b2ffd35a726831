"""A broken rule, and the readings of a problem that the checks share."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from batchcook.scheduling.problem import Anchor, Condition, Mode, Problem
from batchcook.scheduling.schedule import Done, Schedule

__all__ = ["Breach", "at", "demand", "holds", "mode_of", "tie"]


@dataclass(frozen=True)
class Breach:
    """A rule that a schedule breaks.

    Attributes:
        rule: The rule's name.
        ids: The tasks, resources or other elements concerned.
        message: What is wrong, in a sentence.
    """

    rule: str
    ids: tuple[str, ...]
    message: str

    def __str__(self) -> str:
        """The sentence."""
        return self.message


def holds(schedule: Schedule, conditions: Iterable[Condition]) -> bool:
    """Whether every condition agrees with the choices taken."""
    return all(schedule.choices.get(item.choice) in item.options for item in conditions)


def mode_of(problem: Problem, schedule: Schedule, task: str) -> Mode:
    """The mode in which a task is done."""
    chosen = schedule.tasks[task].mode
    return next(mode for mode in problem.tasks[task].modes if mode.id == chosen)


def demand(problem: Problem, schedule: Schedule, task: str, resource: str) -> int:
    """How much of a resource a task holds as it is done."""
    return mode_of(problem, schedule, task).demands.get(resource, 0)


def at(done: Done, anchor: Anchor) -> int:
    """The minute of an anchor: the start, or the end of the work."""
    return done.start if anchor == "start" else done.end


def tie(problem: Problem, schedule: Schedule, task: str) -> tuple[int, int]:
    """A strict order of tasks: by start, then by place in the problem."""
    return schedule.tasks[task].start, list(problem.tasks).index(task)
