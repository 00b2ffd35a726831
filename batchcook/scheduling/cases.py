"""Lower bounds of the makespan by cases: which of two comes first, where they cannot overlap.

Once their order is settled, all that must be done before the later of the two has the rest of the
day behind it; that so much work does not fit before it shows by arithmetic, where a search over
the whole day does not see it. Cases in which no day is as short as the best are left behind, and
what the others have in common holds for every day that could be shorter. (Branching on disjunctive
arcs as Carlier and Pinson did for job shops, Management Science 35 (1989) 164-176, from memory;
here for whatever keeps a resource, over several tasks or one.)
"""

from __future__ import annotations

import time
from dataclasses import dataclass, field, replace

from ortools.sat.python import cp_model

from batchcook.scheduling.energy import shortest_day
from batchcook.scheduling.floors import raised_floor
from batchcook.scheduling.network import network
from batchcook.scheduling.orders import Order, open_pairs
from batchcook.scheduling.problem import Lag, Problem
from batchcook.scheduling.searching import Effort
from batchcook.scheduling.strengthen import strengthen
from batchcook.scheduling.variables import Variables

__all__ = ["Cases"]

_COMPARED = 5  # pairs, at most, of which arithmetic says which to split a case by
_MOST = 24  # open cases
_GAIN = 0.1  # of the gap to the best, by which a split that leaves no case behind raises the floor


@dataclass(frozen=True)
class _Case:
    """The days in which some orders are so.

    Attributes:
        orders: The lags that say so.
        floor: No such day is shorter.
        whole: Whether it is not split any more, as that did not help.
    """

    orders: tuple[Lag, ...] = ()
    floor: int = 0
    whole: bool = False


@dataclass
class Cases:
    """The cases that are open: every day as short as the best known is in one of them.

    Attributes:
        model: Every rule of the problem. What all open cases have in common is added to it.
        problem: The problem.
        variables: Its variables in the model.
        floor: A proved lower bound of the makespan.
    """

    model: cp_model.CpModel
    problem: Problem
    variables: Variables
    floor: int
    _open: list[_Case] = field(default_factory=list)
    _added: tuple[Lag, ...] = ()

    def __post_init__(self) -> None:
        """At first the whole is one case."""
        self._open = [_Case(floor=self.floor)]

    @property
    def likeliest(self) -> tuple[Lag, ...]:
        """The orders of the open case with the lowest floor; none where no case is split."""
        return min(self._open, key=_floor).orders if self._open else ()

    def raise_floor(self, length: int, one_try: float, effort: Effort) -> int:
        """Split the open case of the lowest floor, again and again.

        Args:
            length: The makespan of the best schedule known.
            one_try: Seconds, at most, to refute that a case has a shorter day, and again as many
                to raise its floor.
            effort: How long to go on.

        Returns:
            The floor of all that are open.
        """
        self._leave_behind(length)
        while effort.left > 0 and self.floor < length and len(self._open) < _MOST:
            case = min((each for each in self._open if not each.whole), key=_floor, default=None)
            if case is None or (parts := self._split(case, length, one_try, effort)) is None:
                break
            if not _is_worth_it(case, parts, length):
                parts = [replace(case, whole=True)]
            self._open = [*(each for each in self._open if each is not case), *parts]
            self._leave_behind(length)
        self._add_what_is_common()
        return self.floor

    def note(self, orders: tuple[Lag, ...], floor: int) -> int:
        """Note that a case has no day shorter than a floor; the floor of all that are open."""
        self._open = [
            replace(case, floor=max(case.floor, floor)) if case.orders == orders else case
            for case in self._open
        ]
        self.floor = max(self.floor, min(map(_floor, self._open), default=self.floor))
        return self.floor

    def within(self, orders: tuple[Lag, ...]) -> cp_model.CpModel:
        """The model of the days in which some orders are so, without objective."""
        model = self.model.clone()
        model.proto.clear_objective()
        if orders:
            self._state(model, orders)
        return model

    def _leave_behind(self, length: int) -> None:
        """Close the cases in which no day is as short as the best, and raise the floor."""
        self._open = [case for case in self._open if case.floor <= length]
        self.floor = max(self.floor, min(map(_floor, self._open), default=length))

    def _split(
        self, case: _Case, length: int, one_try: float, effort: Effort
    ) -> list[_Case] | None:
        """The two cases of one more order, or the case where it has none; None if time is up."""
        part = self._ordered(case.orders)
        pairs = sorted(open_pairs(part, network(part)), key=_paths)
        best = [case]
        for pair in reversed(pairs[-_COMPARED:]):
            parts = [self._by_arithmetic(case, order) for order in pair]
            if len(best) == 1 or _floors(parts) > _floors(best):
                best = parts
            if effort.left <= 0:
                return None
        return [self._by_refutation(part, length, one_try, effort) for part in best]

    def _by_arithmetic(self, case: _Case, order: Order) -> _Case:
        """A case with one more order, and the floor that arithmetic gives it."""
        orders = (*case.orders, *order.lags)
        part = self._ordered(orders)
        bounds = network(part)
        # Orders that contradict the lags are no day at all.
        day = shortest_day(part, bounds) if bounds.consistent else part.horizon + 1
        return _Case(orders, max(case.floor, day))

    def _by_refutation(self, case: _Case, length: int, one_try: float, effort: Effort) -> _Case:
        """A case with the floor that refutation gives it."""
        if case.floor > length:
            return case
        model = self.within(case.orders)
        makespan = self.variables.makespan

        def raised(floor: int, ceiling: int) -> int:
            ends = min(time.monotonic() + one_try, effort.ends)
            return raised_floor(model, makespan, floor, ceiling, replace(effort, ends=ends))

        # Most cases are far too long, which one try shows.
        if raised(length, length + 1) > length:
            return replace(case, floor=length + 1)
        return replace(case, floor=raised(case.floor, length))

    def _add_what_is_common(self) -> None:
        """Add to the model the orders that all open cases have in common."""
        if not self._open:
            return
        first, *others = self._open
        common = tuple(lag for lag in first.orders if all(lag in each.orders for each in others))
        if set(common) - set(self._added):
            self._added = common
            self._state(self.model, common)

    def _state(self, model: cp_model.CpModel, orders: tuple[Lag, ...]) -> None:
        """Add orders to a model, and what follows from them."""
        for lag in orders:
            before, after = self.variables.tasks[lag.before], self.variables.tasks[lag.after]
            model.add(after.start >= before.end + (lag.low or 0))
        strengthen(model, self._ordered(orders), self.variables)

    def _ordered(self, orders: tuple[Lag, ...]) -> Problem:
        return replace(self.problem, lags=(*self.problem.lags, *orders))


def _is_worth_it(case: _Case, parts: list[_Case], length: int) -> bool:
    """Whether a split leaves one case behind, or closes a good share of the gap in both."""
    floors = [part.floor for part in parts]
    gain = max(_GAIN * (length - case.floor), 1)
    return len(parts) > 1 and (max(floors) > length or min(floors) >= case.floor + gain)


def _floor(case: _Case) -> int:
    return case.floor


def _floors(cases: list[_Case]) -> tuple[int, int]:
    """By how much a split raises the floor, then by how much it raises both."""
    return min(map(_floor, cases)), sum(map(_floor, cases))


def _paths(pair: tuple[Order, Order]) -> tuple[int, int]:
    """The path through the order of the shorter day, then both."""
    return min(order.path for order in pair), sum(order.path for order in pair)
