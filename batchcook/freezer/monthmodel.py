"""The month as a CP-SAT model: a method for each rule."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from math import ceil

from ortools.sat.python.cp_model import CpModel, IntVar, LinearExpr

from batchcook.freezer.nights import Lot, Night
from batchcook.freezer.servings import Serving, servings

__all__ = ["MonthModel"]


def _total(terms: Iterable[LinearExpr | int]) -> LinearExpr:
    return LinearExpr.sum(0, *terms)


class MonthModel:
    """Nights, lots of containers, and what has to hold between them.

    Attributes:
        model: The model.
        goals: What is to be small, each before all that follow it.
        may_pass: How many containers would pass their best-by date if none were eaten.
    """

    def __init__(
        self, nights: Sequence[Night], lots: Sequence[Lot], span: tuple[dt.date, dt.date]
    ) -> None:
        """Set up the variables and every rule."""
        self.model = CpModel()
        self._lots = lots
        self._nights = nights
        self._span = span
        self._eaten: dict[tuple[int, int], IntVar] = {}
        self._servings: dict[int, list[tuple[Serving, IntVar]]] = {}
        for night in self._open():
            self._add_variables(night)
        self._eaten_is_served()
        self._one_dish_a_night()
        self._no_more_than_there_is()
        self._no_main_ingredient_two_nights_running()
        self.goals: tuple[LinearExpr, ...] = (
            self._passing(),
            self._discomfort(),
            self._days_left(),
        )
        for goal in self.goals:
            # Said outright, it gives the search its bound at once.
            self.model.add(goal >= 0)

    def dinners(self, value: Callable[[IntVar], int]) -> tuple[Mapping[int, int], ...]:
        """For each night, lot number to how many containers."""
        return tuple(
            {
                lot: value(eaten)
                for (of, lot), eaten in self._eaten.items()
                if of == night and value(eaten)
            }
            for night in range(len(self._nights))
        )

    def keep(self, goal: LinearExpr, reached: int, value: Callable[[IntVar], int]) -> None:
        """Let a goal stay as it was reached, and begin the next search from there."""
        self.model.add(goal <= reached)
        self.model.proto.clear_solution_hint()
        for index in range(len(self.model.proto.variables)):
            variable = self.model.get_int_var_from_proto_index(index)
            self.model.add_hint(variable, value(variable))

    def _open(self) -> Iterator[int]:
        """The nights to be chosen."""
        return (place for place, night in enumerate(self._nights) if night.settled is None)

    def _add_variables(self, night: int) -> None:
        on, people = self._nights[night].on, self._nights[night].people
        sizes: dict[str, dict[int, int]] = {}
        for number, lot in enumerate(self._lots):
            if lot.from_day <= on <= lot.last_day:
                most = self._most(night, lot)
                self._eaten[night, number] = self.model.new_int_var(0, most, f"{night} {number}")
                of_dish = sizes.setdefault(lot.dish, {})
                of_dish[lot.portions] = of_dish.get(lot.portions, 0) + lot.count
        self._servings[night] = [
            (serving, self.model.new_bool_var(f"{night} {serving}"))
            for dish, there in sizes.items()
            for serving in servings(dish, there, people)
        ]

    def _most(self, night: int, lot: Lot) -> int:
        """The most containers of a lot that one night takes."""
        return min(lot.count, ceil(self._nights[night].people / lot.portions))

    def _one_dish_a_night(self) -> None:
        """At most one dish, served in one way."""
        for of_night in self._servings.values():
            self.model.add_at_most_one(chosen for _, chosen in of_night)

    def _eaten_is_served(self) -> None:
        """Of each size as many containers leave their lots as the way of serving takes."""
        sizes: dict[tuple[int, str, int], list[IntVar]] = {}
        for (night, number), eaten in self._eaten.items():
            lot = self._lots[number]
            sizes.setdefault((night, lot.dish, lot.portions), []).append(eaten)
        for (night, dish, portions), eaten_of_size in sizes.items():
            served = _total(
                chosen * serving.count(portions)
                for serving, chosen in self._servings[night]
                if serving.dish == dish
            )
            self.model.add(_total(eaten_of_size) == served)

    def _no_more_than_there_is(self) -> None:
        """Of each lot, over all nights."""
        for number, lot in enumerate(self._lots):
            eaten = [var for (_, of), var in self._eaten.items() if of == number]
            self.model.add(_total(eaten) <= lot.count)

    def _no_main_ingredient_two_nights_running(self) -> None:
        """Nor the one of a dinner that is settled already."""
        mains = {lot.dish: lot.main or lot.dish for lot in self._lots}
        for (before, first), (after, second) in pairwise(enumerate(self._nights)):
            if first.settled is not None and second.settled is not None:
                continue
            settled = (first.settled or frozenset()) | (second.settled or frozenset())
            both = [
                (mains[serving.dish], chosen)
                for night in (before, after)
                for serving, chosen in self._servings.get(night, ())
            ]
            for main in sorted(set(mains.values())):
                alike = [chosen for of, chosen in both if of == main]
                self.model.add(_total(alike) <= (0 if main in settled else 1))

    def _discomfort(self) -> LinearExpr:
        """People not fed, then nights with any, then unwanted dishes, then portions left over.

        Each weighs more than all that follow it can come to.
        """
        nights = len(self._servings)
        most_over = nights * max((lot.portions for lot in self._lots), default=0)
        over = 1
        unwanted = most_over + 1
        hungry = unwanted * (nights + 1)
        unfed = hungry * (nights + 1)
        return (
            self._unfed() * unfed
            + self._hungry_nights() * hungry
            + self._unwanted_nights() * unwanted
            + self._over() * over
        )

    def _unfed(self) -> LinearExpr:
        """People at the table who get nothing, over all nights."""
        return _total(
            self._nights[night].people
            - _total(
                chosen * min(serving.portions, self._nights[night].people)
                for serving, chosen in of_night
            )
            for night, of_night in self._servings.items()
        )

    def _hungry_nights(self) -> LinearExpr:
        """Nights on which anybody gets nothing."""
        return _total(
            1
            - _total(
                chosen
                for serving, chosen in of_night
                if serving.portions >= self._nights[night].people
            )
            for night, of_night in self._servings.items()
        )

    def _unwanted_nights(self) -> LinearExpr:
        """Nights with a dish that the household wants no more of."""
        unwanted = {lot.dish for lot in self._lots if lot.unwanted}
        return _total(
            chosen
            for of_night in self._servings.values()
            for serving, chosen in of_night
            if serving.dish in unwanted
        )

    def _over(self) -> LinearExpr:
        """Portions left over."""
        return _total(
            chosen * max(0, serving.portions - self._nights[night].people)
            for night, of_night in self._servings.items()
            for serving, chosen in of_night
        )

    def _passing(self) -> LinearExpr:
        """Containers whose best-by comes within the time looked at and that are not eaten by it."""
        first, last = self._span
        counted = {
            number: lot for number, lot in enumerate(self._lots) if first <= lot.best_by <= last
        }
        self.may_pass = sum(lot.count for lot in counted.values())
        in_time = _total(
            eaten
            for (night, number), eaten in self._eaten.items()
            if number in counted and self._nights[night].on <= counted[number].best_by
        )
        return self.may_pass - in_time

    def _days_left(self) -> LinearExpr:
        """Days left, for each portion, to the containers that are eaten."""
        return _total(
            eaten
            * self._lots[number].portions
            * max(0, (self._lots[number].last_day - self._span[0]).days)
            for (_, number), eaten in self._eaten.items()
        )
