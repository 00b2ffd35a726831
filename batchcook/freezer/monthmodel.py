"""The month as a CP-SAT model: a method for each rule.

Containers of one dish and one size are eaten oldest first, so the model only counts them. That
loses nothing: their first evenings are the same and their dates come in the same order, so
whatever can be eaten in time can be eaten in time oldest first (an exchange of two containers
shows it), and counts up to each date say all there is to say.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from math import ceil

from ortools.sat.python.cp_model import CpModel, IntVar, LinearExpr

from batchcook.freezer.nights import Lot, Night
from batchcook.freezer.queues import Queue, Waiting, queues_of
from batchcook.freezer.servings import Serving, servings

__all__ = ["MonthModel"]


def _total(terms: Iterable[LinearExpr | int]) -> LinearExpr:
    return LinearExpr.sum(0, *terms)


class MonthModel:
    """Nights, queues of containers, and what has to hold between them.

    Attributes:
        model: The model.
        queues: The containers, oldest first, by dish and size.
        goals: What is to be small, each before all that follow it.
        may_pass: How many containers would pass their best-by date if none were eaten.
    """

    def __init__(
        self, nights: Sequence[Night], lots: Sequence[Lot], span: tuple[dt.date, dt.date]
    ) -> None:
        """Set up the variables and every rule."""
        self.model = CpModel()
        self.queues = queues_of(lots)
        self._nights = nights
        self._first, self._last = span
        self._eaten: dict[tuple[int, int], IntVar] = {}
        self._servings: dict[int, list[tuple[Serving, IntVar]]] = {}
        for night in self._open():
            self._add_variables(night)
        self._eaten_is_served()
        self._one_dish_a_night()
        self._within_dates()
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
        """For each night, queue number to how many containers."""
        return tuple(
            {
                queue: value(eaten)
                for (of, queue), eaten in self._eaten.items()
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
        for number, queue in enumerate(self.queues):
            if queue.from_day <= on <= queue.containers[-1].last_day:
                most = self._most(night, queue)
                self._eaten[night, number] = self.model.new_int_var(0, most, f"{night} {number}")
                of_dish = sizes.setdefault(queue.dish, {})
                of_dish[queue.portions] = of_dish.get(queue.portions, 0) + len(queue.containers)
        self._servings[night] = [
            (serving, self.model.new_bool_var(f"{night} {serving}"))
            for dish, there in sizes.items()
            for serving in servings(dish, there, people)
        ]

    def _most(self, night: int, queue: Queue) -> int:
        """The most containers of a queue that one night takes."""
        return min(len(queue.containers), ceil(self._nights[night].people / queue.portions))

    def _one_dish_a_night(self) -> None:
        """At most one dish, served in one way."""
        for of_night in self._servings.values():
            self.model.add_at_most_one(chosen for _, chosen in of_night)

    def _eaten_is_served(self) -> None:
        """Of each size as many containers leave their queues as the way of serving takes."""
        sizes: dict[tuple[int, str, int], list[IntVar]] = {}
        for (night, number), eaten in self._eaten.items():
            queue = self.queues[number]
            sizes.setdefault((night, queue.dish, queue.portions), []).append(eaten)
        for (night, dish, portions), eaten_of_size in sizes.items():
            served = _total(
                chosen * serving.count(portions)
                for serving, chosen in self._servings[night]
                if serving.dish == dish
            )
            self.model.add(_total(eaten_of_size) == served)

    def _within_dates(self) -> None:
        """From each night on, no more is eaten than keeps until then."""
        for number, queue in enumerate(self.queues):
            nights = sorted(night for night, of in self._eaten if of == number)
            before = -1
            for place, night in enumerate(nights):
                keeping = sum(each.last_day >= self._nights[night].on for each in queue.containers)
                if keeping == before:
                    continue
                before = keeping
                # Between two drops of that number the first night says it for the others.
                later = _total(self._eaten[each, number] for each in nights[place:])
                self.model.add(later <= keeping)

    def _no_main_ingredient_two_nights_running(self) -> None:
        """Nor the one of a dinner that is settled already."""
        mains = {queue.dish: queue.main or queue.dish for queue in self.queues}
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
        most_over = nights * max((queue.portions for queue in self.queues), default=0)
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
        unwanted = {queue.dish for queue in self.queues if queue.unwanted}
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
        passing = _total(())
        self.may_pass = 0
        for number, queue in enumerate(self.queues):
            days = [each.best_by for each in queue.containers if self._may_pass(each)]
            self.may_pass += len(days)
            saved = _total(())
            for day in sorted(set(days)):
                more = self.model.new_int_var(0, days.count(day), f"saved {number} {day}")
                saved = saved + more
                self.model.add(saved <= self._eaten_until(number, day))
            passing = passing + len(days) - saved
        return passing

    def _may_pass(self, each: Waiting) -> bool:
        """Whether its best-by date lies within the time looked at."""
        return self._first <= each.best_by <= self._last

    def _eaten_until(self, queue: int, day: dt.date) -> LinearExpr:
        return _total(
            eaten
            for (night, of), eaten in self._eaten.items()
            if of == queue and self._nights[night].on <= day
        )

    def _days_left(self) -> LinearExpr:
        """Days left, for each portion, to the containers that are eaten: those first in line."""
        total = _total(())
        for number, queue in enumerate(self.queues):
            nights = [night for night, of in self._eaten if of == number]
            if not nights:
                continue
            eaten = [self._eaten[night, number] for night in nights]
            most = sum(self._most(night, queue) for night in nights)
            most = min(len(queue.containers), most)
            first = [each.last_day for each in queue.containers[:most]]
            units = [self.model.new_bool_var(f"{number} unit {place}") for place in range(most)]
            self.model.add(_total(units) == _total(eaten))
            for before, after in pairwise(units):
                self.model.add_implication(after, before)
            for unit, day in zip(units, first, strict=True):
                left = max(0, (day - self._first).days)
                total = total + unit * (left * queue.portions)
        return total
