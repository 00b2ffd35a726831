"""The decision variables of the CP-SAT model, declared from a problem."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from itertools import permutations

from ortools.sat.python import cp_model

from batchcook.scheduling.problem import Anchor, Condition, Mode, Problem, Task

__all__ = [
    "Expression",
    "Literal",
    "TaskVariables",
    "Variables",
    "conjunction",
    "declare",
    "linkable",
]

Literal = cp_model.IntVar
Expression = cp_model.LinearExpr


@dataclass(frozen=True)
class TaskVariables:
    """The variables of one task.

    Attributes:
        start: Start, set-up included.
        end: End of the work.
        release: End of the clean-down.
        size: Minutes from start to release.
        done: Whether the task is done.
        modes: Mode id to the literal that it is chosen; ``done`` itself for an only mode.
        opens: Whether it needs its set-up; None outside families.
        closes: Whether it needs its clean-down; None outside families.
        settings: Setting to the literal that it is done at it.
        held: Mode id to its interval from start to release, present where the mode is chosen.
    """

    start: Expression
    end: Expression
    release: Expression
    size: Expression | int
    done: Literal
    modes: Mapping[str, Literal]
    opens: Literal | None
    closes: Literal | None
    settings: Mapping[int, Literal]
    held: Mapping[str, cp_model.IntervalVar]

    def at(self, anchor: Anchor) -> Expression:
        """The start, or the end of the work."""
        return self.start if anchor == "start" else self.end


@dataclass
class Variables:
    """All variables of a model.

    Attributes:
        always: The literal that is true.
        makespan: The day's length.
        origin: The first start where the origin is free, else 0.
        options: Choice id and option to its literal.
        tasks: Task id to its variables.
        links: (earlier, later) part of a family to the literal that the later continues it.
        shares: (task, resource, class of units) to the amount it takes of that class.
        warmed: (task, resource) to the literal that the task has a warm-up of its own there.
        joins: (earlier, later, resource) to the literal that the later uses its setting.
        occupied: Occupancy id to its first start and whether it is.
        kept: Occupancy id to the minutes it lasts.
        waits: The minutes beyond their low of the weighted lags, with their weights.
        conjunctions: Literals already made for sets of conditions.
    """

    always: Literal
    makespan: Literal
    origin: Expression | int = 0
    options: dict[tuple[str, str], Literal] = field(default_factory=dict)
    tasks: dict[str, TaskVariables] = field(default_factory=dict)
    links: dict[tuple[str, str], Literal] = field(default_factory=dict)
    shares: dict[tuple[str, str, int], Literal] = field(default_factory=dict)
    warmed: dict[tuple[str, str], Literal] = field(default_factory=dict)
    joins: dict[tuple[str, str, str], Literal] = field(default_factory=dict)
    occupied: dict[str, tuple[Expression, Literal]] = field(default_factory=dict)
    kept: dict[str, Literal] = field(default_factory=dict)
    waits: list[tuple[int, Expression]] = field(default_factory=list)
    conjunctions: dict[frozenset[Condition], Literal] = field(default_factory=dict)


def declare(model: cp_model.CpModel, problem: Problem) -> Variables:
    """Declare the variables of a problem in a model."""
    variables = Variables(
        always=model.new_constant(1),
        makespan=model.new_int_var(0, problem.horizon, "makespan"),
    )
    if problem.free_origin:
        variables.origin = model.new_int_var(0, problem.horizon, "origin")
    _declare_choices(model, problem, variables)
    for task in problem.tasks.values():
        variables.tasks[task.id] = _declare_task(model, problem, task, variables)
    _declare_links(model, problem, variables)
    return variables


def conjunction(
    model: cp_model.CpModel, variables: Variables, conditions: Iterable[Condition]
) -> Literal:
    """The literal that all the conditions hold, made once for equal sets of them."""
    key = frozenset(conditions)
    if not key:
        return variables.always
    if key not in variables.conjunctions:
        ordered = sorted(key, key=lambda item: (item.choice, sorted(item.options)))
        parts = [_one_of(model, variables, item) for item in ordered]
        variables.conjunctions[key] = parts[0] if len(parts) == 1 else _all(model, parts)
    return variables.conjunctions[key]


def _all(model: cp_model.CpModel, parts: list[Literal]) -> Literal:
    literal = model.new_bool_var(" and ".join(part.name for part in parts))
    model.add_bool_and(parts).only_enforce_if(literal)
    model.add_bool_or([literal, *(~part for part in parts)])
    return literal


def _one_of(model: cp_model.CpModel, variables: Variables, condition: Condition) -> Literal:
    keys = [(condition.choice, option) for option in sorted(condition.options)]
    literals = [variables.options[key] for key in keys if key in variables.options]
    if len(literals) == 1:
        return literals[0]
    literal = model.new_bool_var(f"{condition.choice} in {sorted(condition.options)}")
    model.add(sum(literals) == literal)
    return literal


def _declare_choices(model: cp_model.CpModel, problem: Problem, variables: Variables) -> None:
    for choice in problem.choices.values():
        literals = [model.new_bool_var(f"{choice.id}={option}") for option in choice.options]
        model.add_exactly_one(literals)
        for option, literal in zip(choice.options, literals, strict=True):
            variables.options[choice.id, option] = literal


def _declare_task(
    model: cp_model.CpModel, problem: Problem, task: Task, variables: Variables
) -> TaskVariables:
    done = conjunction(model, variables, task.when)
    modes = _declare_modes(model, variables, task, done)
    start = model.new_int_var(0, problem.horizon, f"start {task.id}")
    opens = closes = None
    if task.family is None and len(task.modes) == 1:
        size: Expression | int = task.modes[0].duration
        end: Expression = start + task.modes[0].duration
        release: Expression = end
    elif task.family is None:
        size = _size(model, task, 0)
        end = release = model.new_int_var(0, problem.horizon, f"end {task.id}")
    else:
        family = problem.families[task.family]
        size = _size(model, task, family.set_up + family.clean_down)
        end = model.new_int_var(0, problem.horizon, f"end {task.id}")
        release = model.new_int_var(0, problem.horizon, f"release {task.id}")
        opens = model.new_bool_var(f"opens {task.id}")
        closes = model.new_bool_var(f"closes {task.id}")
    held = {
        mode.id: _interval(model, f"{task.id} {mode.id}", (start, size, release), modes[mode.id])
        for mode in task.modes
    }
    settings = _declare_settings(model, task, done)
    return TaskVariables(start, end, release, size, done, modes, opens, closes, settings, held)


def _size(model: cp_model.CpModel, task: Task, extra: int) -> Literal:
    durations = [mode.duration for mode in task.modes]
    return model.new_int_var(min(durations), max(durations) + extra, f"size {task.id}")


def _interval(
    model: cp_model.CpModel,
    name: str,
    times: tuple[Expression, Expression | int, Expression],
    present: Literal,
) -> cp_model.IntervalVar:
    return model.new_optional_interval_var(*times, present, name)


def _declare_modes(
    model: cp_model.CpModel, variables: Variables, task: Task, done: Literal
) -> dict[str, Literal]:
    if len(task.modes) == 1 and not task.modes[0].when:
        return {task.modes[0].id: done}
    literals = {mode.id: model.new_bool_var(f"{task.id} by {mode.id}") for mode in task.modes}
    model.add(sum(literals.values()) == done)
    for mode in task.modes:
        for condition in mode.when:
            opened = conjunction(model, variables, [condition])
            model.add_implication(literals[mode.id], opened)
    return literals


def _declare_settings(model: cp_model.CpModel, task: Task, done: Literal) -> dict[int, Literal]:
    settings = sorted(set(task.settings))
    if len(settings) == 1:
        return {settings[0]: done}
    literals = {value: model.new_bool_var(f"{task.id} at {value}") for value in settings}
    if literals:
        model.add(sum(literals.values()) == done)
    return literals


def _declare_links(model: cp_model.CpModel, problem: Problem, variables: Variables) -> None:
    parts: dict[str, list[Task]] = {}
    for task in problem.tasks.values():
        if task.family is not None:
            parts.setdefault(task.family, []).append(task)
    for family in parts.values():
        for earlier, later in permutations(family, 2):
            if _share_a_mode(problem, earlier, later):
                variables.links[earlier.id, later.id] = model.new_bool_var(
                    f"{later.id} continues {earlier.id}"
                )


def _share_a_mode(problem: Problem, earlier: Task, later: Task) -> bool:
    return any(linkable(problem, mode, other) for mode in earlier.modes for other in later.modes)


def linkable(problem: Problem, mode: Mode, other: Mode) -> bool:
    """Whether a part in one mode can continue a part in the other: same name, same units."""
    named = [item.id for item in problem.resources.values() if item.units]
    return mode.id == other.id and all(
        mode.demands.get(name, 0) == other.demands.get(name, 0) for name in named
    )
