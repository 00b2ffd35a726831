"""What a plan is, and its JSON form.

A plan holds everything that paper, screen and freezer need, so each of them can be made again
from ``plan.json`` alone. Instants are local wall-clock times to the minute.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable, Iterator
from datetime import date
from pathlib import Path
from typing import Final, Literal, Self

from pydantic import ConfigDict, Field, ValidationError, model_validator

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.planparts.changed import Change, Order, Replanned
from batchcook.planparts.packed import Container, Cooling, Freezing, NightAddition
from batchcook.planparts.part import Instant, Part
from batchcook.planparts.summary import AtRisk, Summary, Sureness, WhatIf
from batchcook.shapewords import fault_words, own_fault
from batchcook.tomlfiles import read_json

__all__ = [
    "FORMAT",
    "Absence",
    "Apart",
    "AtRisk",
    "Bowl",
    "Budget",
    "Change",
    "Container",
    "Cook",
    "Cooling",
    "Deadline",
    "Dish",
    "Event",
    "Freezing",
    "Instant",
    "Lag",
    "NightAddition",
    "Occupancy",
    "Order",
    "Plan",
    "Replanned",
    "Resource",
    "Setting",
    "SharedRun",
    "ShoppingLine",
    "Span",
    "Summary",
    "Sureness",
    "Task",
    "WhatIf",
    "read_plan",
    "write_plan",
]

FORMAT: Final = "batchcook-plan/1"

Anchor = Literal["start", "end"]


class Absence(Part):
    """So much of a resource is missing for a while, and why, where somebody said so."""

    from_: Instant = Field(alias="from")
    to: Instant
    amount: int
    why: str = ""


class Resource(Part):
    """Something of which only so much can be in use at once; a cook is ``cook:NAME``."""

    id: str
    capacity: int
    away: tuple[Absence, ...] = ()


class Cook(Part):
    """A person of the day: the id without ``cook:``, and the name on paper."""

    id: str
    name: str


class Dish(Part):
    """A recipe times its batches.

    ``state`` is cooked, part-baked or raw-kit: how it goes into the freezer. ``letter`` is that of
    its containers' codes, which stays its own when another dish is given up; empty in older plans.
    """

    id: str
    title: str
    batches: int
    servings: int
    state: str
    makes: str
    letter: str = ""


class Task(Part):
    """One piece of work that is done.

    Attributes:
        dishes: Dish id to the amount it gets from this task, as text; empty for work on the
            day itself.
        run: The shared run it is a part of, or None.
        cook: Whose hands, or None while it cooks by itself.
        uses: Resource id to amount, from start to end.
        words: What the cook reads besides the title.
        amounts: What goes in, one line each.
        bowl: The named bowl that its outcome goes to, or an empty string.
        station: Where it happens: board, skillet, pot, oven, slow cooker, counter, sink,
            refrigerator. The picture of the day draws by it.
        label: A few words for the picture of the day.
    """

    id: str
    title: str
    technique: str
    dishes: dict[str, str] = Field(default_factory=dict)
    run: str | None = None
    start: Instant
    end: Instant
    cook: str | None = None
    uses: dict[str, int] = Field(default_factory=dict)
    words: str = ""
    amounts: tuple[str, ...] = ()
    bowl: str = ""
    station: str = "counter"
    label: str = ""

    @model_validator(mode="after")
    def _ends_after_it_begins(self) -> Self:
        if self.end < self.start:
            raise own_fault(
                f"ends at {self.end:%Y-%m-%dT%H:%M}, before it begins",
                f"{self.start:%Y-%m-%dT%H:%M} or later",
            )
        return self


class Lag(Part):
    """``min`` <= ``to`` of ``after`` less ``from`` of ``before`` <= ``max``, in minutes."""

    before: str
    from_: Anchor = Field(alias="from")
    after: str
    to: Anchor
    min_minutes: int | None
    max_minutes: int | None
    reason: str = ""


class Occupancy(Part):
    """A resource kept from the start of one task to the end of another."""

    resource: str
    amount: int
    from_task: str
    to_task: str


class Span(Part):
    """From an anchor of one task to an anchor of another."""

    before: str
    from_: Anchor = Field(alias="from")
    after: str
    to: Anchor


class Budget(Part):
    """The minutes that a food may spend between 40 and 140 degF in all: its spans added up.

    ``limit_minutes`` is what its straight ways from one heat to the next leave of the clock.
    """

    dish: str
    food: str
    spans: tuple[Span, ...]
    limit_minutes: int


class Setting(Part):
    """The oven temperature a task is done at."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    resource: str
    task: str
    degF: int  # noqa: N815 - the name that plan.json carries


