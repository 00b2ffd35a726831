"""How sure a plan's finish is, and which food is closest to its limit, in words for the cook."""

from __future__ import annotations

import math
from collections.abc import Mapping
from datetime import datetime, timedelta
from typing import Final

from batchcook.dishwork.work import STRAIGHT_ON
from batchcook.pacing.spreads import plan_spreads
from batchcook.pacing.surewords import OUT_TOO_LONG
from batchcook.plan import AtRisk, Plan, Sureness
from batchcook.plans.network import budget_named, minute_of, network_of_plan
from batchcook.scheduling import risk
from batchcook.scheduling.flownetwork import FlowNetwork, Limit

__all__ = ["how_sure"]

_DAYS: Final = 10_000
_STEP: Final = 5
"""Times are told in steps of so many minutes, rounded up: spreads are not known to the minute."""

_SELDOM: Final = 0.01
_MOST: Final = 3


def how_sure(
    plan: Plan,
    network: FlowNetwork | None = None,
    *,
    fixed: Mapping[str, tuple[int, int | None]] | None = None,
    durations: Mapping[str, int] | None = None,
    now: int | None = None,
) -> Sureness:
    """What 10,000 days show that go on from here, each with other durations.

    Args:
        plan: The plan; one made in the middle of its day goes on from there.
        network: The network behind it, where it is at hand.
        fixed: Tasks begun, as for :func:`batchcook.scheduling.risk.simulate`.
        durations: Minutes of tasks that are known to last longer or shorter than planned.
        now: The minute of the plan from which on all is open.
    """
    begun, since = _so_far(plan) if fixed is None or now is None else (fixed, now)
    found = risk.simulate(
        network or network_of_plan(plan),
        plan_spreads(plan),
        days=_DAYS,
        fixed=begun,
        durations=durations,
        now=since,
    )
    return Sureness(
        half=_instant(plan, found.done_by(0.5)),
        nine_of_ten=_instant(plan, found.done_by(0.9)),
        at_risk=_food_at_risk(plan, found),
    )


def _so_far(plan: Plan) -> tuple[Mapping[str, tuple[int, int | None]], int]:
    """What had begun when the plan was made, and that minute."""
    if plan.replanned is None:
        return {}, 0
    now = minute_of(plan, plan.replanned.at)
    times = {
        task.id: (minute_of(plan, task.start), minute_of(plan, task.end)) for task in plan.tasks
    }
    return {
        name: (start, end if end <= now else None)
        for name, (start, end) in times.items()
        if start < now
    }, now


def _instant(plan: Plan, minute: float) -> datetime:
    """The time of day, rounded up to the next step of the clock."""
    at = plan.start + timedelta(minutes=math.ceil(minute - 1e-6))
    return at + timedelta(minutes=-at.minute % _STEP)


def _food_at_risk(plan: Plan, found: risk.Risk) -> tuple[AtRisk, ...]:
    """The food that is most often out too long, the worst of each dish."""
    titles = {dish.id: dish.title for dish in plan.dishes}
    worst: dict[str, AtRisk] = {}
    for each in found.at_risk:
        if isinstance(each.limit, Limit):
            dish, words = _browned(plan, each.limit)
        else:
            budget = budget_named(plan, each.limit.id)
            dish, words = budget.dish, f"{budget.food} {OUT_TOO_LONG}"
        share = round(each.share, 2)
        if dish and share >= _SELDOM and dish not in worst:
            words = f"{titles.get(dish, dish)}: {words}"
            worst[dish] = AtRisk(dish=dish, words=words, share=share)
    return tuple(sorted(worst.values(), key=lambda each: -each.share)[:_MOST])


def _browned(plan: Plan, limit: Limit) -> tuple[str, str]:
    """The dish of meat that is browned and must go straight on; empty for limits of taste."""
    if not limit.reason.startswith(STRAIGHT_ON):
        return "", ""
    task = next((task for task in plan.tasks if task.id == limit.before), None)
    dish = next(iter(task.dishes), "") if task is not None else ""
    return dish, "browned meat waiting too long"
