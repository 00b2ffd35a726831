"""Recipes as they could be made on the prep day: how many batches, what each feeds and takes."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from math import ceil
from typing import Final

from batchcook.buying.shopping import shopping_lines
from batchcook.complaints import InputFault
from batchcook.cookbook import Cookbook
from batchcook.cookbooks.packing import grams_a_portion, portions_in
from batchcook.cookbooks.recipe import Recipe
from batchcook.day.formulation import formulate
from batchcook.day.freezerplan import check_cold_space, cooling_room, storage_rows_of
from batchcook.day.labelling import containers
from batchcook.day.prepday import PrepDay
from batchcook.day.workday import day_work, ordered_dishes
from batchcook.dishwork.draft import Dish
from batchcook.foods import load_foods
from batchcook.foodsafety.storage import refrigerator_life
from batchcook.freezer.mains import main_word
from batchcook.freezer.stock import Rating
from batchcook.kitchens.containers import load_containers
from batchcook.lengths import hours
from batchcook.scheduling.energy import shortest_day
from batchcook.scheduling.network import network
from batchcook.suggesting.fromstock import Ahead
from batchcook.suggesting.request import SuggestRequest
from batchcook.wording import short_day

__all__ = ["LeftOut", "Offer", "Size", "main_of", "offers"]

_MOST_BATCHES: Final = 3
"""More of one dish than this on one day is no variety."""

_SHARE: Final = 2
"""One dish fills at most one in so many of the open nights, but two where there are so few."""


@dataclass(frozen=True)
class Size:
    """A recipe in so many batches.

    Attributes:
        batches: How many.
        portions: Those in each container.
        hands_on: Minutes of work at the least.
        alone: Minutes that a day with nothing else takes at the least.
        space: Cubic feet in the freezer.
        cooling: Cubic feet in the refrigerator while it cools.
        pounds: Weight of the food to be frozen.
    """

    batches: int
    portions: tuple[int, ...]
    hands_on: int
    alone: int
    space: float
    cooling: float
    pounds: float


@dataclass(frozen=True)
class Offer:
    """A recipe that may be made.

    Attributes:
        recipe: The recipe.
        main: Its main ingredient.
        rating: The household's verdict, or None.
        from_day: The first evening on which it can be eaten: frozen and thawed.
        best_by: Its best-by date.
        waits: Days that it may wait in the refrigerator for its turn in the freezer.
        sizes: One batch, two batches and so on, as far as the kitchen and the day allow.
    """

    recipe: Recipe
    main: str
    rating: Rating | None
    from_day: dt.date
    best_by: dt.date
    waits: int
    sizes: tuple[Size, ...]

    @property
    def id(self) -> str:
        """The recipe's id."""
        return self.recipe.id

    def containers_for(self, people: int) -> int:
        """Containers that a table of so many takes."""
        return ceil(people / self.recipe.portions_per_container)

    def left_over(self, people: int) -> int:
        """Portions that full containers hold beyond what such a table eats."""
        return self.containers_for(people) * self.recipe.portions_per_container - people

    def in_time(self, evening: dt.date) -> bool:
        """Whether it can be eaten on an evening, thawed and before its best-by date passes."""
        return self.from_day <= evening <= self.best_by


@dataclass(frozen=True)
class LeftOut:
    """A recipe that is not to be made, and why."""

    dish: str
    title: str
    why: str


def offers(
    request: SuggestRequest,
    cookbook: Cookbook,
    ahead: Ahead,
    told: Callable[[str], None],
) -> tuple[tuple[Offer, ...], tuple[LeftOut, ...]]:
    """The recipes that could fill open nights, and those that could not.

    Args:
        request: The prep day.
        cookbook: The recipes at hand.
        ahead: The nights, and the household's verdicts.
        told: Told how far it is.
    """
    found: list[Offer] = []
    left: list[LeftOut] = []
    evenings = [(night.on, night.people) for night in ahead.nights if night.open]
    for number, recipe in enumerate(cookbook.values(), 1):
        told(f"looking at {recipe.title} ({number} of {len(cookbook)} recipes)")
        rating = ahead.stock.ratings.get(recipe.id)
        made = _offered(recipe, rating, request, cookbook, evenings)
        if isinstance(made, str):
            left.append(LeftOut(recipe.id, recipe.title, made))
        else:
            found.append(made)
    return tuple(found), tuple(left)


def _offered(
    recipe: Recipe,
    rating: Rating | None,
    request: SuggestRequest,
    cookbook: Cookbook,
    evenings: Iterable[tuple[dt.date, int]],
) -> Offer | str:
    """The recipe as it could be made, or why not."""
    if rating is not None and rating.verdict == "drop":
        return f"dropped on {short_day(rating.on)}" + (f": {rating.note}" if rating.note else "")
    try:
        label = containers((Dish(recipe, 1, "bowl"),), request.date, "us")[0]
    except InputFault as fault:
        return str(fault.complaints[0])
    thaws = label.thaw_days if label.thaw == "refrigerator" else 0
    # A night in the freezer at the least: it is not frozen through any sooner.
    from_day = request.date + dt.timedelta(days=1 + thaws)
    nights = [people for on, people in evenings if from_day <= on <= label.best_by]
    if not nights:
        return f"good from {short_day(from_day)} to {short_day(label.best_by)}: no open night"
    at_most = max(_SHARE, ceil(len(nights) / _SHARE))
    needed = ceil(max(nights) / recipe.portions_per_container) * at_most
    sizes: list[Size] = []
    for batches in range(1, _MOST_BATCHES + 1):
        size = _size(recipe, batches, request, cookbook)
        if isinstance(size, str):
            if not sizes:
                return size
            break
        sizes.append(size)
        if len(size.portions) >= needed:
            break
    return Offer(
        recipe=recipe,
        main=main_of(recipe),
        rating=rating,
        from_day=from_day,
        best_by=label.best_by,
        waits=max(refrigerator_life(storage_rows_of(recipe))[0] - 1, 0),
        sizes=tuple(sizes),
    )


def _size(recipe: Recipe, batches: int, request: SuggestRequest, cookbook: Cookbook) -> Size | str:
    """So many batches, or why the kitchen or the day cannot do with them."""
    day = PrepDay(request.date, request.start, {recipe.id: batches}, request.kitchen)
    dishes = ordered_dishes(day, cookbook)
    try:
        check_cold_space(dishes, request.kitchen, request.date)
        work = day_work(dishes, day)
        problem = formulate(work, day).problem
    except InputFault as fault:
        return str(fault.complaints[0])
    alone = shortest_day(problem, network(problem))
    if alone > request.longest:
        return f"takes {hours(alone)} at the least, longer than {hours(request.longest)}"
    portions = portions_in(recipe, batches)
    outside = load_containers()[recipe.container].outside
    return Size(
        batches=batches,
        portions=tuple(portions),
        hands_on=sum(
            job.minutes
            for job in work.jobs
            if job.hands is not None and not job.when and recipe.id in job.dishes
        ),
        alone=alone,
        space=len(portions) * float(outside.to("foot ** 3").magnitude),
        cooling=cooling_room(dishes, request.kitchen),
        pounds=float((grams_a_portion(recipe) * sum(portions)).to("pound").magnitude),
    )


def main_of(recipe: Recipe) -> str:
    """The word for a recipe's main ingredient, as the freezer compares evenings by it."""
    lines = shopping_lines((Dish(recipe, 1, "bowl"),), "us")
    return main_word(lines, {line.food: load_foods()[line.food].kind for line in lines})
