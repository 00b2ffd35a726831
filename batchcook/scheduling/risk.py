"""How sure the finish is: many days over the network, each with other durations.

Monte Carlo rather than PERT's sum along one path: where paths run side by side the day is done
when the last of them is, and the mean of the longest is more than the longest of the means
(Fulkerson, Operations Research 10 (1962) 808-817; from memory). NumPy comes with OR-Tools.
"""

from __future__ import annotations

import math
import zlib
from collections.abc import Mapping
from dataclasses import dataclass
from statistics import NormalDist

import numpy as np

from batchcook.scheduling.flownetwork import FlowNetwork, Limit
from batchcook.scheduling.problem import Anchor, Budget
from batchcook.scheduling.retiming import Minutes, earliest, floats, retime

__all__ = ["AtRisk", "Lognormal", "Risk", "Spread", "Triangular", "begin_limited_times", "simulate"]

_NONE = 1e-6  # a float below this is none


@dataclass(frozen=True)
class Triangular:
    """A factor on a planned duration: at least, most often, at most."""

    low: float
    mode: float
    high: float

    def draw(self, rng: np.random.Generator, days: int) -> Minutes:
        """A factor for each day."""
        if self.low == self.high:
            return np.full(days, self.mode, dtype=np.float64)
        return rng.triangular(self.low, self.mode, self.high, days)

    def quantile(self, share: float) -> float:
        """The factor that is not exceeded on this share of days (0 to 1)."""
        width = self.high - self.low
        if width == 0:
            return self.mode
        if share <= (self.mode - self.low) / width:
            return self.low + math.sqrt(share * width * (self.mode - self.low))
        return self.high - math.sqrt((1 - share) * width * (self.high - self.mode))


@dataclass(frozen=True)
class Lognormal:
    """A factor whose logarithm is normal about that of the median, with deviation ``sigma``."""

    median: float
    sigma: float

    def draw(self, rng: np.random.Generator, days: int) -> Minutes:
        """A factor for each day."""
        return rng.lognormal(math.log(self.median), self.sigma, days)

    def quantile(self, share: float) -> float:
        """The factor that is not exceeded on this share of days (0 to 1, ends excluded)."""
        return self.median * math.exp(self.sigma * NormalDist().inv_cdf(share))


Spread = Triangular | Lognormal


@dataclass(frozen=True)
class AtRisk:
    """A limit or budget with the share of days on which it is broken."""

    limit: Limit | Budget
    share: float


@dataclass(frozen=True, eq=False)
class Risk:
    """What the simulated days show.

    Attributes:
        finishes: When each day was done, in minutes from the origin.
        criticality: For each step the share of days on which a delay of it delays the finish.
        at_risk: Limits and budgets that were ever broken, the most often broken first.
    """

    finishes: Minutes
    criticality: Mapping[str, float]
    at_risk: tuple[AtRisk, ...]

    def done_by(self, share: float) -> float:
        """The earliest minute by which the day is done on this share of days (0 to 1)."""
        return float(np.quantile(self.finishes, share, method="inverted_cdf"))

    def share_done_by(self, minute: float) -> float:
        """The share of days that are done by a minute."""
        return float(np.mean(self.finishes <= minute))


def simulate(
    network: FlowNetwork,
    spreads: Mapping[str, Spread],
    *,
    days: int = 10_000,
    seed: int = 1,
    fixed: Mapping[str, tuple[int, int | None]] | None = None,
    durations: Mapping[str, int] | None = None,
    now: int = 0,
) -> Risk:
    """Live through a day many times.

    The cooks start a step that begins a limited time not before its own minute, and everything
    else as soon as it can be. They do not foresee which later step will take long, so a limit
    may break here that :func:`batchcook.scheduling.retiming.retime` would still keep. Durations
    vary independently of each other; a day on which all goes slowly is rarer here than in life.

    Args:
        network: The network.
        spreads: How the duration of a step varies about what is planned; the others do not.
        days: How many days to draw.
        seed: The same seed gives the same days. A step keeps its draws when others come or go.
        fixed: Steps begun, as for ``retime``; what still runs ends now at the earliest.
        durations: Minutes, before they vary, of steps that last longer or shorter than scheduled.
        now: Nothing else starts earlier.
    """
    lasting = dict(durations or {})
    lengths = {
        name: lasting.get(name, step.minutes) * _factor(spreads.get(name), name, days, seed)
        for name, step in network.steps.items()
    }
    floors = _floors(network, lasting, fixed, now)
    begun = {
        name: _begun(start, end, lengths[name], now) for name, (start, end) in (fixed or {}).items()
    }
    times = earliest(network, lengths, floors, begun)
    finishes = np.maximum.reduce([end for _, end in times.values()])
    slack = floats(network, lengths, floors, begun)
    return Risk(
        finishes,
        {name: float(np.mean(slack[name] < _NONE)) for name in network.steps if name not in begun},
        _at_risk(network, times),
    )


def _factor(spread: Spread | None, name: str, days: int, seed: int) -> Minutes:
    if spread is None:
        return np.ones(days)
    return spread.draw(np.random.default_rng([seed, zlib.crc32(name.encode())]), days)


def _begun(start: int, end: int | None, length: Minutes, now: int) -> tuple[Minutes, Minutes]:
    starts = np.full_like(length, start)
    return starts, np.maximum(starts + length, now) if end is None else np.full_like(length, end)


def begin_limited_times(network: FlowNetwork) -> set[str]:
    """The steps that begin a limited time: nobody starts them sooner than they have to."""
    beginning = {limit.before for limit in network.limits if limit.told and limit.before}
    return beginning | {span.before for budget in network.budgets for span in budget.spans}


def _floors(
    network: FlowNetwork,
    durations: Mapping[str, int],
    fixed: Mapping[str, tuple[int, int | None]] | None,
    now: int,
) -> dict[str, float]:
    """The earliest start of each step: its own minute where it begins a limited time."""
    due = retime(network, durations, fixed=fixed, now=now)
    beginning = begin_limited_times(network)
    return {
        name: max(step.floor, now, due[name][0] if name in beginning else 0)
        for name, step in network.steps.items()
    }


_DayTimes = Mapping[str, tuple[Minutes, Minutes]]


def _at_risk(network: FlowNetwork, times: _DayTimes) -> tuple[AtRisk, ...]:
    found = [
        AtRisk(limit, _share_over(_gap(limit, times), limit.most))
        for limit in network.limits
        if limit.told
    ]
    for budget in network.budgets:
        gaps = [
            _at(times, span.after, span.to) - _at(times, span.before, span.origin)
            for span in budget.spans
            if span.before in times and span.after in times
        ]
        if gaps:
            found.append(AtRisk(budget, _share_over(np.sum(gaps, axis=0), budget.limit)))
    return tuple(sorted((each for each in found if each.share > 0), key=lambda each: -each.share))


def _gap(limit: Limit, times: _DayTimes) -> Minutes:
    reached = _at(times, limit.after, limit.to)
    return reached if limit.before is None else reached - _at(times, limit.before, limit.origin)


def _at(times: _DayTimes, step: str, anchor: Anchor) -> Minutes:
    return times[step][anchor == "end"]


def _share_over(gap: Minutes, most: int) -> float:
    return float(np.mean(gap > most + _NONE))