class Event(Part):
    """Something that starts or stops a food's time out of refrigeration.

    ``event`` is out, on-heat, off-heat, held-hot, refrigerated or frozen.
    """

    dish: str
    food: str
    kind: str
    event: Literal["out", "on-heat", "off-heat", "held-hot", "refrigerated", "frozen"]
    at: Instant
    task: str


class Bowl(Part):
    """One dish's share of a shared run."""

    name: str
    dish: str
    amount: str
    task: str
    ready: Instant


class SharedRun(Part):
    """A run of parts that one cook does without putting the knife down.

    Attributes:
        minutes_saved: Hands-on minutes that doing the parts apart would have cost besides.
        note: Why it was split or kept apart, where it was; else empty.
    """

    id: str
    title: str
    technique: str
    food: str
    cook: str
    start: Instant
    end: Instant
    bowls: tuple[Bowl, ...]
    minutes_saved: int
    note: str = ""


class Apart(Part):
    """Dishes that do by themselves what they could do with others, and why, in words."""

    dishes: tuple[str, ...]
    words: str


class Deadline(Part):
    """A time by which food must be somewhere safe, for the margin of the run sheet."""

    at: Instant
    dish: str
    task: str
    words: str


class ShoppingLine(Part):
    """What to buy of one food.

    Attributes:
        amount: As purchased, as text that a shop understands.
        grams: The same weight.
        dishes: Which dishes it is for.
        when: When to buy it, or an empty string.
        later: True for what is bought for the evening it is eaten, not for the prep day.
        purchase: The packs to take, or an empty string where they are not worked out.
        leftover: What is left of them, or an empty string.
        on_hand: What is at home already and was taken off, or an empty string.
        buy_from: The first day on which it may be bought; None where any day does.
        cost: What the packs cost, in the currency of the price list; None where that is unknown.
    """

    food: str
    section: str
    amount: str
    grams: int
    dishes: tuple[str, ...]
    when: str = ""
    later: bool = False
    purchase: str = ""
    leftover: str = ""
    on_hand: str = ""
    buy_from: date | None = None
    cost: float | None = None


class Plan(Part):
    """A prep day, planned."""

    format: Literal["batchcook-plan/1"] = FORMAT
    date: date
    start: Instant
    finish: Instant
    system: Literal["us", "metric"] = "us"
    summary: Summary
    sure: Sureness | None = None
    cooks: tuple[Cook, ...]
    dishes: tuple[Dish, ...]
    resources: tuple[Resource, ...]
    tasks: tuple[Task, ...]
    lags: tuple[Lag, ...] = ()
    budgets: tuple[Budget, ...] = ()
    occupancies: tuple[Occupancy, ...] = ()
    settings: tuple[Setting, ...] = ()
    events: tuple[Event, ...] = ()
    paper: Literal["letter", "a4"] = "letter"
    shared: tuple[SharedRun, ...] = ()
    apart: tuple[Apart, ...] = ()
    deadlines: tuple[Deadline, ...] = ()
    containers: tuple[Container, ...] = ()
    cooling: tuple[Cooling, ...] = ()
    freezing: tuple[Freezing, ...] = ()
    shopping: tuple[ShoppingLine, ...] = ()
    day_before: tuple[str, ...] = ()
    tonight: str = ""
    tonight_at: Instant | None = None
    morning_after: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    what_if: tuple[WhatIf, ...] = ()
    order: Order | None = None
    replanned: Replanned | None = None
    notes: tuple[str, ...] = ()


