"""What the freezer and the refrigerator can take of a prep day, and which containers wait."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

from batchcook.complaints import Complaint, InputFault
from batchcook.cookbooks.packing import container_count, fill_depth, grams_a_portion
from batchcook.cookbooks.recipe import Recipe
from batchcook.dishwork.chilling import ICE_PAN, ICE_PAN_DEPTH, chilling_of
from batchcook.dishwork.coldwaits import cold_waits
from batchcook.dishwork.draft import Dish
from batchcook.foods import load_foods
from batchcook.foodsafety.dishrows import rows_carried
from batchcook.foodsafety.freezerload import FreezerItem, StagingPlan, stage_freezing
from batchcook.foodsafety.freezing import freezing_time
from batchcook.foodsafety.limits import REFRIGERATOR
from batchcook.foodsafety.storage import StorageRow, refrigerator_life
from batchcook.kitchens.containers import load_containers
from batchcook.kitchens.kitchen import Kitchen
from batchcook.kitchens.pans import HALF_SHEET, read_size
from batchcook.quantities import Quantity, ureg

__all__ = [
    "check_cold_space",
    "cooling_room",
    "food_edges",
    "freezing_minutes",
    "stage",
    "storage_rows_of",
    "waits",
]

_AIR = ureg.Quantity(0.5, "inch")
"""Left free between containers that cool; an assumption of ours."""

_SHAPED = ureg.Quantity(2, "inch")
"""Height of a covered pan of what is shaped; an assumption of ours."""

_PIECE = ureg.Quantity(1, "inch")
"""Thickness of pieces frozen apart; an assumption of ours."""


def storage_rows_of(recipe: Recipe) -> tuple[StorageRow, ...]:
    """Every row of every chart that sets the dates of a dish.

    Raises:
        InputFault: The recipe names a row, or holds a food, that is not known.
    """
    kinds = {load_foods()[each.food].kind for each in recipe.ingredients}
    return rows_carried(recipe.stored_as, recipe.state, kinds, recipe.form, recipe.id)


def food_edges(recipe: Recipe) -> tuple[Quantity, Quantity, Quantity]:
    """Length, width and depth of the food in a full container; of one piece, its thickness."""
    container = load_containers()[recipe.container]
    depth = _PIECE if container.shape == "tray" else fill_depth(recipe)
    return container.length, container.width, depth


def freezing_minutes(recipe: Recipe, kitchen: Kitchen) -> int:
    """Estimated minutes from refrigerator-cold until a container is frozen through.

    Raises:
        InputFault: The freezer is too warm to freeze it.
    """
    found = freezing_time("brick", food_edges(recipe), freezer=kitchen.freezer.temperature)
    return round(float(found.to("minute").magnitude))


def stage(
    dishes: Sequence[Dish],
    kitchen: Kitchen,
    first_day: dt.date,
    *,
    late: Collection[str] = (),
) -> StagingPlan:
    """Which containers go into the freezer on which day.

    Args:
        dishes: The dishes of the day.
        kitchen: Its freezer.
        first_day: The prep day.
        late: Ids of the dishes that are cold too late to be frozen on the prep day itself.

    Raises:
        InputFault: The freezer is too warm, too full or takes too little; with the batches that
            it could take.
    """
    try:
        return _staged(dishes, kitchen, first_day, late=late)
    except InputFault as fault:
        could = _could(dishes, kitchen, first_day, late=late)
        raise InputFault([_with(each, could) for each in fault.complaints]) from None


def waits(dishes: Sequence[Dish], staging: StagingPlan) -> Mapping[str, tuple[int, ...]]:
    """For each dish the days that its containers wait in the refrigerator, in their order."""
    found: dict[str, list[int]] = {dish.id: [] for dish in dishes}
    for day in staging.days:
        for dish, count in day.containers.items():
            found[dish] += [day.days_waited] * count
    return {dish: tuple(days) for dish, days in found.items()}


def check_cold_space(dishes: Sequence[Dish], kitchen: Kitchen, first_day: dt.date) -> None:
    """The refrigerator has room for what cools in it, the freezer for what is frozen.

    Raises:
        InputFault: With what is lacking and what would do.
    """
    complaints = _refrigerator_too_warm(kitchen)
    for full in _refrigerator_too_full(dishes, kitchen):
        complaints.append(_with(full, _could(dishes, kitchen, first_day, late=())))
    try:
        stage(dishes, kitchen, first_day)
    except InputFault as fault:
        complaints += fault.complaints
    if complaints:
        raise InputFault(complaints)


def _staged(
    dishes: Sequence[Dish], kitchen: Kitchen, first_day: dt.date, *, late: Collection[str]
) -> StagingPlan:
    return stage_freezing(
        [_item(dish, late=late) for dish in dishes],
        kitchen.freezer.capacity,
        first_day,
        free=kitchen.freezer.free,
        freezer=kitchen.freezer.temperature,
    )


def _item(dish: Dish, *, late: Collection[str]) -> FreezerItem:
    recipe = dish.recipe
    return FreezerItem(
        dish=dish.id,
        containers=container_count(recipe, dish.batches, dish.eaten),
        weight=grams_a_portion(recipe) * recipe.portions_per_container,
        thickness=min(food_edges(recipe)),
        space=load_containers()[recipe.container].outside,
        refrigerator_days=refrigerator_life(storage_rows_of(recipe))[0],
        from_day=int(dish.id in late),
    )


def _could(
    dishes: Sequence[Dish], kitchen: Kitchen, first_day: dt.date, *, late: Collection[str]
) -> str:
    """The order with batches left out until all of it fits, the heaviest dish first."""
    left = list(dishes)
    while left:
        heaviest = max(left, key=lambda dish: (dish.batches, _item(dish, late=late).weight))
        left.remove(heaviest)
        if heaviest.batches > 1:
            left.append(replace(heaviest, batches=heaviest.batches - 1))
        try:
            _staged(left, kitchen, first_day, late=late)
        except InputFault:
            continue
        if _refrigerator_too_full(left, kitchen):
            continue
        named = {dish.id: dish.batches for dish in left}
        return " ".join(f"{dish.id}={named[dish.id]}" for dish in dishes if dish.id in named)
    return ""


def _with(complaint: Complaint, could: str) -> Complaint:
    """A complaint with the order that would do, where there is one."""
    if not could:
        return complaint
    return replace(complaint, expected=f"{complaint.expected}; or {could}")


def _refrigerator_too_warm(kitchen: Kitchen) -> list[Complaint]:
    degrees = kitchen.refrigerator.temperature
    if degrees.to("degF").magnitude <= REFRIGERATOR.magnitude:
        return []
    return [
        Complaint(
            f"{kitchen.title}, refrigerator.temperature",
            f"{degrees.to('degF').magnitude:g} degF is too warm to keep food",
            f"{REFRIGERATOR.magnitude:g} degF or below",
        )
    ]


def _refrigerator_too_full(dishes: Sequence[Dish], kitchen: Kitchen) -> list[Complaint]:
    """What is cooked on one day cools side by side: hours pass until the first is cold."""
    needed = cooling_room(dishes, kitchen)
    has = float(kitchen.refrigerator.free.to("foot ** 3").magnitude)
    if needed <= has:
        return []
    return [
        Complaint(
            f"{kitchen.title}, refrigerator.free",
            (
                f"what cools takes {needed:.1f} cubic feet with air around it, "
                f"{has:.1f} cubic feet are free"
            ),
            f"{needed:.1f} cubic feet cleared",
        )
    ]


def cooling_room(dishes: Sequence[Dish], kitchen: Kitchen) -> float:
    """Cubic feet that the dishes of a day take in the refrigerator, air around each container.

    What cools in shallow pans takes no more than its containers do. Pans of a dish that is shaped
    cold are in the oven before its own containers come; what is cut or mixed takes no more room
    than it came from.
    """
    return sum(max(_cooling(dish, kitchen), _shaped(dish)) for dish in dishes)


def _cooling(dish: Dish, kitchen: Kitchen) -> float:
    if dish.recipe.state == "raw-kit":
        return 0.0
    return container_count(dish.recipe, dish.batches, dish.eaten) * _room(dish, kitchen)


def _shaped(dish: Dish) -> float:
    """Cubic feet of the pans in which a cold dish waits for the oven or the skillet."""
    recipe = dish.recipe
    waits = cold_waits(recipe)
    names = {step.vessel for step in recipe.steps if step.name in waits and step.vessel}
    feet = 0.0
    for vessel in (recipe.vessels[name] for name in names):
        if vessel.kind in {"sheet-pan", "baking-dish"}:
            length, width = read_size(str(vessel.size)) or HALF_SHEET
            feet += vessel.per_batch * dish.batches * _feet(length, width, _SHAPED)
    return feet


def _room(dish: Dish, kitchen: Kitchen) -> float:
    """Cubic feet that one container takes while it cools, with air around it."""
    container = load_containers()[dish.recipe.container]
    edges = (container.length, container.width, container.height)
    if _on_ice(dish, kitchen):
        edges = (*ICE_PAN, max(container.height, ICE_PAN_DEPTH))
    return _feet(*edges)


def _feet(length: Quantity, width: Quantity, height: Quantity) -> float:
    """Cubic feet of a container with air around it."""
    room = (length + _AIR) * (width + _AIR) * (height + _AIR / 2)
    return float(room.to("foot ** 3").magnitude)


def _on_ice(dish: Dish, kitchen: Kitchen) -> bool:
    """Whether each of its pans stands in a larger one; not where no way cools it at all."""
    try:
        chilling = chilling_of(dish, kitchen)
    except InputFault:
        return False  # told by the dish itself
    return chilling is not None and chilling.on_ice
