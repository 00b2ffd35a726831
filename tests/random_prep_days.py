"""Prep days drawn from a seed: any of the starter recipes, in all sorts of kitchens."""

from __future__ import annotations

import datetime as dt
import json
import random
from dataclasses import replace

import pytest
from plan_oracle import breaches
from refusals import faults_confirmed, unconfirmed

from batchcook import planning
from batchcook.complaints import InputFault
from batchcook.cookbook import Cookbook
from batchcook.day.prepday import PrepDay
from batchcook.day.solving import Effort, NoAnswer, NoPlan
from batchcook.kitchens.kitchen import SKILLS, Away, Kitchen, KitchenCook, Vessels, default_kitchen
from batchcook.plan import Plan, write_plan
from batchcook.planning import plan_day
from batchcook.quantities import ureg

__all__ = ["is_hot", "outcome", "plan_or_none", "random_day"]

HOT_ROOM = 95
_MOST_DISHES = 3


def random_day(seed: int, cookbook: Cookbook, most_dishes: int = _MOST_DISHES) -> PrepDay:
    """The prep day with this number: dishes, batches, start and kitchen."""
    rng = random.Random(seed)  # noqa: S311 - a day to cook, not a secret
    names = rng.sample(sorted(cookbook), rng.randint(1, most_dishes))
    finish_by = dt.time(rng.randint(15, 22)) if rng.random() < 0.2 else None
    day = PrepDay(
        date=dt.date(2027, 1, 1) + dt.timedelta(days=rng.randrange(366)),
        start=None if finish_by and rng.random() < 0.5 else dt.time(rng.randint(7, 11), 30),
        orders={name: rng.randint(1, 3) for name in names},
        kitchen=_kitchen(rng),
        finish_by=finish_by,
        system=rng.choice(("us", "metric")),
    )
    sheets = replace(default_kitchen().sheet_pans[0], count=rng.randint(1, 4))
    return replace(day, kitchen=replace(day.kitchen, sheet_pans=(sheets,)))


def _kitchen(rng: random.Random) -> Kitchen:
    """The ordinary kitchen with more or less of nearly everything."""
    usual = default_kitchen()
    return replace(
        usual,
        room=ureg.Quantity(HOT_ROOM if rng.random() < 0.15 else 72, "degF"),
        cooks=_cooks(rng),
        burners=replace(
            usual.burners,
            count=rng.randint(2, 5),
            kind=rng.choice(("gas", "electric", "induction")),
        ),
        ovens=usual.ovens if rng.random() < 0.9 else (),
        skillets=(Vessels(ureg.Quantity(rng.choice((10, 12)), "inch"), rng.randint(1, 2)),),
        slow_cookers=(Vessels(ureg.Quantity(6, "quart"), rng.randint(1, 2)),),
        boards={"produce": rng.randint(1, 2), "raw": rng.randint(1, 2)},
    )


def _cooks(rng: random.Random) -> tuple[KitchenCook, ...]:
    """One to three, a child who helps among them, some away for a while."""
    grown = tuple(
        KitchenCook(f"cook-{number}", f"Cook {number}", frozenset(SKILLS), _away(rng))
        for number in range(1, rng.randint(1, 2) + 1)
    )
    few = frozenset(rng.sample(["knife"], rng.randint(0, 1)))
    child = KitchenCook("child", "Child", few, _away(rng))
    return (*grown, child) if rng.random() < 0.4 else grown


def _away(rng: random.Random) -> tuple[Away, ...]:
    if rng.random() < 0.6:
        return ()
    hour = rng.randint(9, 14)
    return (Away(dt.time(hour), dt.time(hour + 1, rng.choice((0, 30))), "an errand"),)


def outcome(day: PrepDay, cookbook: Cookbook, seconds: float) -> tuple[str, list[str]]:
    """How planning a day ends, and what is wrong with that.

    The plan has by then passed the checks that the program makes of every plan.

    Returns:
        ``plan``, ``refused``, ``refused, on its word`` (by reckoning not done again here), ``no
        plan`` or ``no answer``; and the breaches found, or what of a refusal is not confirmed.
    """
    try:
        made = _planned(day, cookbook, seconds)
    except InputFault as fault:
        said = [str(each) for each in fault.complaints]
        again, wrong = faults_confirmed(day, fault, cookbook)
        if not said or not all(said):
            wrong.append("refused without a word")
        return "refused" if again else "refused, on its word", wrong
    except NoPlan as none:
        return "no plan", unconfirmed(none.clash, cookbook)
    except NoAnswer:
        return "no answer", []
    return "plan", breaches(json.loads(write_plan(made)), 60 if is_hot(day) else 120)


def plan_or_none(day: PrepDay, cookbook: Cookbook, seconds: float) -> Plan | None:
    """The plan of a day; None where there is none, or none is found in the time."""
    try:
        return _planned(day, cookbook, seconds)
    except (InputFault, NoPlan, NoAnswer):
        return None


def is_hot(day: PrepDay) -> bool:
    """Whether food may be out for an hour only."""
    return float(day.kitchen.room.to("degF").magnitude) > 90


def _planned(day: PrepDay, cookbook: Cookbook, seconds: float) -> Plan:
    with pytest.MonkeyPatch.context() as patch:
        # Comparing with the dishes one after another would take longer than the day itself.
        patch.setattr(planning, "one_after_another", lambda *_: 0)
        return plan_day(day, cookbook, Effort(seconds))
