"""What is done the day before, and that evening and the days after."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from batchcook import plan
from batchcook.day.freezerplan import cooling_room
from batchcook.dishwork.draft import Dish, ingredient_grams
from batchcook.foods import load_foods
from batchcook.foodsafety.limits import FREEZER_BEFORE_LOAD
from batchcook.kitchens.containers import load_containers
from batchcook.kitchens.packing import container_count
from batchcook.quantities import Quantity, say, ureg

__all__ = ["day_before", "morning_after"]


def day_before(dishes: Sequence[Dish], ice_pounds: int, home_made: Quantity) -> tuple[str, ...]:
    """The evening before: cold things into the refrigerator, ice, space.

    Args:
        dishes: The dishes of the day.
        ice_pounds: Ice that cooling them takes.
        home_made: Ice that the kitchen makes by then.
    """
    foods = load_foods()
    system = dishes[0].system
    lines = []
    meat: dict[str, float] = {}
    for dish in dishes:
        for each in dish.recipe.ingredients:
            food = foods[each.food]
            if food.kind.startswith("raw-"):
                grams = float(ingredient_grams(each, dish.batches).magnitude)
                meat[food.plural] = meat.get(food.plural, 0.0) + grams
            elif food.kind == "frozen" and "thawed" in each.note:
                amount = say(ingredient_grams(each, dish.batches), system, weigh=True)
                lines.append(f"Move {amount} of {food.plural} to the refrigerator to thaw.")
    if meat:
        what = ", ".join(
            f"{say(ureg.Quantity(grams, 'gram'), system, weigh=True)} {name}"
            for name, grams in meat.items()
        )
        lines.insert(
            0,
            f"On the lowest shelf of the refrigerator, thawed, on a tray: {what}.",
        )
    tubs = sum(container_count(dish.recipe, dish.batches, dish.eaten) for dish in dishes)
    feet = cooling_room(dishes)
    litres = float(ureg.Quantity(feet, "cubic_foot").to("litre").magnitude)
    room = f"{feet:.1f} cubic feet" if system == "us" else f"{5 * ceil(litres / 5)} litres"
    degrees = round(float(FREEZER_BEFORE_LOAD.magnitude))
    lines += [
        f"Turn the freezer down to {degrees} degF.",
        *_ice(ice_pounds, int(home_made.to("pound").magnitude), system),
        f"Clear room for {tubs} containers in the freezer and {room} of the refrigerator's racks.",
        "Empty the dishwasher; lay out tubs with their lids, bags, labels, two thermometers.",
        "Check the shopping list against the cupboard.",
    ]
    return tuple(lines)


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
    return [f"Ice for cooling, {ice(needed)}: {own}{bought}."]


def morning_after(
    dishes: Sequence[Dish], freezing: Sequence[plan.Freezing] = ()
) -> tuple[str, ...]:
    """From the evening on: what is cold goes on into the freezer, each at its time.

    Args:
        dishes: The dishes of the day.
        freezing: What goes into the freezer when; what went in during the day is not told again.
    """
    raw = {dish.id for dish in dishes if dish.recipe.state == "raw-kit"}
    lines = [each.words for each in freezing if each.dish not in raw]
    if lines:
        lines.insert(
            0,
            "Check each center with a thermometer: at 41 degF or below, close the lid and freeze "
            "it; if it is warmer, wait.",
        )
    if any(load_containers()[dish.recipe.container].shape == "tray" for dish in dishes):
        lines.append("Pieces frozen hard on their trays: bag them, press out the air, label.")
    lines += [
        "Stack what froze flat, the earliest date in front.",
        "When the last is frozen through, set the freezer back to 0 degF.",
        "Note what was really made, and what you would do otherwise.",
    ]
    return tuple(lines)
