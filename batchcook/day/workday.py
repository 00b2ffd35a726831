"""The work of a whole prep day: every ordered dish, shared, between setting up and closing down."""

from __future__ import annotations

from collections.abc import Sequence

from batchcook.complaints import Complaint, InputFault
from batchcook.cookbook import Cookbook, find_recipe
from batchcook.cookbooks.packing import container_count
from batchcook.cookbooks.recipe import Recipe
from batchcook.day.boiling import share_boiling
from batchcook.day.framing import with_day_work
from batchcook.day.prepday import PrepDay
from batchcook.day.sharing import share
from batchcook.day.sweating import share_sweating
from batchcook.day.taskgraph import check_graph, task_graph
from batchcook.day.tonight import Tonight
from batchcook.dishwork.bowls import bowl_names
from batchcook.dishwork.dishes import dish_work
from batchcook.dishwork.draft import Dish, ingredient_grams
from batchcook.dishwork.work import Work
from batchcook.foods import load_foods
from batchcook.kitchens.vessels import skillet_load
from batchcook.pacing.ownpace import at_own_pace

__all__ = ["day_work", "dishes_of", "framed", "ordered_dishes"]


def ordered_dishes(day: PrepDay, cookbook: Cookbook) -> tuple[Dish, ...]:
    """The ordered recipes with their batches.

    Raises:
        InputFault: With a complaint for every dish that is not in the cookbook.
    """
    complaints: list[Complaint] = []
    recipes = []
    for name in day.orders:
        try:
            recipes.append(find_recipe(cookbook, name, "dishes"))
        except InputFault as fault:
            complaints += fault.complaints
    if complaints:
        raise InputFault(complaints)
    return dishes_of(day, recipes)


def dishes_of(day: PrepDay, recipes: Sequence[Recipe]) -> tuple[Dish, ...]:
    """Each recipe with its batches, its bowls named, and what is eaten the same evening."""
    bowls = bowl_names(recipes)
    eaten = {} if day.tonight is None else _eaten(day.tonight, recipes, day)
    return tuple(
        Dish(recipe, day.orders[recipe.id], bowls[recipe.id], day.system, eaten.get(recipe.id, 0))
        for recipe in recipes
    )


def _eaten(tonight: Tonight, recipes: Sequence[Recipe], day: PrepDay) -> dict[str, int]:
    """Portions eaten the same evening, by dish.

    Raises:
        InputFault: It is not cooked that day, it is packed raw or half done, dinner is before the
            day begins, or nothing of it would be left for the freezer.
    """
    recipe = next((each for each in recipes if each.id == tonight.dish), None)
    if recipe is None:
        what = f"{tonight.dish!r} is not cooked that day"
        raise InputFault(Complaint("tonight", what, "one of " + ", ".join(day.orders)))
    if recipe.state != "cooked":
        done = "raw" if recipe.state == "raw-kit" else "only part-baked"
        what = f"{recipe.title} is packed {done}, so no portion of it is ready to eat that day"
        ready = [each.id for each in recipes if each.state == "cooked"]
        other = "a dish that is packed cooked" + (": " + ", ".join(ready) if ready else "")
        raise InputFault(Complaint("tonight", what, f"{other}; or no [tonight]"))
    if day.start is not None and tonight.at <= day.start:
        what = f"dinner at {tonight.at:%H:%M}, and the day begins at {day.start:%H:%M}"
        raise InputFault(Complaint("tonight", what, "a time of day after that"))
    makes = recipe.servings * day.orders[recipe.id]
    if tonight.portions >= makes:
        what = f"{tonight.portions} portions of {recipe.title}, which makes {makes}"
        raise InputFault(Complaint("tonight", what, f"at most {makes - 1}"))
    return {recipe.id: tonight.portions}


def day_work(dishes: tuple[Dish, ...], day: PrepDay) -> Work:
    """All the work of the day, shared where dishes have the same, checked as a graph.

    Raises:
        InputFault: The kitchen lacks what a dish needs, or a recipe's steps make no sense.
    """
    complaints: list[Complaint] = []
    works = []
    for dish in dishes:
        try:
            works.append(dish_work(dish, day.kitchen))
        except InputFault as fault:
            complaints += fault.complaints
    if complaints:
        raise InputFault(complaints)
    held = skillet_load(day.kitchen)
    shared = share(
        works,
        float(held[1].to("gram").magnitude) if held else 0.0,
        skillets=day.kitchen.skillets[0].count if held else 0,
        burners=day.kitchen.burners.count,
    )
    shared = share_boiling(shared, day.kitchen, day.system)
    shared = share_sweating(shared, day.system)
    work = at_own_pace(framed(shared, dishes), day.pace, day.pad)
    check_graph(task_graph(work), ", ".join(dish.recipe.title for dish in dishes))
    return work


def framed(work: Work, dishes: tuple[Dish, ...]) -> Work:
    """The dishes' work between setting up for all of them and closing down."""
    return with_day_work(
        work,
        sum(container_count(dish.recipe, dish.batches, dish.eaten) for dish in dishes),
        {dish.id: _rinse_grams(dish) for dish in dishes},
    )


def _rinse_grams(dish: Dish) -> float:
    """Weight of the fresh vegetables of a dish, in grams."""
    foods = load_foods()
    return sum(
        float(ingredient_grams(each, dish.batches).magnitude)
        for each in dish.recipe.ingredients
        if foods[each.food].kind == "produce"
    )
