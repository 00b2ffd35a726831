"""When a container is moved to the refrigerator, how long it keeps then, and faster ways."""

from __future__ import annotations

import datetime as dt
import math
import re
from dataclasses import dataclass
from typing import Literal

from batchcook.complaints import Complaint, InputFault
from batchcook.foodsafety.freezing import plank_seconds, shape_factors
from batchcook.foodsafety.limits import Limit, limit
from batchcook.foodsafety.thermal import si_value
from batchcook.quantities import Quantity, ureg

__all__ = [
    "ON_A_TRAY",
    "Heating",
    "Permission",
    "ThawWay",
    "cold_water_minutes",
    "cook_from_frozen",
    "days_used",
    "eat_by",
    "in_slow_cooker",
    "may_refreeze",
    "thaw_days",
]

ThawWay = Literal["refrigerator", "cold-water", "microwave"]
Heating = Literal["stove", "oven", "slow-cooker"]
ON_A_TRAY = "on a tray on the lowest shelf"
"""Where raw meat thaws, so that nothing drips onto other food: USDA FSIS, from memory."""


_SLOW_COOKER = re.compile(r"\bslow[\s-]*cook(?:ers?|ing)?\b|\bcrock\b")
_FORBIDDEN = re.compile(
    r"\b(?:not|never|don't|don\u2019t|no|without|nor)"
    r"(?:\s+(?:(?:re)?heat|(?:re)?warm|cook|put|use|finish|it|them|this|these|in|into|with|the|a|an|"
    r"or|oven|stove|microwave))*\s+$"
)
"""What forbids the mention after it: only its own verb and other places stand between the two."""

MOSTLY_THAWED = 0.75
"""Thawed so far, a dish breaks up and heats through; the core may still be icy."""


@dataclass(frozen=True)
class Permission:
    """Whether something is allowed.

    Attributes:
        allowed: Whether it is.
        words: Why, or under which condition.
        limit: The rule with its source.
        minutes: Minutes that it takes, where that is known.
    """

    allowed: bool
    words: str
    limit: Limit
    minutes: int | None = None


def thaw_days(
    weight: Quantity,
    edges: tuple[Quantity, Quantity, Quantity] | None = None,
    *,
    refrigerator: Quantity | None = None,
) -> int:
    """Whole days that a container thaws in the refrigerator.

    A full day at least, and 24 hours for each 4 lb (USDA FSIS gives 4 to 5). Where the food's
    three edges are known a thick block may take longer: Plank's equation turned round, with the
    thawed food's conductivity, until three quarters are thawed. That estimate is ours.

    Args:
        weight: Food in it.
        edges: The three edges of the food, or None.
        refrigerator: Its temperature, 37 degF if not given.

    Raises:
        InputFault: The weight is not positive.
    """
    pounds = float(weight.to("pound").magnitude)
    if pounds <= 0:
        raise InputFault(Complaint("weight", f"{pounds:g} lb", "more than nothing"))
    by_weight = math.ceil(pounds / (limit("thaw-refrigerator").low or 1.0) - 1e-9)
    return max(1, by_weight, _days_by_shape(edges, refrigerator))


def eat_by(moved_on: dt.date, days: int, refrigerator_days_after_thaw: int) -> dt.date:
    """The last day to eat a container moved to the refrigerator; to cook it, if it is a raw kit.

    Args:
        moved_on: The day on which it was moved.
        days: Days that it thaws, of :func:`thaw_days`.
        refrigerator_days_after_thaw: Of the storage dates: what is left of its days.
    """
    return moved_on + dt.timedelta(days=days + max(0, refrigerator_days_after_thaw))


def days_used(moved_on: dt.date, days: int, frozen_again_on: dt.date) -> int:
    """Days in the refrigerator that count where thawed food is frozen again.

    They count from the day on which it is thawed, and a day begun is a day, as where food is marked
    with the day that it was made or opened (FDA Food Code 3-501.17). Food that is frozen again
    sooner has used one too: its outside thaws first. That last is ours.

    Args:
        moved_on: The day on which it was moved to the refrigerator.
        days: Days that it thaws, of :func:`thaw_days`.
        frozen_again_on: The day on which it goes back into the freezer.
    """
    return max(1, (frozen_again_on - moved_on).days - days + 1)


