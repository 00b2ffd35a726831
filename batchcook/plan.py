"""What a plan is, and its JSON form.

A plan holds everything that paper, screen and freezer need, so each of them can be made again
from ``plan.json`` alone. Instants are local wall-clock times to the minute.
"""

from __future__ import annotations

import json
from datetime import date, datetime
from pathlib import Path
from typing import Annotated, Final, Literal

from pydantic import BaseModel, ConfigDict, Field, PlainSerializer, ValidationError

from batchcook.complaints import Complaint, InputFault

__all__ = [
    "FORMAT",
    "Absence",
    "Bowl",
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
    "Plan",
    "Resource",
    "Setting",
    "SharedRun",
    "ShoppingLine",
    "Summary",
    "Task",
    "WhatIf",
    "read_plan",
    "write_plan",
]

FORMAT: Final = "batchcook-plan/1"

Instant = Annotated[
    datetime, PlainSerializer(lambda at: at.isoformat(timespec="minutes"), return_type=str)
]
Anchor = Literal["start", "end"]


class _Part(BaseModel):
    """A frozen piece of a plan; unknown keys are faults."""

    model_config = ConfigDict(frozen=True, extra="forbid", populate_by_name=True)


class Absence(_Part):
    """So much of a resource is missing for a while."""

    from_: Instant = Field(alias="from")
    to: Instant
    amount: int


class Resource(_Part):
    """Something of which only so much can be in use at once; a cook is ``cook:NAME``."""

    id: str
    capacity: int
    away: tuple[Absence, ...] = ()


class Cook(_Part):
    """A person of the day: the id without ``cook:``, and the name on paper."""

    id: str
    name: str


class Dish(_Part):
    """A recipe times its batches.

    ``state`` is cooked, part-baked or raw-kit: how it goes into the freezer.
    """

    id: str
    title: str
    batches: int
    servings: int
    state: str
    makes: str


class Task(_Part):
    """One piece of work that is done.

    Attributes:
        dishes: Dish id to the amount it gets from this task, as text; empty for work on the
            day itself.
        run: The shared run it is a part of, or None.
        cook: Whose hands, or None while it cooks by itself.
        uses: Resource id to amount, from start to end.
        words: What the cook reads besides the title.
        bowl: The named bowl that its outcome goes to, or an empty string.
        station: Where it happens: board, skillet, pot, oven, slow cooker, counter, sink,
            refrigerator. The picture of the day draws by it.
        label: A few words for the picture of the day.
    """

    id: str
    title: str
    technique: str
    dishes: dict[str, str] = {}
    run: str | None = None
    start: Instant
    end: Instant
    cook: str | None = None
    uses: dict[str, int] = {}
    words: str = ""
    bowl: str = ""
    station: str = "counter"
    label: str = ""


class Lag(_Part):
    """``min`` <= ``to`` of ``after`` less ``from`` of ``before`` <= ``max``, in minutes."""

    before: str
    from_: Anchor = Field(alias="from")
    after: str
    to: Anchor
    min_minutes: int | None
    max_minutes: int | None
    reason: str = ""


class Occupancy(_Part):
    """A resource kept from the start of one task to the end of another."""

    resource: str
    amount: int
    from_task: str
    to_task: str


class Setting(_Part):
    """The oven temperature a task is done at."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    resource: str
    task: str
    degF: int  # noqa: N815 - the name that plan.json carries


class Event(_Part):
    """Something that starts or stops a food's time out of refrigeration.

    ``event`` is out, on-heat, off-heat, held-hot, refrigerated or frozen.
    """

    dish: str
    food: str
    kind: str
    event: Literal["out", "on-heat", "off-heat", "held-hot", "refrigerated", "frozen"]
    at: Instant
    task: str


class Bowl(_Part):
    """One dish's share of a shared run."""

    name: str
    dish: str
    amount: str
    task: str
    ready: Instant


class SharedRun(_Part):
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


class Deadline(_Part):
    """A time by which food must be somewhere safe, for the margin of the run sheet."""

    at: Instant
    dish: str
    task: str
    words: str


class NightAddition(_Part):
    """Something bought for the evening on which a dish is eaten."""

    food: str
    amount: str
    note: str = ""


class Container(_Part):
    """One container as it is labelled.

    Attributes:
        code: Short, unique within the plan; what the freezer commands take.
        number: Its number within the dish, from 1, of ``of``.
        holds: The container in words, by size.
        grams: Weight of the food, rounded.
        state: cooked, part-baked or raw-kit.
        cook_to_degF: For a raw kit: the center temperature to reach; else None.
        reheat_to_degF: For everything else.
        thaw: refrigerator, from-frozen or either.
        thaw_days: Days in the refrigerator before serving.
        keeps_thawed_days: Days it keeps once thawed.
        finish: How it is finished on the night.
        add: What is added then, for this container.
        allergens: The major allergens its foods carry.
        frozen_on: The day on which it goes into the freezer; None where no plan says.
        cold_water_minutes: Longest time to thaw it in cold water, changed every half hour, to be
            cooked at once; None where that is not published for its weight.
        from_frozen: Whether it may be heated without thawing.
        refreeze: Whether it may be frozen again, in a sentence.
        note: What else to know on the night, or an empty string.
    """

    code: str
    dish: str
    title: str
    portions: int
    number: int
    of: int
    holds: str
    grams: int
    state: str
    packed_on: date
    best_by: date
    use_by: date
    storage_rows: tuple[str, ...]
    thaw: str
    thaw_days: int
    keeps_thawed_days: int
    finish: str
    cook_to_degF: int | None = None  # noqa: N815 - the name that plan.json carries
    reheat_to_degF: int | None = None  # noqa: N815 - the same
    rest_minutes: int = 0
    add: tuple[NightAddition, ...] = ()
    allergens: tuple[str, ...] = ()
    frozen_on: date | None = None
    cold_water_minutes: int | None = None
    from_frozen: bool = False
    refreeze: str = ""
    note: str = ""


