"""From the pot to the freezer: when each dish is cold, and which container is frozen when."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from batchcook import plan
from batchcook.day.freezerplan import freezing_minutes, stage, waits
from batchcook.dishwork.chilling import (
    SHALLOW_PAN,
    Chilling,
    chilling_of,
    ice_pan_words,
    shallow_pan_words,
)
from batchcook.dishwork.draft import Dish
from batchcook.dishwork.work import Baths
from batchcook.foodsafety.freezerload import StagingPlan
from batchcook.kitchens.kitchen import Kitchen
from batchcook.kitchens.pans import area_of
from batchcook.quantities import say, ureg

__all__ = [
    "LAST_TO_THE_FREEZER",
    "MORNING",
    "ColdChain",
    "cold_chain",
    "frozen_events",
    "ice_to_buy",
    "to_the_quarter",
    "with_freezer_times",
]

LAST_TO_THE_FREEZER = dt.time(22, 0)
"""Later than this nobody gets up for the freezer: it waits for the next day. Common practice."""

MORNING = dt.time(7, 0)
"""When it is opened on the next day, where nothing went in on the prep day."""

_FOIL_PAN = 80
"""Grams that a large foil pan weighs: from memory."""

_SHALLOW_FOIL_PAN = 30
"""Grams that a foil pan of 9 x 13 inches weighs: from memory."""

_TO_THE_FREEZER = "To the freezer"
_PORTION = "portion"


@dataclass(frozen=True)
class ColdChain:
    """What becomes of the dishes once they are off the heat.

    Attributes:
        cooling: How each cooked dish is cooled.
        freezing: What goes into the freezer when, in order of time.
        frozen_on: For each dish the day on which each of its containers is frozen.
        words: A sentence on the freezer's load.
        spread: Ids of the dishes that cool in shallow pans.
        shallow_pans: How many such pans are filled with what is packed in tubs.
    """

    cooling: tuple[plan.Cooling, ...]
    freezing: tuple[plan.Freezing, ...]
    frozen_on: Mapping[str, tuple[dt.date, ...]]
    words: str
    spread: frozenset[str] = frozenset()
    shallow_pans: int = 0

    @property
    def ice_pounds(self) -> int:
        """Ice that cooling takes in all."""
        return sum(each.ice_pounds for each in self.cooling)

    @property
    def ice_pans(self) -> int:
        """Larger pans in which baking dishes stand on ice."""
        return sum(each.ice_pans for each in self.cooling)

    @property
    def chill_minutes(self) -> Mapping[str, int]:
        """For each dish the least minutes in the refrigerator before it may be frozen."""
        return {
            each.dish: round((each.cold_at - each.refrigerated_at).total_seconds() / 60)
            for each in self.cooling
        }


def cold_chain(
    dishes: Sequence[Dish],
    kitchen: Kitchen,
    tasks: Sequence[plan.Task],
    codes: Mapping[str, Sequence[str]],
    baths: Mapping[str, Baths],
) -> ColdChain:
    """What becomes of the dishes of a scheduled day.

    Args:
        dishes: The dishes.
        kitchen: Its refrigerator and freezer.
        tasks: The day as scheduled.
        codes: For each dish the codes of its containers, in order.
        baths: For each dish that has an ice bath, how it stands.

    Raises:
        InputFault: The freezer cannot take it in time.
    """
    packed = {next(iter(task.dishes)): task for task in tasks if task.technique == _PORTION}
    chillings = [
        found
        for dish in dishes
        if (found := chilling_of(dish, kitchen, baths=baths.get(dish.id))) is not None
    ]
    cooling = tuple(_cooling(each, packed[each.dish]) for each in chillings)
    day = min(task.start for task in tasks).date()
    cold = {dish.id: packed[dish.id].end for dish in dishes}
    cold |= {each.dish: to_the_quarter(each.cold_at) for each in cooling}
    late = {dish for dish, at in cold.items() if at.date() > day or at.time() > LAST_TO_THE_FREEZER}
    staging = stage(dishes, kitchen, day, late=late)
    freezing = _freezing(dishes, kitchen, staging, day, cold, codes)
    by_code = {code: each.at.date() for each in freezing for code in each.containers}
    return ColdChain(
        cooling,
        freezing,
        {dish.id: tuple(by_code[code] for code in codes[dish.id]) for dish in dishes},
        staging.words,
        frozenset(each.dish for each in chillings if each.spread),
        sum(each.method.containers for each in chillings if each.baths.spread),
    )


def to_the_quarter(at: dt.datetime) -> dt.datetime:
    """The next full quarter of an hour: nobody knows to the minute when food is cold or frozen.

    Later is the safe side, and what is cold at nearly the same time goes at one time.
    """
    return at + dt.timedelta(minutes=-at.minute % 15)


def frozen_events(
    freezing: Sequence[plan.Freezing], tasks: Sequence[plan.Task]
) -> tuple[plan.Event, ...]:
    """Each cooked dish into the freezer for the first time, for the check of the day's events."""
    first: dict[str, plan.Freezing] = {}
    for each in freezing:
        first.setdefault(each.dish, each)
    packed = {next(iter(task.dishes)): task for task in tasks if task.technique == _PORTION}
    return tuple(
        plan.Event(
            dish=dish,
            food=dish,
            kind="cooked",
            event="frozen",
            at=each.at,
            task=packed[dish].id,
        )
        for dish, each in first.items()
        if each.at > packed[dish].end
    )


def with_freezer_times(
    tasks: Sequence[plan.Task], freezing: Sequence[plan.Freezing]
) -> tuple[plan.Task, ...]:
    """The tasks, those that put a dish away with when it goes on into the freezer."""
    return tuple(_timed(task, freezing) for task in tasks)


