"""From the nights ahead to the prep day that covers them, readable from top to bottom."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from batchcook.complaints import InputFault
from batchcook.cookbook import Cookbook
from batchcook.day.formulation import Formulation, formulate
from batchcook.day.freezerplan import check_cold_space
from batchcook.day.prepday import PrepDay
from batchcook.day.solving import Effort, NoAnswer, NoPlan, checked, solved
from batchcook.day.workday import day_work, ordered_dishes
from batchcook.freezer.store import Journal
from batchcook.scheduling.energy import shortest_day
from batchcook.scheduling.listing import list_schedule, makespan
from batchcook.scheduling.network import network
from batchcook.suggesting.candidates import Candidate, Scheduled
from batchcook.suggesting.fromstock import Ahead, NightAhead, ahead
from batchcook.suggesting.growing import Growth, Refusal, grown
from batchcook.suggesting.model import SuggestModel
from batchcook.suggesting.offers import LeftOut, Offer, offers
from batchcook.suggesting.request import SuggestRequest

__all__ = ["Suggestion", "suggest_day"]

_SHORTLIST = 4
"""Candidates that pass the bound before any is scheduled."""

_FINALISTS = 3
"""Candidates that are scheduled and fit, of which the best is kept."""

_SHARE = 0.5
"""Of the time, at most, for the shortlist."""

_TO_SCHEDULE = 2.5
"""Seconds to schedule one candidate."""

_LISTS = 6
"""Lists tried where the solver finds nothing in that time, and first where nights are filled."""

_UNKNOWN = 1.2
"""A day without a schedule is taken for so much longer than allowed."""

_MARGIN = 0.95
"""How much less work is asked for than the last day that was too long suggests, each time more."""

Told = Callable[[str], None]


@dataclass(frozen=True)
class Suggestion:
    """The outcome.

    Attributes:
        request: What was asked.
        ahead: The nights with what the stock covers, and the stock.
        chosen: The best day that fits, or None where nothing is to be cooked or nothing fits.
        others: Further days that fit, best first.
        too_long: Days that were scheduled and took longer than allowed, best first.
        offers: The recipes that were weighed.
        left_out: Those that could not be made, and why.
        screened: How many candidates were put aside without scheduling: too long by their bound,
            or too much for the freezer or the refrigerator.
        growth: What was tried to fill the nights that the chosen day leaves open.
    """

    request: SuggestRequest
    ahead: Ahead
    chosen: Scheduled | None
    others: tuple[Scheduled, ...]
    too_long: tuple[Scheduled, ...]
    offers: Mapping[str, Offer]
    left_out: tuple[LeftOut, ...]
    screened: int
    growth: Growth | None = None

    @property
    def uncovered(self) -> tuple[NightAhead, ...]:
        """The nights that stay without a dinner."""
        fed = self.chosen.candidate.dinners if self.chosen else {}
        return tuple(
            night
            for number, night in enumerate(self.ahead.nights)
            if night.open and number not in fed
        )


def suggest_day(
    request: SuggestRequest, cookbook: Cookbook, journal: Journal, told: Told
) -> Suggestion:
    """Choose recipes and batches for a prep day so that every freezer night is covered.

    Args:
        request: What is asked.
        cookbook: The recipes at hand.
        journal: The freezer's journal.
        told: Told how it goes, in a few words.

    Raises:
        InputFault: There are fewer evenings than nights.
    """
    ends = time.monotonic() + request.seconds
    told("looking at what the freezer covers")
    nights = ahead(request, journal)
    if not any(night.open for night in nights.nights):
        return Suggestion(request, nights, None, (), (), {}, (), 0)
    made, left = offers(request, cookbook, nights, told)
    search = _Search(request, cookbook, nights, made, told, ends)
    fitting, too_long = search.finalists()
    growth = search.filled(fitting)
    if growth is not None:
        fitting = [growth.day, *(day for day in fitting[1:] if day != growth.day)]
    return Suggestion(
        request=request,
        ahead=nights,
        chosen=fitting[0] if fitting else None,
        others=tuple(fitting[1:]),
        too_long=tuple(too_long),
        offers={offer.id: offer for offer in made},
        left_out=left,
        screened=search.screened,
        growth=growth,
    )


@dataclass(frozen=True)
class _Promising:
    """A candidate whose day may fit: the problem, and the minutes under which it cannot be."""

    candidate: Candidate
    formulation: Formulation
    bound: int


class _Search:
    """Candidates one after another: screened by bound, shortlisted, scheduled."""

    def __init__(
        self,
        request: SuggestRequest,
        cookbook: Cookbook,
        nights: Ahead,
        made: tuple[Offer, ...],
        told: Told,
        ends: float,
    ) -> None:
        """Set up the model of the choice."""
        self._request, self._cookbook, self._told, self._ends = request, cookbook, told, ends
        self._nights, self._made = nights.nights, made
        self._model = SuggestModel(nights.nights, made, request)
        self._most_work: int | None = None
        self._tightened = 0
        self.screened = 0

    def finalists(self) -> tuple[list[Scheduled], list[Scheduled]]:
        """The days that fit and those that turned out too long, each best first."""
        fitting: list[Scheduled] = []
        too_long: list[Scheduled] = []
        shortlist = list(self._shortlist(_SHARE))
        while shortlist:
            for promising in shortlist:
                if len(fitting) == _FINALISTS or (fitting and self._late()):
                    break
                done = self._scheduled(promising)
                if done is not None and done.minutes <= self._request.longest:
                    fitting.append(done)
                elif done is not None:
                    too_long.append(done)
            # While nothing fits it is worth as much time again: no answer helps nobody.
            enough = bool(fitting) or time.monotonic() > self._ends + self._request.seconds
            shortlist = [] if enough else list(self._shortlist(_SHARE))
        return sorted(fitting, key=_by_worth), sorted(too_long, key=_by_worth)

    def filled(self, fitting: Sequence[Scheduled]) -> Growth | None:
        """The best of the days that fit, with the batches more that fill its open nights.

        The search leaves out whole orders and asks for less each time; what of them would still
        have fitted is found here. While nights are open it is worth as much time again.
        """
        if not fitting:
            return None
        until = self._ends + self._request.seconds
        model = SuggestModel(self._nights, self._made, self._request)
        return grown(fitting[0], model, self._with_more, lambda: time.monotonic() > until)

    def _with_more(self, candidate: Candidate, dish: str) -> Scheduled | Refusal:
        """The day of an order, or how it does not fit; quick lists first, then the solver."""
        longest = self._request.longest
        self._told(f"filling {len(candidate.uncovered)} more nights")
        formulation = self._formulated(candidate)
        if formulation is None:
            return Refusal(dish)
        bound = shortest_day(formulation.problem, network(formulation.problem))
        if bound > longest:
            return Refusal(dish, None, bound)
        promising = _Promising(candidate, formulation, bound)
        done = _listed(promising)
        if done is None or done.minutes > longest:
            done = _scheduled(promising)
        if done is None:
            return Refusal(dish, None, bound)
        return done if done.minutes <= longest else Refusal(dish, done.minutes, done.bound)

    def _late(self) -> bool:
        return time.monotonic() + _TO_SCHEDULE > self._ends

    def _shortlist(self, share: float) -> Iterator[_Promising]:
        """Candidates that may fit the day, the best first; takes a share of the time left."""
        until = time.monotonic() + share * (self._ends - time.monotonic())
        found = 0
        while found < _SHORTLIST:
            candidate = self._model.best(self._most_work)
            if candidate is None or not candidate.orders:
                return
            self._told(f"candidates so far: {found}, screened out: {self.screened}")
            promising = self._screened(candidate)
            self._model.without(candidate.orders)
            if promising is None:
                self.screened += 1
            else:
                found += 1
                yield promising
            late = time.monotonic() > self._ends + self._request.seconds
            if late or (found and time.monotonic() > until):
                return

    def _screened(self, candidate: Candidate) -> _Promising | None:
        """The candidate's day as a problem, or None if it cannot fit."""
        formulation = self._formulated(candidate)
        if formulation is None:
            return None
        bound = shortest_day(formulation.problem, network(formulation.problem))
        if bound <= self._request.longest:
            return _Promising(candidate, formulation, bound)
        self._less_work(candidate, bound)
        return None

    def _formulated(self, candidate: Candidate) -> Formulation | None:
        """The candidate's day as a problem; None where it is too much for the cold."""
        request = self._request
        day = PrepDay(request.date, request.start, candidate.orders, request.kitchen)
        try:
            dishes = ordered_dishes(day, self._cookbook)
            check_cold_space(dishes, request.kitchen, request.date)
            return formulate(day_work(dishes, day), day)
        except InputFault:
            return None

    def _scheduled(self, promising: _Promising) -> Scheduled | None:
        """The candidate with the length of its day; None if no schedule was found."""
        candidate = promising.candidate
        if self._most_work is not None and candidate.work > self._most_work:
            return None
        dishes = ", ".join(self._cookbook[name].title for name in candidate.orders)
        self._told(f"scheduling {dishes}")
        done = _scheduled(promising)
        if done is None:
            self._less_work(candidate, round(self._request.longest * _UNKNOWN))
        elif done.minutes > self._request.longest:
            self._less_work(candidate, done.minutes)
        return done

    def _less_work(self, candidate: Candidate, minutes: int) -> None:
        """Ask for less from now on, by as much as a candidate's day was too long.

        Where not all nights can be covered in the time, leaving out one order after another
        would never come to an end.
        """
        self._tightened += 1
        share = self._request.longest / minutes * _MARGIN**self._tightened
        most = int(candidate.work * share)
        self._most_work = most if self._most_work is None else min(most, self._most_work)


def _scheduled(promising: _Promising) -> Scheduled | None:
    """The best schedule that the time allows, or else the first that a list gives."""
    formulation = promising.formulation
    try:
        outcome = solved(formulation, Effort(_TO_SCHEDULE), depth=1)
    except NoPlan:
        return None
    except NoAnswer:
        return _listed(promising)
    checked(formulation, outcome)
    level = outcome.levels[0]
    return Scheduled(promising.candidate, level.value, max(level.bound, promising.bound))


def _listed(promising: _Promising) -> Scheduled | None:
    """The shortest day that a few lists give."""
    problem = promising.formulation.problem
    found = list_schedule(problem, samples=_LISTS, by_group=True)
    if found is None:
        return None
    return Scheduled(promising.candidate, makespan(problem, found), promising.bound)


def _by_worth(each: Scheduled) -> tuple[int, int, tuple[str, ...]]:
    return len(each.candidate.uncovered), each.worth, tuple(each.candidate.orders)
