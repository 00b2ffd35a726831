"""What a plan says of its containers: cooled, frozen, labelled, thawed and finished."""

from __future__ import annotations

from datetime import date
from typing import Literal

from batchcook.planparts.part import Instant, Part

__all__ = ["Container", "Cooling", "Freezing", "NightAddition"]


class NightAddition(Part):
    """Something bought for the evening on which a dish is eaten."""

    food: str
    amount: str
    note: str = ""


class Container(Part):
    """One container as it is labelled.

    Attributes:
        code: Short, unique within the plan; what the freezer commands take.
        number: Its number within the dish, from 1, of ``of``.
        holds: The container in words, by size.
        grams: Weight of the food, rounded.
        state: cooked, part-baked or raw-kit.
        system: In whose measures its label is.
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
            cooked at once; None where that is not published for its weight, or water gets in.
        cold_water_in: In what it goes into that water, or an empty string.
        from_frozen: Whether it may be heated without thawing.
        from_frozen_takes: How long that takes, or an empty string where that is not known.
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
    system: Literal["us", "metric"] = "us"
    cook_to_degF: int | None = None  # noqa: N815 - the name that plan.json carries
    reheat_to_degF: int | None = None  # noqa: N815 - the same
    rest_minutes: int = 0
    add: tuple[NightAddition, ...] = ()
    allergens: tuple[str, ...] = ()
    frozen_on: date | None = None
    cold_water_minutes: int | None = None
    cold_water_in: str = ""
    from_frozen: bool = False
    from_frozen_takes: str = ""
    refreeze: str = ""
    note: str = ""


class Cooling(Part):
    """How one dish is brought from hot to refrigerator-cold; the times are estimates.

    Attributes:
        place: What it cools in, by size.
        depth_inches: How deep it stands there.
        minutes_to_70: From 135 degF until no point is above 70 degF.
        minutes_to_41: The same until no point is above 41 degF.
        ice_pounds: Ice to have ready.
        ice_pans: Larger pans in which its own stand on ice in the refrigerator.
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
    ice_pans: int = 0


class Freezing(Part):
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