def ice_to_buy(
    chain: ColdChain, kitchen: Kitchen, system: str = "us"
) -> tuple[plan.ShoppingLine, ...]:
    """Ice, and pans to cool in, beyond what the kitchen has, for the shopping list."""
    lines = []
    pounds = math.ceil(chain.ice_pounds - float(kitchen.ice.to("pound").magnitude))
    if pounds > 0:
        lines.append(
            plan.ShoppingLine(
                food="ice",
                section="frozen",
                amount=say(ureg.Quantity(pounds, "pound"), system, weigh=True),
                grams=round(float(ureg.Quantity(pounds, "pound").to("gram").magnitude)),
                dishes=tuple(each.dish for each in chain.cooling if each.ice_pounds),
                when="the day before, if there is room for it; else that morning",
            )
        )
    pans = chain.ice_pans - kitchen.ice_pans
    if pans > 0:
        lines.append(
            plan.ShoppingLine(
                food=f"large foil pan{'s' if pans > 1 else ''}, {ice_pan_words(system)}",
                section="for cooling",
                amount=str(pans),
                grams=_FOIL_PAN * pans,
                dishes=tuple(each.dish for each in chain.cooling if each.ice_pans),
            )
        )
    return (*lines, *_shallow_pans(chain, kitchen, system))


def _shallow_pans(chain: ColdChain, kitchen: Kitchen, system: str) -> tuple[plan.ShoppingLine, ...]:
    """Foil pans for what is spread to cool, beyond the baking dishes of that size or above."""
    size = area_of(SHALLOW_PAN.width, SHALLOW_PAN.length)
    own = sum(each.count for each in kitchen.baking_dishes if each.area >= size)
    pans = chain.shallow_pans - own
    if pans <= 0:
        return ()
    line = plan.ShoppingLine(
        food=f"foil pan{'s' if pans > 1 else ''}, {shallow_pan_words(system)}",
        section="for cooling",
        amount=str(pans),
        grams=_SHALLOW_FOIL_PAN * pans,
        dishes=tuple(each.dish for each in chain.cooling if each.place == SHALLOW_PAN.name),
    )
    return (line,)


def _timed(task: plan.Task, freezing: Sequence[plan.Freezing]) -> plan.Task:
    dish = next(iter(task.dishes), "")
    mine = [each for each in freezing if each.dish == dish and each.at > task.end]
    if task.technique != _PORTION or not mine:
        return task
    whens = []
    for each in mine:
        today = each.at.date() == task.end.date()
        when = f"at {each.at:%H:%M}" if today else f"on {_day(each.at)} at {each.at:%H:%M}"
        whens.append(when if len(mine) == 1 else f"{_which(each.containers)} {when}")
    # A day planned anew has tasks that were told of an earlier time already.
    own = task.words.partition(f" {_TO_THE_FREEZER}")[0]
    told = f"{_TO_THE_FREEZER}{':' if len(mine) > 1 else ''} {', '.join(whens)}."
    return task.model_copy(update={"words": f"{own} {told}"})


def _cooling(chilling: Chilling, packed: plan.Task) -> plan.Cooling:
    method = chilling.method
    return plan.Cooling(
        dish=chilling.dish,
        place=method.container,
        containers=method.containers,
        depth_inches=round(float(method.depth.to("inch").magnitude), 2),
        minutes_to_70=method.minutes_to_70,
        minutes_to_41=method.minutes_to_41,
        ice_pounds=round(float(method.ice.to("pound").magnitude)),
        refrigerated_at=packed.end,
        cold_at=packed.end + dt.timedelta(minutes=chilling.cold_after),
        reason=method.reason,
        ice_pans=chilling.ice_pans,
    )


def _freezing(
    dishes: Sequence[Dish],
    kitchen: Kitchen,
    staging: StagingPlan,
    day: dt.date,
    cold: Mapping[str, dt.datetime],
    codes: Mapping[str, Sequence[str]],
) -> tuple[plan.Freezing, ...]:
    """Each staged day's containers; on later days at the hour of the first day's last."""
    waiting = waits(dishes, staging)
    first = [cold[dish] for dish, days in waiting.items() if 0 in days]
    hour = max(first).time() if first else MORNING
    found = []
    for dish in dishes:
        waited = waiting[dish.id]
        minutes = freezing_minutes(dish.recipe, kitchen)
        for days in sorted(set(waited)):
            mine = tuple(
                code for code, wait in zip(codes[dish.id], waited, strict=True) if wait == days
            )
            at = dt.datetime.combine(day + dt.timedelta(days=days), hour) if days else cold[dish.id]
            found.append(
                plan.Freezing(
                    at=at,
                    dish=dish.id,
                    containers=mine,
                    waited_days=days,
                    minutes=minutes,
                    words=_words(dish, at, mine, minutes),
                )
            )
    return tuple(sorted(found, key=lambda each: (each.at, each.dish)))


def _words(dish: Dish, at: dt.datetime, codes: Sequence[str], minutes: int) -> str:
    name = dish.recipe.title
    hours = -(-minutes // 60)
    return (
        f"{_day(at)}, {at:%H:%M}: {name}, {_which(codes)}, into the freezer, spread out; "
        f"frozen through in about {hours} hours."
    )


def _which(codes: Sequence[str]) -> str:
    return codes[0] if len(codes) == 1 else f"{codes[0]} to {codes[-1]}"


def _day(at: dt.datetime) -> str:
    return f"{at:%a} {at.day} {at:%b}"
