"""What is done the day before, and that evening and the days after."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Mapping, Sequence
from math import ceil

from batchcook import plan
from batchcook.cookbooks.packing import container_count
from batchcook.day.coldchain import LAST_TO_THE_FREEZER, MORNING, to_the_quarter
from batchcook.day.freezerplan import cooling_room
from batchcook.dishwork.chilling import ice_pan_words, shallow_pan_words
from batchcook.dishwork.draft import Dish, ingredient_grams
from batchcook.foods import describe, load_foods
from batchcook.foodsafety.kinds import KEEPS_UNOPENED
from batchcook.foodsafety.limits import FREEZER_BEFORE_LOAD, limit
from batchcook.foodsafety.thawing import thaw_days
from batchcook.kitchens.containers import load_containers
from batchcook.kitchens.kitchen import Kitchen
from batchcook.kitchens.techniques import load_routines
from batchcook.quantities import Quantity, say, ureg

__all__ = ["day_before", "morning_after"]

_WORTH_FREEZING = 10
"""Pounds of ice from which on a cook would rather freeze some of it: ours."""


def day_before(
    dishes: Sequence[Dish],
    kitchen: Kitchen,
    on: dt.date,
    *,
    ice_pounds: int,
    ice_pans: int,
    shallow_pans: int = 0,
) -> tuple[str, ...]:
    """The evening before: cold things into the refrigerator, ice, space.

    Args:
        dishes: The dishes of the day.
        kitchen: What it makes of the ice, and has of the pans.
        ice_pounds: Ice that cooling them takes.
        on: The prep day.
        ice_pans: Larger pans in which baking dishes stand on ice.
        shallow_pans: Pans in which what is packed in tubs is spread to cool.
    """
    foods = load_foods()
    system = dishes[0].system
    lines = []
    meat: dict[str, float] = {}
    thawed: dict[str, float] = {}
    for dish in dishes:
        for each in dish.recipe.ingredients:
            food = foods[each.food]
            if food.kind.startswith("raw-"):
                grams = float(ingredient_grams(each, dish.batches).magnitude)
                name = food.at_the_store
                meat[name] = meat.get(name, 0.0) + grams
            elif food.kind == "frozen" and "thawed" in each.note:
                grams = float(ingredient_grams(each, dish.batches).magnitude)
                thawed[food.plural] = thawed.get(food.plural, 0.0) + grams
            elif food.kind in KEEPS_UNOPENED and "chilled" in each.note:
                weight = ingredient_grams(each, dish.batches)
                cans = describe(food, weight, None, system, like=each.amount)
                lines.append(f"Into the refrigerator, to be cold when opened: {cans}.")
    for name, grams in thawed.items():
        amount = say(ureg.Quantity(grams, "gram"), system, weigh=True)
        lines.append(f"Move {amount} of {name} to the refrigerator to thaw.")
    if meat:
        what = ", ".join(
            f"{say(ureg.Quantity(grams, 'gram'), system, weigh=True)} {name}"
            for name, grams in meat.items()
        )
        lines[:0] = [
            f"On the lowest shelf of the refrigerator, thawed, on a tray: {what}.",
            _frozen_meat(meat, on, system),
        ]
    tubs = sum(container_count(dish.recipe, dish.batches, dish.eaten) for dish in dishes)
    feet = cooling_room(dishes, kitchen)
    litres = float(ureg.Quantity(feet, "cubic_foot").to("litre").magnitude)
    room = f"{feet:.1f} cubic feet" if system == "us" else f"{5 * ceil(litres / 5)} litres"
    degrees = round(float(FREEZER_BEFORE_LOAD.magnitude))
    lines += [
        f"Turn the freezer down to {degrees} degF.",
        *_ice(ice_pounds, int(kitchen.ice.to("pound").magnitude), system),
        *_ice_pans(ice_pans, kitchen.ice_pans, system),
        *_shallow_pans(shallow_pans, system),
        f"Clear room for {tubs} containers in the freezer and {room} of the refrigerator's racks.",
        "Empty the dishwasher; lay out tubs with their lids, bags, labels, two thermometers.",
        "Check the shopping list against the cupboard.",
    ]
    return tuple(lines)


def _frozen_meat(meat: Mapping[str, float], on: dt.date, system: str) -> str:
    """By when meat that was frozen is moved, to be thawed on the evening before."""
    evening = on - dt.timedelta(days=1)

    def moved(weight: Quantity) -> str:
        day = evening - dt.timedelta(days=thaw_days(weight))
        return f"{day:%a} {day.day} {day:%b}"

    pack = limit("thaw-refrigerator").lower
    size = say(pack, system, weigh=True)
    large = {name: ureg.Quantity(grams, "gram") for name, grams in meat.items()}
    late = ", ".join(
        f"{say(weight, system, weigh=True)} {name} by {moved(weight)}"
        for name, weight in large.items()
        if weight > pack
    )
    return (
        f"What of it is frozen goes there, on its tray, by {moved(pack)} in packs of up to {size}: "
        f"24 hours for each {size} in one pack{f'; in one pack, {late}' if late else ''}."
    )


def _ice(needed: int, made: int, system: str) -> list[str]:
    """How much ice to have, and how much of it is bought."""

    def ice(pounds: int) -> str:
        return say(ureg.Quantity(pounds, "pound"), system, weigh=True)

    if not needed:
        return []
    if needed <= made:
        return [f"Make {ice(needed)} of ice for cooling."]
    bought = f"buy the other {ice(needed - made)}" if made else "buy it"
    own = f"make {ice(made)}, " if made else ""
    lines = [f"Ice for cooling, {ice(needed)}: {own}{bought}."]
    if needed - made >= _WORTH_FREEZING:
        lines.append(
            "Water frozen in shallow pans on the days before, and broken up, serves as bought ice."
        )
    return lines


def _ice_pans(needed: int, own: int, system: str) -> list[str]:
    """The larger pans to lay out for baking dishes on ice."""
    if not needed:
        return []
    what = "large foil pans" if own == 0 else "roasting pans or large foil pans"
    one = what.replace("pans", "pan")
    each = f"{what if needed > 1 else one} ({ice_pan_words(system)})"
    return [f"Lay out {needed} {each} for what cools on ice in the refrigerator."]


def _shallow_pans(needed: int, system: str) -> list[str]:
    """The pans to lay out for what is spread to cool."""
    if not needed:
        return []
    pans = f"{needed} shallow pan{'s' if needed > 1 else ''}"
    each = f"{shallow_pan_words(system)}{' each' if needed > 1 else ''}"
    return [f"Lay out {pans}, {each} or more, for what is spread to cool in the refrigerator."]


def morning_after(
    dishes: Sequence[Dish],
    freezing: Sequence[plan.Freezing] = (),
    *,
    spread: Collection[str] = (),
) -> tuple[str, ...]:
    """From the evening on: what is cold goes on into the freezer, each at its time.

    Args:
        dishes: The dishes of the day.
        freezing: What goes into the freezer when; what went in during the day is not told again.
        spread: Ids of the dishes that cool in shallow pans.
    """
    raw = {dish.id for dish in dishes if dish.recipe.state == "raw-kit"}
    lines = [each.words for each in freezing if each.dish not in raw]
    if lines:
        lines.insert(
            0,
            "Check each center with a thermometer: at 41 degF or below, close the lid and freeze "
            "it; if it is warmer, wait.",
        )
    lines += [
        _bagging(dish, freezing)
        for dish in dishes
        if load_containers()[dish.recipe.container].shape == "tray"
    ]
    flat_out = [dish for dish in dishes if dish.id in spread]
    if flat_out:
        lines.insert(1, _packing(flat_out))
    lines += [
        "Stack what froze flat, the earliest date in front.",
        "When the last is frozen through, set the freezer back to 0 degF.",
        "Note what was really made, and what you would do otherwise.",
    ]
    return tuple(lines)


def _packing(dishes: Sequence[Dish]) -> str:
    """Dishes that cooled spread out, into their containers, and how long that takes."""
    shapes = {load_containers()[dish.recipe.container].shape for dish in dishes}
    into = " or ".join("bags" if shape == "flat bag" else f"{shape}s" for shape in sorted(shapes))
    flat = "; bags with the air pressed out, sealed, laid flat" if "flat bag" in shapes else ""
    count = sum(container_count(dish.recipe, dish.batches, dish.eaten) for dish in dishes)
    minutes = load_routines()["portion"].minutes(containers=count)
    return (
        f"What cooled in shallow pans: once cold, into its {into} ({count}) before it is "
        f"frozen{flat}; about {minutes} minutes."
    )


def _bagging(dish: Dish, freezing: Sequence[plan.Freezing]) -> str:
    """Pieces off their pans and into bags: from when, and how long it takes."""
    hard = [
        each.at + dt.timedelta(minutes=each.minutes) for each in freezing if each.dish == dish.id
    ]
    since = f" from {_awake(to_the_quarter(max(hard)))} on" if hard else ""
    count = container_count(dish.recipe, dish.batches, dish.eaten)
    minutes = load_routines()["bag-pieces"].minutes(containers=count)
    return (
        f"{dish.recipe.title}, frozen hard on the pans{since}: bag them ({count}), press out the "
        f"air, label; about {minutes} minutes."
    )


def _awake(at: dt.datetime) -> str:
    """A time of day, or the morning after it where it falls in the night."""
    day = at.date() + dt.timedelta(days=at.time() > LAST_TO_THE_FREEZER)
    night = at.time() > LAST_TO_THE_FREEZER or at.time() < MORNING
    return f"{day:%a} {day.day} {day:%b}{' in the morning' if night else f', {at:%H:%M}'}"
