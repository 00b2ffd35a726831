"""Checks of names, choices, and what is done in which mode."""

from __future__ import annotations

from collections.abc import Iterator

from batchcook.scheduling.breach import Breach, holds, mode_of
from batchcook.scheduling.problem import Problem
from batchcook.scheduling.schedule import Schedule

__all__ = ["choices_are_taken", "conditions_hold", "modes_are_open", "names_are_known"]


def names_are_known(problem: Problem, schedule: Schedule) -> Iterator[Breach]:
    """Every task, mode, choice and warm-up of the schedule is one of the problem's."""
    for name, done in schedule.tasks.items():
        task = problem.tasks.get(name)
        if task is None:
            yield Breach("names", (name,), f"{name} is no task of the problem")
        elif done.mode not in {mode.id for mode in task.modes}:
            yield Breach("names", (name, done.mode), f"{name} has no mode {done.mode}")
        if done.follows is not None and done.follows not in schedule.tasks:
            yield Breach(
                "names", (name, done.follows), f"{name} follows {done.follows}, which is not done"
            )
    for choice in schedule.choices:
        if choice not in problem.choices:
            yield Breach("names", (choice,), f"{choice} is no choice of the problem")
    for item in schedule.warm_ups:
        if item.resource not in problem.resources or item.task not in schedule.tasks:
            yield Breach(
                "names",
                (item.resource, item.task),
                f"the warm-up of {item.resource} for {item.task} names something unknown",
            )


def choices_are_taken(problem: Problem, schedule: Schedule) -> Iterator[Breach]:
    """Every choice has taken one of its options."""
    for choice in problem.choices.values():
        taken = schedule.choices.get(choice.id)
        if taken not in choice.options:
            yield Breach("choices", (choice.id,), f"{choice.id} took no option, but {taken}")


def conditions_hold(problem: Problem, schedule: Schedule) -> Iterator[Breach]:
    """A task is done exactly when all its conditions hold."""
    for task in problem.tasks.values():
        due = holds(schedule, task.when)
        if due and task.id not in schedule.tasks:
            yield Breach("presence", (task.id,), f"{task.id} is due but not done")
        if not due and task.id in schedule.tasks:
            yield Breach("presence", (task.id,), f"{task.id} is done though it is not due")


def modes_are_open(problem: Problem, schedule: Schedule) -> Iterator[Breach]:
    """The mode of a task is open under the choices taken."""
    for name in schedule.tasks:
        mode = mode_of(problem, schedule, name)
        if not holds(schedule, mode.when):
            yield Breach("modes", (name, mode.id), f"{name} is done by {mode.id}, which is shut")
