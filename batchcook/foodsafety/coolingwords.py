"""What a cook reads about cooling: what to do, and why this way."""

from __future__ import annotations

import math

from batchcook.foodsafety.coolingroutes import Route
from batchcook.foodsafety.limits import limit

__all__ = ["instruction", "reason"]


def instruction(place: str, ends_at_fahrenheit: float) -> str:
    """What to do in one stretch of cooling.

    Args:
        place: The stretch's place.
        ends_at_fahrenheit: The warmest point at its end, in degF.
    """
    degrees = f"{ends_at_fahrenheit:.0f} degF"
    return {
        "cold-water": "Stand the pot in cold water up to the food's height; stir every few "
        f"minutes and change the water as it warms, until the food is at {degrees}",
        "ice-bath": "Pour the water off; ice around the pot first, then fresh cold water between "
        "it, up to the food's height; stir every few minutes, with more ice as it melts, until the "
        f"food is at {degrees}",
        "fill": "Fill the containers",
        "ice-under-pan": "Stand each pan on ice in a larger one, ice water up to the food's "
        f"height, in the refrigerator, cover loosely; the center is then near {degrees}",
        "refrigerator": "Space the containers on refrigerator racks, loosely covered, until the "
        f"center is at {degrees}",
    }[place]


def reason(
    container: str, depth_inches: float, *, alone: Route, alone_does: bool, chosen: Route | None
) -> str:
    """Why a dish is cooled this way, and where the two pieces of guidance part.

    Args:
        container: The container's name.
        depth_inches: How deep it is filled.
        alone: The same container straight into the refrigerator.
        alone_does: Whether that would do.
        chosen: The way chosen, or None when that is it.
    """
    straight = (
        f"{container}, {depth_inches:g} in deep, straight into the refrigerator: "
        f"{_hours(alone.to_middle)} from 135 to 70 degF and {_hours(alone.to_end)} to 41 degF"
    )
    if chosen is None:
        return f"{straight}, by estimate; home guidance and the Food Code are both met."
    if alone_does:
        return (
            f"{straight}, by estimate; home guidance and the Food Code are both met. Cold water "
            "first takes half of the heat, so that the refrigerator has less of it. This way it "
            f"takes {_hours(chosen.to_middle)} and {_hours(chosen.to_end)}."
        )
    failing = _past_limits(alone)
    home = (
        "Home guidance alone (shallow, refrigerated within 2 hours) would allow that"
        if depth_inches <= (limit("cooling-depth").high or 0)
        else "That is deeper than home guidance allows for hot food"
    )
    return (
        f"{straight}, by estimate. {home}; {failing}. This way it takes "
        f"{_hours(chosen.to_middle)} and {_hours(chosen.to_end)}."
    )


def _past_limits(route: Route) -> str:
    """Which limit of the Food Code a route passes, or comes too near to."""
    first, total = limit("two-stage-first").minutes, limit("two-stage-total").minutes
    if route.to_middle > first * 60 or route.to_end > total * 60:
        return "the Food Code's 2 and 6 hours would be passed"
    return "the Food Code's 2 and 6 hours would be met without margin"


def _hours(seconds: float) -> str:
    """Hours and minutes, rounded up."""
    if math.isinf(seconds):
        return "never"
    hours, minutes = divmod(math.ceil(seconds / 60), 60)
    return f"{hours} h {minutes:02d} min" if hours else f"{minutes} min"
