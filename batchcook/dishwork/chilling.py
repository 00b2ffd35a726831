"""How a dish goes from hot to refrigerator-cold: which way is chosen."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

from batchcook.complaints import Complaint, InputFault
from batchcook.cookbooks.packing import container_count, dish_volume, fill_depth
from batchcook.cookbooks.recipe import Recipe
from batchcook.dishwork.draft import Dish
from batchcook.dishwork.work import Baths
from batchcook.foodsafety.cooling import (
    Bath,
    Consistency,
    CoolingContainer,
    CoolingPlan,
    choose_cooling,
)
from batchcook.foodsafety.limits import time_out_limit
from batchcook.foodsafety.thermal import thermal_values
from batchcook.kitchens.containers import load_containers
from batchcook.kitchens.kitchen import Kitchen
from batchcook.kitchens.pans import HALF_SHEET
from batchcook.kitchens.techniques import load_routines
from batchcook.kitchens.vessels import pot_options
from batchcook.metricwords import metric_words
from batchcook.quantities import Quantity, ureg

__all__ = [
    "ICE_BATH",
    "ICE_PAN",
    "ICE_PAN_DEPTH",
    "SHALLOW_PAN",
    "Chilling",
    "chilling_of",
    "consistency_of",
    "ice_pan_words",
    "shallow_pan_words",
]

ICE_BATH = "ice bath"
"""The resource: a wash tub, a cooler or a spare sink bowl in which a pot stands in ice water."""

_SIDES = [thermal_values()[name].quantity for name in ("ice-pan-width", "ice-pan-length")]

ICE_PAN = (_SIDES[0], _SIDES[1])
"""Width and length of the larger pan in which a baking dish stands on ice."""

ICE_PAN_DEPTH = ureg.Quantity(3, "inch")
"""How deep it is: an assumption of ours."""

SHALLOW_PAN = CoolingContainer(
    "9 x 13 inch pan",
    ureg.Quantity(13, "inch"),
    ureg.Quantity(9, "inch"),
    ureg.Quantity(2, "inch"),
    final=False,
)
"""What a dish is spread in to cool before it is packed; an ordinary baking dish or foil pan."""

_SPARE = 1 / 8
"""Share kept free, of the time that food may be out in all, when a way is chosen: ours; a day is
planned with as much to spare."""

_PIECES_THICK = ureg.Quantity(1, "inch")
"""Cakes, balls and the like as recipes shape them; an assumption of ours."""


@dataclass(frozen=True)
class Chilling:
    """How one dish is cooled.

    Attributes:
        dish: The dish's id.
        method: The computed way, with its times.
        baths: The ice baths that stand side by side, or that it is spread in shallow pans.
        spread: Whether it cools spread out and is packed once it is cold: hot food in a flat bag
            leaks, and from an ice bath it is cold enough for one.
    """

    dish: str
    method: CoolingPlan
    baths: Baths
    spread: bool = False

    def minutes_at(self, *places: str) -> int:
        """Minutes of the stages at these places."""
        return sum(stage.minutes for stage in self.method.stages if stage.place in places)

    @property
    def bath_minutes(self) -> int:
        """Minutes in cold water and ice water."""
        return self.minutes_at("cold-water", "ice-bath")

    @property
    def minutes_out(self) -> int:
        """Minutes in a bath, and while containers or pans are filled."""
        filling = load_routines()["portion"].minutes(containers=self.method.containers)
        return self.bath_minutes + filling

    @property
    def cold_after(self) -> int:
        """Minutes in the refrigerator until it is as cold as that."""
        return self.minutes_at("refrigerator", "ice-under-pan")

    @property
    def on_ice(self) -> bool:
        """Whether its pans stand in ice water in the refrigerator."""
        return self.minutes_at("ice-under-pan") > 0

    @property
    def ice_pans(self) -> int:
        """Larger pans in which its own stand on ice, one each."""
        return self.method.containers if self.on_ice else 0


def consistency_of(recipe: Recipe) -> Consistency:
    """Whether a dish can be stirred when it is done; what is baked in its pan cannot."""
    if load_containers()[recipe.container].shape == "pan":
        return "solid"
    return "thick" if recipe.cool == "none" else recipe.cool


def chilling_of(
    dish: Dish, kitchen: Kitchen, *, already_out: int = 0, baths: Baths | None = None
) -> Chilling | None:
    """The way to cool a dish; None for a raw kit, which was never hot.

    Args:
        dish: The dish.
        kitchen: Its refrigerator, room and ice baths.
        already_out: Minutes that its food spends out of the cold before: at the board, in hands,
            waiting. Where a bath would so come too near to the limit it is shared between two
            tubs. Where that does not do, the dish is spread in shallow pans, from cold water or,
            if need be, hot.
        baths: The ice baths where they are settled; None to choose.

    Raises:
        InputFault: No way keeps the limits of cooling; proposes what would.
    """
    if dish.recipe.state == "raw-kit":
        return None
    left = time_out_limit(kitchen.room) * (1 - _SPARE) - already_out
    ways: list[Chilling] = []
    faults: list[InputFault] = []
    for each in _tried(dish, kitchen) if baths is None else [baths]:
        try:
            way = _way(dish, kitchen, each)
        except InputFault as fault:
            faults.append(fault)
            continue
        if way.minutes_out <= left:
            return way
        ways.append(way)
    if not ways:
        raise faults[0]
    return min(ways, key=lambda way: way.minutes_out)


def _tried(dish: Dish, kitchen: Kitchen) -> list[Baths]:
    """What loses the heat of a dish, the least trouble first."""
    fewest = _pots(dish.recipe, dish_volume(dish.recipe, dish.batches), kitchen)
    tubs = [Baths(pots) for pots in range(fewest, max(fewest, kitchen.ice_baths) + 1)]
    stirred = consistency_of(dish.recipe) in {"liquid", "thick"}
    spread = [replace(each, spread=True) for each in (*tubs, Baths(0))] if stirred else []
    return [*tubs, *spread]


def _way(dish: Dish, kitchen: Kitchen, baths: Baths) -> Chilling:
    """A dish cooled so.

    Raises:
        InputFault: It is not cold in time so, or there are too few tubs.
    """
    method = _cooled(dish, dish_volume(dish.recipe, dish.batches), kitchen, baths)
    bath = any(stage.place in {"cold-water", "ice-bath"} for stage in method.stages)
    if bath and baths.tubs > kitchen.ice_baths:
        raise InputFault(_too_few_baths(dish, kitchen, baths.tubs))
    if bath or baths.spread:
        return Chilling(dish.id, method, baths, spread=baths.spread)
    return Chilling(dish.id, method, Baths(0), spread=_in_flat_bags(dish.recipe))


def _in_flat_bags(recipe: Recipe) -> bool:
    return load_containers()[recipe.container].shape == "flat bag"


def shallow_pan_words(system: str = "us") -> str:
    """The pan that a dish is spread in, by its size: ``"9 x 13 inch"``."""
    words = SHALLOW_PAN.name.removesuffix(" pan")
    return metric_words(words) if system == "metric" else words


def ice_pan_words(system: str = "us") -> str:
    """The larger pan for a baking dish on ice, by its size: ``"12 x 17 inch, 3 inches deep"``."""
    sides = " x ".join(f"{float(edge.magnitude):g}" for edge in ICE_PAN)
    words = f"{sides} inch, {float(ICE_PAN_DEPTH.magnitude):g} inches deep"
    return metric_words(words) if system == "metric" else words


def _too_few_baths(dish: Dish, kitchen: Kitchen, pots: int) -> Complaint:
    return Complaint(
        f"{kitchen.title}, cooling.ice_baths",
        f"{dish.id} cools in {pots} at once, there are {kitchen.ice_baths}",
        "another wash tub or cooler, shallower containers, or fewer batches",
    )


def _cooled(dish: Dish, volume: Quantity, kitchen: Kitchen, baths: Baths) -> CoolingPlan:
    consistency = consistency_of(dish.recipe)
    return _chosen(
        volume,
        consistency,
        SHALLOW_PAN if baths.spread else _container(dish),
        kitchen.refrigerator.temperature,
        kitchen.room,
        max(1, baths.tubs),
        ice=not baths.spread and (consistency == "solid" or kitchen.ice_baths >= baths.tubs),
        bath=("must" if baths.tubs else "never") if baths.spread else "may",
        where=f"{dish.id}, cooling",
    )


@lru_cache(maxsize=256)
def _chosen(
    volume: Quantity,
    consistency: Consistency,
    container: CoolingContainer,
    refrigerator: Quantity,
    room: Quantity,
    pots: int,
    *,
    ice: bool,
    bath: Bath,
    where: str,
) -> CoolingPlan:
    """The way to cool so much; kept, as a dish is looked at often and its conduction is slow."""
    return choose_cooling(
        volume,
        consistency,
        [container],
        refrigerator=refrigerator,
        room=room,
        pots=pots,
        ice=ice,
        bath=bath,
        where=where,
    )


def _pots(recipe: Recipe, volume: Quantity, kitchen: Kitchen) -> int:
    """Pots among which the dish is when it is done."""
    if not any(vessel.kind == "pot" for vessel in recipe.vessels.values()):
        return 1
    options = pot_options(kitchen, volume)
    return sum(options[0].values()) if options else 1


def _container(dish: Dish) -> CoolingContainer:
    """What the dish cools in: its own containers, or sheet pans for pieces."""
    if consistency_of(dish.recipe) == "pieces":
        return CoolingContainer("sheet pan", *HALF_SHEET, _PIECES_THICK, final=False)
    container = load_containers()[dish.recipe.container]
    count = container_count(dish.recipe, dish.batches, dish.eaten)
    return CoolingContainer(
        container.title,
        container.length,
        container.width,
        fill_depth(dish.recipe),
        holds=dish_volume(dish.recipe, dish.batches) / count,
        count=count,
    )