def write_plan(plan: Plan) -> str:
    """The plan as the text of a ``plan.json`` file."""
    return plan.model_dump_json(by_alias=True, indent=1) + "\n"


def read_plan(path: Path) -> Plan:
    """The plan in a ``plan.json`` file, or in a plan folder.

    Raises:
        InputFault: There is no such file, or it is not a plan that this version reads.
    """
    file = path / "plan.json" if path.is_dir() else path
    found = read_json(file, "a plan folder or its plan.json")
    written = found.get("format") if isinstance(found, dict) else None
    if written != FORMAT:
        what = f"says format {written!r}"
        raise InputFault(Complaint(str(file), what, f"{FORMAT!r}, which this version reads"))
    try:
        # By way of JSON again: only so are numbers no texts, and texts no numbers.
        plan = Plan.model_validate_json(json.dumps(found), strict=True)
    except ValidationError as fault:
        raise InputFault(
            [
                Complaint(f"{file}, {'.'.join(map(str, each['loc']))}", *fault_words(each))
                for each in fault.errors()
            ]
        ) from None
    strays = [Complaint(f"{file}, {where}", *told) for where, *told in _strays(plan)]
    if strays:
        raise InputFault(strays)
    return plan


def _strays(plan: Plan) -> Iterator[tuple[str, str, str, str]]:
    """Where it names a task, dish, cook or resource that it does not have, and which it may mean.

    A file that was changed by hand is so told of before anything is made of it.
    """
    tasks = [task.id for task in plan.tasks]
    for name, count in Counter(tasks).items():
        if count > 1:
            yield "tasks", f"{name!r} stands there {count} times", "each once", ""
    known = {
        "task": tasks,
        "dish": [dish.id for dish in plan.dishes],
        "cook": [cook.id for cook in plan.cooks],
        "resource": [resource.id for resource in plan.resources],
    }
    for where, kind, names in (*_named_by_tasks(plan), *_named_besides(plan)):
        for name in names:
            if name not in known[kind]:
                near = nearest(name, known[kind])
                yield where, f"unknown {kind} {name!r}", "one of the plan's own", near


def _named_by_tasks(plan: Plan) -> Iterator[tuple[str, str, Iterable[str]]]:
    """Each task with a kind of name and the names of that kind that it holds."""
    for place, task in enumerate(plan.tasks):
        yield f"tasks.{place}", "cook", () if task.cook is None else (task.cook,)
        yield f"tasks.{place}", "dish", task.dishes
        yield f"tasks.{place}", "resource", task.uses


def _named_besides(plan: Plan) -> Iterator[tuple[str, str, Iterable[str]]]:
    """The same of what holds between tasks, and happens in them."""
    for place, lag in enumerate(plan.lags):
        yield f"lags.{place}", "task", (lag.before, lag.after)
    for place, budget in enumerate(plan.budgets):
        for span in budget.spans:
            yield f"budgets.{place}", "task", (span.before, span.after)
    for place, kept in enumerate(plan.occupancies):
        yield f"occupancies.{place}", "task", (kept.from_task, kept.to_task)
        yield f"occupancies.{place}", "resource", (kept.resource,)
    for place, setting in enumerate(plan.settings):
        yield f"settings.{place}", "task", (setting.task,)
    for place, event in enumerate(plan.events):
        yield f"events.{place}", "task", (event.task,)
    for place, deadline in enumerate(plan.deadlines):
        yield f"deadlines.{place}", "task", (deadline.task,)
