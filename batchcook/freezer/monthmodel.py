"""The month as a CP-SAT model: a method for each rule."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from math import ceil
from typing import Final

from ortools.sat.python.cp_model import CpModel, IntVar, LinearExpr

from batchcook.freezer.nights import Lot, Night
from batchcook.freezer.servings import Serving, servings

__all__ = ["MonthModel"]


_AGAIN: Final = {2: 2, 3: 1}
"""A main ingredient again after so many nights, and how much it counts: the next is forbidden."""


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
        self,
        nights: Sequence[Night],
        lots: Sequence[Lot],
        span: tuple[dt.date, dt.date],
        looked_to: dt.date | None,
    ) -> None:
        """Set up the variables and every rule."""
        self.model = CpModel()
        self._lots = lots
        self._mains = {lot.dish: lot.main or lot.dish for lot in lots}
        self.may_pass = sum(lot.count for lot in lots if span[0] <= lot.best_by <= span[1])
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
        first, last = span
        goals = [self._passing(first, last), self._hunger()]
        if looked_to is not None:
            goals.append(self._passing(last + dt.timedelta(days=1), looked_to))
        goals += [self._over(), self._days_left(), self._rhythm()]
        self.goals: tuple[LinearExpr, ...] = tuple(goals)
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
        mains = self._mains
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

    def _planned(self) -> Iterator[tuple[int, list[tuple[Serving, IntVar]]]]:
        """The nights to be chosen, less those that are only looked at, with their servings."""
        return (
            (night, of_night)
            for night, of_night in self._servings.items()
            if not self._ahead(night)
        )

    def _ahead(self, night: int) -> bool:
        """Whether a night is after the time that is planned and only looked at."""
        return self._nights[night].on > self._span[1] and night in self._servings

    def _hunger(self) -> LinearExpr:
        """People not fed, then nights with any, then unwanted dishes.

        Each weighs more than all that follow it can come to.
        """
        nights = len(self._servings)
        unwanted = 1
        hungry = unwanted * (nights + 1)
        unfed = hungry * (nights + 1)
        return (
            self._unfed() * unfed
            + self._hungry_nights() * hungry
            + self._unwanted_nights() * unwanted
        )

    def _unfed(self) -> LinearExpr:
        """People at the table who get nothing, over all nights."""
        return _total(
            self._nights[night].people
            - _total(
                chosen * min(serving.portions, self._nights[night].people)
                for serving, chosen in of_night
            )
            for night, of_night in self._planned()
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
            for night, of_night in self._planned()
        )

    def _unwanted_nights(self) -> LinearExpr:
        """Nights with a dish that the household wants no more of."""
        unwanted = {lot.dish for lot in self._lots if lot.unwanted}
        return _total(
            chosen
            for _, of_night in self._planned()
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

    def _passing(self, first: dt.date, last: dt.date) -> LinearExpr:
        """Containers whose best-by comes between two days and that are not eaten by it."""
        counted = {
            number: lot for number, lot in enumerate(self._lots) if first <= lot.best_by <= last
        }
        in_time = _total(
            eaten
            for (night, number), eaten in self._eaten.items()
            if number in counted and self._nights[night].on <= counted[number].best_by
        )
        return sum(lot.count for lot in counted.values()) - in_time

    def _days_left(self) -> LinearExpr:
        """Days left, for each portion, to the containers that are eaten."""
        return _total(
            eaten
            * self._lots[number].portions
            * max(0, (self._lots[number].last_day - self._span[0]).days)
            for (night, number), eaten in self._eaten.items()
            if not self._ahead(night)
        )

    def _rhythm(self) -> LinearExpr:
        """Empty nights before full ones, then a main ingredient again after few nights.

        What is made next fills the later nights.
        """
        places = [place for place in range(len(self._nights)) if not self._ahead(place)]
        again: list[LinearExpr] = []
        for apart, weight in _AGAIN.items():
            for one, other in zip(places, places[apart:], strict=False):
                again += [both * weight for both in self._same_main(one, other)]
        most = 1 + len(places) * sum(_AGAIN.values())
        empty = [
            (len(places) - number) * (1 - _total(chosen for _, chosen in self._servings[night]))
            for number, night in enumerate(places)
            if night in self._servings
        ]
        return _total(empty) * most + _total(again)

    def _same_main(self, one: int, other: int) -> Iterator[IntVar]:
        """For each main ingredient, whether both nights have it; none where both are settled."""
        if one not in self._servings and other not in self._servings:
            return
        first, second = self._with_main(one), self._with_main(other)
        for main in sorted(first.keys() & second.keys()):
            both = self.model.new_bool_var(f"{one} {other} {main}")
            self.model.add(both >= first[main] + second[main] - 1)
            yield both

    def _with_main(self, night: int) -> dict[str, LinearExpr | int]:
        """Whether a night has a main ingredient, for each that it may have."""
        found: dict[str, LinearExpr | int] = dict.fromkeys(self._nights[night].settled or (), 1)
        for serving, chosen in self._servings.get(night, ()):
            main = self._mains[serving.dish]
            found[main] = found.get(main, 0) + chosen
        return found
