"""What is done the day before, and the morning after."""

from __future__ import annotations

from collections.abc import Sequence

from batchcook.draft import Dish, ingredient_grams
from batchcook.foods import load_foods
from batchcook.foodsafety.limits import FREEZER_BEFORE_LOAD
from batchcook.packing import container_count
from batchcook.quantities import say, ureg

__all__ = ["day_before", "morning_after"]


def day_before(dishes: Sequence[Dish]) -> tuple[str, ...]:
    """The evening before: cold things into the refrigerator, ice, space."""
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
                lines.append(f"Move {amount} of {food.key} to the refrigerator to thaw.")
    if meat:
        what = ", ".join(
            f"{say(ureg.Quantity(grams, 'gram'), system, weigh=True)} {name}"
            for name, grams in meat.items()
        )
        lines.insert(
            0,
            f"On the lowest shelf of the refrigerator, thawed, on a tray: {what}.",
        )
    tubs = sum(container_count(dish.recipe, dish.batches) for dish in dishes)
    degrees = round(float(FREEZER_BEFORE_LOAD.magnitude))
    lines += [
        f"Turn the freezer down to {degrees} degF, and make all the ice it can.",
        f"Clear room for {tubs} containers in the freezer and a shelf in the refrigerator.",
        "Empty the dishwasher; lay out tubs with their lids, bags, labels, two thermometers.",
        "Check the shopping list against the cupboard.",
    ]
    return tuple(lines)


def morning_after(dishes: Sequence[Dish]) -> tuple[str, ...]:
    """The next morning: what was cooling goes on into the freezer."""
    kept = [dish.recipe.title for dish in dishes if dish.recipe.state != "raw-kit"]
    lines = []
    if kept:
        lines.append(
            f"Refrigerator-cold now: close the lids and freeze {', '.join(kept)}, spread out, "
            "the thickest first."
        )
    lines += [
        "Stack what froze flat, the earliest date in front.",
        "Set the freezer back to 0 degF.",
        "Note what was really made, and what you would do otherwise.",
    ]
    return tuple(lines)