def cold_water_minutes(weight: Quantity) -> int:
    """Minutes in cold water, changed every 30 minutes; to be cooked at once (USDA FSIS).

    Up to 1 hour for 1 lb and up to 3 hours for 4 lb as published; between them, ours, in
    proportion.

    Args:
        weight: Food in a leak-proof package.

    Raises:
        InputFault: More than 4 lb, for which nothing but whole turkeys is published, or not
            positive.
    """
    pounds = float(weight.to("pound").magnitude)
    if not 0 < pounds <= 4:  # noqa: PLR2004 - the published table ends at 4 lb
        raise InputFault(
            Complaint(
                "weight",
                f"{pounds:g} lb in cold water",
                "more than 0 and at most 4 lb; thaw larger packages in the refrigerator",
            )
        )
    one = limit("thaw-cold-water-one-pound").minutes
    four = limit("thaw-cold-water-four-pounds").minutes
    return one if pounds <= 1 else math.ceil(one + (four - one) * (pounds - 1) / 3)


def cook_from_frozen(heating: Heating, minutes_thawed: int | None = None) -> Permission:
    """Whether a dish may be cooked or heated without thawing.

    Args:
        heating: On what.
        minutes_thawed: How long it takes when thawed, if known.

    Returns:
        Allowed on the stove and in the oven, about half as long again; never in a slow cooker.
    """
    if heating == "slow-cooker":
        return Permission(
            allowed=False,
            words="Thaw it first: in a slow cooker frozen food stays too long between 40 and "
            "140 degF",
            limit=limit("slow-cooker-meat"),
        )
    rule = limit("cook-from-frozen")
    minutes = None
    if minutes_thawed is not None:
        minutes = math.ceil(minutes_thawed * (rule.high or 1.0))
    return Permission(
        allowed=True,
        words="Allowed from frozen; it takes about half as long again",
        limit=rule,
        minutes=minutes,
    )


def in_slow_cooker(words: str) -> bool:
    """Whether an instruction puts food into a slow cooker; one that forbids it does not.

    A mention counts unless its own clause forbids it and nothing else: "do not reheat it in the
    slow cooker". What is doubtful counts ("do not cook it in the slow cooker on high"), so that a
    caution too many is printed rather than one too few.

    Args:
        words: What the cook reads.
    """
    clauses = re.split(r"[.;:!?,\n]|\bbut\b", words.lower())
    return any(
        clause[mention.end() :].strip() or not _FORBIDDEN.search(clause[: mention.start()])
        for clause in clauses
        for mention in _SLOW_COOKER.finditer(clause)
    )


def may_refreeze(way: ThawWay, *, cooked_since: bool = False) -> Permission:
    """Whether thawed food may be frozen again.

    Args:
        way: How it was thawed.
        cooked_since: Whether it has been cooked since.
    """
    rule = limit("refreezing")
    if way == "refrigerator":
        words = "May be frozen again while it keeps; some quality is lost"
        return Permission(allowed=True, words=words, limit=rule)
    if cooked_since:
        return Permission(
            allowed=True, words="Cooked since it was thawed: may be frozen", limit=rule
        )
    words = "Thawed in cold water or the microwave: cook it before freezing it again"
    return Permission(allowed=False, words=words, limit=rule)


def _days_by_shape(
    edges: tuple[Quantity, Quantity, Quantity] | None, refrigerator: Quantity | None
) -> int:
    if edges is None:
        return 0
    lengths = [float(edge.to("meter").magnitude) for edge in edges]
    warmth = ureg.Quantity(37, "degF") if refrigerator is None else refrigerator
    # Thawing is freezing turned round: the front moves inwards through thawed food, so Plank's
    # equation holds with the signs of both temperatures changed.
    seconds = plank_seconds(
        density=si_value("density"),
        latent_heat=si_value("water-share") * si_value("fusion-of-ice"),
        freezing_point=-si_value("freezing-point"),
        medium=-float(warmth.to("degC").magnitude),
        coefficient=si_value("air-in-refrigerator"),
        conductivity=si_value("conductivity"),
        thickness=min(lengths),
        factors=shape_factors("brick", lengths),
    )
    return 0 if math.isinf(seconds) else math.ceil(MOSTLY_THAWED * seconds / 86400)