class Cooling(_Part):
    """How one dish is brought from hot to refrigerator-cold; the times are estimates.

    Attributes:
        place: What it cools in, by size.
        depth_inches: How deep it stands there.
        minutes_to_70: From 135 degF until no point is above 70 degF.
        minutes_to_41: The same until no point is above 41 degF.
        ice_pounds: Ice to have ready.
        refrigerated_at: When it is in the refrigerator.
        cold_at: When it is refrigerator-cold: earliest to the freezer.
        reason: Why this way, and where home guidance and the Food Code differ for it.
    """

    dish: str
    place: str
    containers: int
    depth_inches: float
    minutes_to_70: int
    minutes_to_41: int
    ice_pounds: int
    refrigerated_at: Instant
    cold_at: Instant
    reason: str


class Freezing(_Part):
    """Containers of one dish that go into the freezer at one time.

    Attributes:
        at: When they go in.
        containers: Their codes.
        waited_days: Days in the refrigerator by then, which count against those after thawing.
        minutes: Estimated until they are frozen through.
        words: The same in a sentence, dated.
    """

    at: Instant
    dish: str
    containers: tuple[str, ...]
    waited_days: int
    minutes: int
    words: str


class ShoppingLine(_Part):
    """What to buy of one food.

    Attributes:
        amount: As purchased, as text that a shop understands.
        grams: The same weight.
        dishes: Which dishes it is for.
        when: When to buy it, or an empty string.
        later: True for what is bought for the evening it is eaten, not for the prep day.
    """

    food: str
    section: str
    amount: str
    grams: int
    dishes: tuple[str, ...]
    when: str = ""
    later: bool = False


class Summary(_Part):
    """The day in figures; minutes throughout.

    Attributes:
        one_after_another_minutes: Each dish alone, unshared, at its own shortest, added up.
        sharing_saved_minutes: Hands-on minutes that sharing saved.
        hands_on_proved: Whether no plan of this length has fewer hands-on minutes.
    """

    makespan_minutes: int
    best_bound_minutes: int
    proved_shortest: bool
    one_after_another_minutes: int
    hands_on_minutes: int
    hands_on_proved: bool = False
    hands_on_by_cook: dict[str, int] = {}
    sharing_saved_minutes: int = 0


class WhatIf(_Part):
    """The day again with a change in the kitchen.

    ``minutes`` is by how much the day grows (less than 0: shrinks), or None where it could not be
    done at all; ``proved`` says whether both days are known to be the shortest.
    """

    change: str
    minutes: int | None
    proved: bool


class Plan(_Part):
    """A prep day, planned."""

    format: Literal["batchcook-plan/1"] = FORMAT
    date: date
    start: Instant
    finish: Instant
    system: Literal["us", "metric"] = "us"
    summary: Summary
    cooks: tuple[Cook, ...]
    dishes: tuple[Dish, ...]
    resources: tuple[Resource, ...]
    tasks: tuple[Task, ...]
    lags: tuple[Lag, ...] = ()
    occupancies: tuple[Occupancy, ...] = ()
    settings: tuple[Setting, ...] = ()
    events: tuple[Event, ...] = ()
    shared: tuple[SharedRun, ...] = ()
    deadlines: tuple[Deadline, ...] = ()
    containers: tuple[Container, ...] = ()
    cooling: tuple[Cooling, ...] = ()
    freezing: tuple[Freezing, ...] = ()
    shopping: tuple[ShoppingLine, ...] = ()
    day_before: tuple[str, ...] = ()
    tonight: str = ""
    morning_after: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    what_if: tuple[WhatIf, ...] = ()


def write_plan(plan: Plan) -> str:
    """The plan as the text of a ``plan.json`` file."""
    return plan.model_dump_json(by_alias=True, indent=1) + "\n"


def read_plan(path: Path) -> Plan:
    """The plan in a ``plan.json`` file, or in a plan folder.

    Raises:
        InputFault: There is no such file, or it is not a plan that this version reads.
    """
    file = path / "plan.json" if path.is_dir() else path
    try:
        found = json.loads(file.read_text("utf-8"))
    except OSError as fault:
        what = f"cannot be read ({fault.strerror})"
        raise InputFault(Complaint(str(file), what, "a plan folder or its plan.json")) from None
    except ValueError as fault:
        raise InputFault(Complaint(str(file), f"is not JSON ({fault})", "a plan.json")) from None
    written = found.get("format") if isinstance(found, dict) else None
    if written != FORMAT:
        what = f"says format {written!r}"
        raise InputFault(Complaint(str(file), what, f"{FORMAT!r}, which this version reads"))
    try:
        return Plan.model_validate(found)
    except ValidationError as fault:
        raise InputFault(
            [
                Complaint(f"{file}, {'.'.join(map(str, each['loc']))}", each["msg"])
                for each in fault.errors()
            ]
        ) from None
