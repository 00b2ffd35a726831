"""What no order of work can promise, watched: maximal lags, budgets and times away."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from batchcook.scheduling.flownetwork import Away, FlowNetwork, Hold, Limit
from batchcook.scheduling.problem import Anchor, Budget
from batchcook.scheduling.retiming import Times

__all__ = ["Alarm", "watch"]


@dataclass(frozen=True)
class Alarm:
    """A limit that is broken, or will be if the day goes on as it is timed.

    Attributes:
        kind: A maximal lag, a latest end, a budget, or a time away.
        ids: The steps concerned; of a lag, the one that starts it and the one that ends it.
        at: The minute at which the limit runs out. It is broken already where that is past.
        over: By how many minutes it is overrun.
        reason: Why the limit holds; of a time away, the resource.
        budget: Id of the budget, where it is one.
    """

    kind: Literal["lag", "latest", "budget", "away"]
    ids: tuple[str, ...]
    at: int
    over: int
    reason: str
    budget: str = ""


def watch(network: FlowNetwork, times: Times) -> list[Alarm]:
    """All limits that these times break, first what runs out first.

    Args:
        network: The network.
        times: Start and end of every step, from :func:`batchcook.scheduling.retiming.retime`.
    """
    found = [
        *_lags(network, times),
        *(alarm for each in network.budgets for alarm in _budget(each, times)),
        *(alarm for each in network.away for alarm in _away(network, each, times)),
    ]
    return sorted(found, key=lambda alarm: (alarm.at, alarm.kind, alarm.ids))


def _at(times: Times, step: str, anchor: Anchor) -> int:
    return times[step][0 if anchor == "start" else 1]


def _lags(network: FlowNetwork, times: Times) -> Iterator[Alarm]:
    for limit in network.limits:
        runs_out = _runs_out(limit, times)
        over = _at(times, limit.after, limit.to) - runs_out
        if not limit.told or over <= 0:
            continue
        if limit.before is None:
            yield Alarm("latest", (limit.after,), runs_out, over, limit.reason)
        else:
            yield Alarm("lag", (limit.before, limit.after), runs_out, over, limit.reason)


def _runs_out(limit: Limit, times: Times) -> int:
    origin = 0 if limit.before is None else _at(times, limit.before, limit.origin)
    return origin + limit.most


def _budget(budget: Budget, times: Times) -> Iterator[Alarm]:
    present = [span for span in budget.spans if span.before in times and span.after in times]
    spans = [
        (_at(times, span.before, span.origin), _at(times, span.after, span.to)) for span in present
    ]
    over = sum(end - start for start, end in spans) - budget.limit
    if over > 0:
        ids = dict.fromkeys(name for span in present for name in (span.before, span.after))
        reason = budget.reason or budget.id
        yield Alarm("budget", tuple(ids), _exhausted(spans, budget.limit), over, reason, budget.id)


def _exhausted(spans: list[tuple[int, int]], limit: int) -> int:
    """The first minute by which the spans, counted side by side, have taken up the limit."""
    forward = [(start, end) for start, end in spans if end > start]
    left = limit - sum(end - start for start, end in spans if end < start)
    marks = sorted({minute for span in forward for minute in span})
    for minute, later in pairwise(marks):
        running = sum(start <= minute < end for start, end in forward)
        if running * (later - minute) >= left:
            return minute + (-(-left // running) if running else 0)
        left -= running * (later - minute)
    return marks[-1]


def _away(network: FlowNetwork, away: Away, times: Times) -> Iterator[Alarm]:
    """More is held than there is at some minute of a time away."""
    held = [
        (start, end, hold)
        for hold in network.holds
        if hold.resource == away.resource
        for start, end in [_held(hold, times)]
        if start < min(end, away.end) and end > away.start
    ]
    marks = sorted({max(start, away.start) for start, _, _ in held})
    for minute in marks:
        using = [each for each in held if each[0] <= minute < each[1]]
        missing = sum(
            each.amount
            for each in network.away
            if each.resource == away.resource and each.start <= minute < each.end
        )
        used = sum(hold.amount for _, _, hold in using)
        if used > max(network.capacities[away.resource] - missing, 0):
            over = max(min(end, away.end) - minute for _, end, _ in using)
            ids = dict.fromkeys(hold.closer for _, _, hold in using)
            yield Alarm("away", tuple(ids), minute, over, away.resource)
            return


def _held(hold: Hold, times: Times) -> tuple[int, int]:
    return min(times[name][0] for name in hold.openers), times[hold.closer][1]
