"""Which recipes in how many batches for which open night, by CP-SAT: a method for each rule."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from functools import partial
from itertools import pairwise
from math import ceil
from typing import Final

from ortools.sat.python.cp_model import (
    FEASIBLE,
    OPTIMAL,
    CpModel,
    CpSolver,
    IntVar,
    LinearExpr,
)

from batchcook.foodsafety.freezerload import daily_load
from batchcook.kitchens.kitchen import Kitchen
from batchcook.scheduling.stopping import solved
from batchcook.suggesting.candidates import (
    CHANGE,
    KEEP,
    LEFT_OVER,
    OPEN_NIGHT,
    SAME_DISH,
    SAME_MAIN,
    Candidate,
    fair_share,
)
from batchcook.suggesting.fromstock import NightAhead
from batchcook.suggesting.offers import Offer, Size
from batchcook.suggesting.request import SuggestRequest

__all__ = ["SuggestModel"]

_MERGED: Final = 1.1
"""Dishes made together take less work than each by itself; how much less is not known before the
day is drawn up, so a tenth more is let through."""

_SEED: Final = 3
_EFFORT: Final = 1.5
"""Deterministic seconds for one candidate: the same input gives the same suggestion."""
_FINE: Final = 1000
"""Volumes are counted in thousandths of a cubic foot, weights in thousandths of a pound."""


class SuggestModel:
    """Open nights, offers, and what has to hold between them."""

    def __init__(
        self, nights: Sequence[NightAhead], offers: Sequence[Offer], request: SuggestRequest
    ) -> None:
        """Set up the variables and every rule."""
        self._model = CpModel()
        self._nights = nights
        self._offers = {offer.id: offer for offer in offers}
        self._request = request
        self._made = {
            (offer.id, size.batches): self._model.new_bool_var(f"{offer.id} {size.batches}")
            for offer in offers
            for size in offer.sizes
        }
        self._eaten: dict[tuple[int, str], IntVar] = {
            (number, offer.id): self._model.new_bool_var(f"{number} {offer.id}")
            for number, night in enumerate(nights)
            if night.open
            for offer in offers
            if offer.in_time(night.on)
        }
        self._bare: dict[int, LinearExpr] = {}
        self._one_dinner_a_night()
        self._batches_one_after_another()
        self._enough_containers()
        self._no_main_ingredient_two_nights_running()
        self._room_in_the_cold()
        self._frozen_in_time()
        self._work_within_the_day()
        self._cost = (
            sum(self._bare.values()) * OPEN_NIGHT
            + self._liking()
            + self._left_over()
            + self._repeats()
            + self._main_repeats()
        )
        self._model.minimize(self._cost + self._length())

    def best(self, work: int | None = None) -> Candidate | None:
        """The best order that is left, or None if there is none.

        Args:
            work: Minutes of hands-on work that it may ask for, over all dishes and cooks.
        """
        model = self._model.clone()
        if work is not None:
            model.add(self._work() <= work)
        return self._solved(model)

    @property
    def most_batches(self) -> Mapping[str, int]:
        """Recipe id to the most batches of it that one day may have."""
        return {name: len(offer.sizes) for name, offer in self._offers.items()}

    def more(self, orders: Mapping[str, int], but: Collection[str] = ()) -> Candidate | None:
        """The best order of exactly one batch more, or None if there is none.

        Args:
            orders: What is made anyway.
            but: Dishes of which no batch more is asked.
        """
        model = self._model.clone()
        for (dish, batches), made in self._made.items():
            there = orders.get(dish, 0)
            if batches <= there or batches > there + 1 or dish in but:
                model.add(made == int(batches <= there))
        model.add(sum(self._made.values()) == sum(orders.values()) + 1)
        return self._solved(model)

    def _solved(self, model: CpModel) -> Candidate | None:
        solver = CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = _SEED
        solver.parameters.linearization_level = 2
        solver.parameters.max_deterministic_time = _EFFORT
        if solved(solver, model) not in {OPTIMAL, FEASIBLE}:
            return None
        return self._read(solver.value)

    def without(self, orders: Mapping[str, int]) -> None:
        """Leave out this order and all that ask for as much and more.

        Where it is too much already, so are they; where it is not, they are more work for
        nothing.
        """
        self._model.add_bool_or([self._made[dish, n].negated() for dish, n in orders.items()])

    def _read(self, value: Callable[[LinearExpr], int]) -> Candidate:
        orders: dict[str, int] = {}
        for (dish, batches), made in self._made.items():
            if value(made):
                orders[dish] = max(batches, orders.get(dish, 0))
        return Candidate(
            orders,
            {number: dish for (number, dish), eaten in self._eaten.items() if value(eaten)},
            tuple(number for number, bare in self._bare.items() if value(bare)),
            cost=value(self._cost),
            work=value(self._work()),
        )

    # ---- what has to hold ----------------------------------------------------------------------

    def _one_dinner_a_night(self) -> None:
        """An open night has one dish, or stays open."""
        for number, night in enumerate(self._nights):
            if night.open:
                bare = self._model.new_bool_var(f"open {number}")
                of_night = [eaten for (of, _), eaten in self._eaten.items() if of == number]
                self._model.add_exactly_one([*of_night, bare])
                self._bare[number] = bare

    def _batches_one_after_another(self) -> None:
        """A second batch needs a first; a dish is made only for a night."""
        for offer in self._offers.values():
            made = [self._made[offer.id, size.batches] for size in offer.sizes]
            for fewer, more in pairwise(made):
                self._model.add_implication(more, fewer)
            nights = [eaten for (_, dish), eaten in self._eaten.items() if dish == offer.id]
            self._model.add(sum(nights) >= 1).only_enforce_if(made[0])

    def _enough_containers(self) -> None:
        """No more is eaten of a dish than its containers hold."""
        for offer in self._offers.values():
            eaten = {number: var for (number, dish), var in self._eaten.items() if dish == offer.id}
            most = max((self._nights[number].people for number in eaten), default=1)
            there = self._steps(offer, partial(_usable, offer, most))
            taken = [
                var * offer.containers_for(self._nights[number].people)
                for number, var in eaten.items()
            ]
            self._model.add(sum(taken) <= there)

    def _no_main_ingredient_two_nights_running(self) -> None:
        """Nor the one of a dinner out of the stock."""
        mains = {offer.main or offer.id for offer in self._offers.values()}
        for before, after in pairwise(range(len(self._nights))):
            for main in sorted(mains):
                alike = [*self._with_main(before, main), *self._with_main(after, main)]
                stock = sum(main in self._nights[number].mains for number in (before, after))
                if alike and stock < 2:  # noqa: PLR2004 - both nights of the pair
                    self._model.add(sum(alike) <= 1 - stock)

    def _room_in_the_cold(self) -> None:
        """The containers fit the freezer, and the refrigerator while they cool."""
        kitchen = self._request.kitchen
        for free, room in (
            (kitchen.freezer.free, lambda size: _rounded_up(size.space)),
            (kitchen.refrigerator.free, lambda size: _rounded_up(size.cooling)),
        ):
            has = int(float(free.to("foot ** 3").magnitude) * _FINE)
            self._model.add(sum(self._steps(each, room) for each in self._offers.values()) <= has)

    def _frozen_in_time(self) -> None:
        """The freezer takes so much a day, and what waits for it keeps only so long."""
        load = daily_load(self._request.kitchen.freezer.capacity)
        a_day = float(load.to("pound").magnitude)
        for last in sorted({offer.waits for offer in self._offers.values()}):
            due = [offer for offer in self._offers.values() if offer.waits <= last]
            pounds = sum(self._steps(each, lambda size: _rounded_up(size.pounds)) for each in due)
            self._model.add(pounds <= int(a_day * (last + 1) * _FINE))

    def _work_within_the_day(self) -> None:
        """All cooks together have only so many minutes; the days that remain are screened."""
        minutes = int(len(self._request.kitchen.cooks) * self._request.longest * _MERGED)
        self._model.add(self._work() <= minutes)

    # ---- what is weighed -----------------------------------------------------------------------

    def _liking(self) -> LinearExpr:
        """What the household said of the dishes."""
        weights = {"keep": KEEP, "change": CHANGE}
        return LinearExpr.sum(
            0,
            *(
                self._made[offer.id, offer.sizes[0].batches] * weights.get(offer.rating.verdict, 0)
                for offer in self._offers.values()
                if offer.rating is not None
            ),
        )

    def _left_over(self) -> LinearExpr:
        """Portions that are thawed for a night and left over."""
        return LinearExpr.sum(
            0,
            *(
                eaten * (self._offers[dish].left_over(self._nights[number].people) * LEFT_OVER)
                for (number, dish), eaten in self._eaten.items()
            ),
        )

    def _repeats(self) -> LinearExpr:
        """Nights of one dish after its second, those out of the stock counted."""
        total = LinearExpr.sum(0)
        for offer in self._offers.values():
            nights = [eaten for (_, dish), eaten in self._eaten.items() if dish == offer.id]
            stock = sum(offer.id in night.dishes for night in self._nights)
            total = total + self._over(nights, stock, 2, f"again {offer.id}") * SAME_DISH
        return total

    def _main_repeats(self) -> LinearExpr:
        """Nights of one main ingredient over its fair share."""
        total = LinearExpr.sum(0)
        for main in sorted({offer.main or offer.id for offer in self._offers.values()}):
            nights = [
                var for number in range(len(self._nights)) for var in self._with_main(number, main)
            ]
            stock = sum(main in night.mains for night in self._nights)
            share = fair_share(len(self._nights))
            total = total + self._over(nights, stock, share, f"again {main}") * SAME_MAIN
        return total

    def _over(self, nights: Sequence[IntVar], stock: int, share: int, name: str) -> IntVar:
        """How many nights there are over a share."""
        over = self._model.new_int_var(0, len(nights), name)
        self._model.add(over >= sum(nights) - max(share - stock, 0))
        return over

    def _length(self) -> IntVar:
        """About how long the day will be: the longest dish, and the work over all cooks."""
        length = self._model.new_int_var(0, self._request.longest * 2, "length")
        for offer in self._offers.values():
            for size in offer.sizes:
                self._model.add(length >= size.alone * self._made[offer.id, size.batches])
        self._model.add(length * _cooks(self._request.kitchen) >= self._work())
        return length

    # ---- sums ----------------------------------------------------------------------------------

    def _work(self) -> LinearExpr:
        """Minutes of hands-on work over all dishes."""
        return LinearExpr.sum(
            0, *(self._steps(each, lambda size: size.hands_on) for each in self._offers.values())
        )

    def _steps(self, offer: Offer, figure: Callable[[Size], int]) -> LinearExpr:
        """A figure of the size in which a recipe is made, 0 if it is not made."""
        before = 0
        terms = []
        for size in offer.sizes:
            terms.append(self._made[offer.id, size.batches] * (figure(size) - before))
            before = figure(size)
        return LinearExpr.sum(0, *terms)

    def _with_main(self, night: int, main: str) -> Iterable[IntVar]:
        return [
            eaten
            for (of, dish), eaten in self._eaten.items()
            if of == night and (self._offers[dish].main or dish) == main
        ]


def _usable(offer: Offer, people: int, size: Size) -> int:
    """Containers that count: a last one that is not full counts where it still feeds the table."""
    each = offer.recipe.portions_per_container
    last = people - (offer.containers_for(people) - 1) * each
    return sum(portions == each or portions >= last for portions in size.portions)


def _rounded_up(amount: float) -> int:
    return ceil(amount * _FINE)


def _cooks(kitchen: Kitchen) -> int:
    return max(len(kitchen.cooks), 1)
