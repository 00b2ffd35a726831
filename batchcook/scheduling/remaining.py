"""What is left of a problem once part of it has been done: a smaller problem that starts now.

What is over becomes constants in lags and budgets; what runs keeps running to its expected end;
whatever was occupied stays occupied. Minutes before now serve only to hold the set-ups and
warm-ups of what is under way.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from batchcook.scheduling.begun import Begun
from batchcook.scheduling.heatleft import from_now, hot_tasks, unheated
from batchcook.scheduling.problem import (
    Anchor,
    Budget,
    Choice,
    Condition,
    Lag,
    Mode,
    Occupancy,
    Problem,
    Span,
    Task,
)

__all__ = ["NOW", "margin", "remaining"]

NOW = "now"
"""A task without length or demands at the minute from which on things can be decided."""


def margin(problem: Problem) -> int:
    """Minutes that must lie between the origin and now: the longest set-up, or heat of an oven."""
    warm_ups = [(each.warm_up or 0) + each.keeps for each in problem.resources.values()]
    set_ups = [each.set_up for each in problem.families.values()]
    return max([0, *warm_ups, *set_ups]) + 1


def remaining(
    problem: Problem,
    begun: Mapping[str, Begun],
    choices: Mapping[str, str],
    now: int,
    *,
    warming: Mapping[str, int] | None = None,
) -> Problem:
    """The problem of what is left to do.

    Args:
        problem: The whole, its origin at least :func:`margin` minutes before now.
        begun: The tasks that are over or under way.
        choices: The options that the schedule so far took; those that matter to what has begun
            stay taken.
        now: The first minute that can still be decided on.
        warming: Resources that are being brought to a setting, with the minutes that takes yet.
    """
    taken = _taken(problem, begun, choices)
    kept = replace(
        problem,
        choices={
            name: Choice(name, (taken[name],)) if name in taken else choice
            for name, choice in problem.choices.items()
        },
        resources={
            resource.id: from_now(
                resource, now, unheated(problem, begun, resource, warming or {}, now)
            )
            for resource in problem.resources.values()
        },
        free_origin=False,
    )
    anchors = _Anchors(begun, now)
    tasks = dict(_tasks(kept, begun, taken, now)) | dict(
        hot_tasks(problem, begun, warming or {}, now)
    )
    cleaning = {
        name: problem.families[task.family].clean_down
        for name, task in tasks.items()
        if task.family is not None and name in begun and begun[name].over
    }
    return replace(
        kept,
        tasks=tasks,
        lags=tuple(_lags(kept.lags, anchors, tasks, cleaning, taken)),
        budgets=tuple(_budgets(kept.budgets, anchors, tasks)),
        occupancies=tuple(_occupancies(kept.occupancies, begun, tasks, taken)),
    )


# ---- choices -----------------------------------------------------------------------------------


def _taken(
    problem: Problem, begun: Mapping[str, Begun], choices: Mapping[str, str]
) -> dict[str, str]:
    """The choices that what has begun depends on."""
    touched = {
        condition.choice
        for name in begun
        if name in problem.tasks
        for condition in problem.tasks[name].when
    }
    touched |= {
        condition.choice
        for occupancy in problem.occupancies
        if any(name in begun for name in occupancy.fillers)
        for condition in occupancy.when
    }
    return {name: choices[name] for name in touched if name in choices}


def _shut(conditions: Iterable[Condition], taken: Mapping[str, str]) -> bool:
    """Whether the choices taken rule the conditions out."""
    return any(
        each.choice in taken and taken[each.choice] not in each.options for each in conditions
    )


# ---- tasks -------------------------------------------------------------------------------------


def _tasks(
    problem: Problem, begun: Mapping[str, Begun], taken: Mapping[str, str], now: int
) -> Iterator[tuple[str, Task]]:
    yield NOW, Task(NOW, (Mode(NOW, 0),), earliest=now, latest=now)
    for task in problem.tasks.values():
        state = begun.get(task.id)
        if state is None:
            if not _shut(task.when, taken):
                yield task.id, replace(task, earliest=max(task.earliest or 0, now))
        elif not state.over:
            yield task.id, _running(problem, task, state, now)
        elif state.cleaned_by is not None:
            yield task.id, _cleaning(task, state, now)
        elif task.family is not None and not state.clean:
            yield task.id, _to_clean(problem, task, state, now)


def _running(problem: Problem, task: Task, state: Begun, now: int) -> Task:
    """A task under way: what is left of it, from now on; a set-up it had lies in the past."""
    left = max(state.end - now, 0)
    family = None if task.family is None or state.clean else problem.families[task.family]
    return replace(
        task,
        modes=_modes(task, state, max(left, 1) if family else left),
        when=(),
        family=family.id if family else None,
        settings=(state.setting,) if state.setting is not None else task.settings,
        earliest=now - (family.set_up if family else 0),
        latest=None if state.waits else now + (max(left, 1) if family else left),
        reason="",
    )


def _cleaning(task: Task, state: Begun, now: int) -> Task:
    """The clean-down under way after a part that is over."""
    left = max((state.cleaned_by or now) - now, 0)
    return replace(
        task,
        modes=_modes(task, state, left),
        when=(),
        family=None,
        earliest=now,
        latest=now + left,
        reason="",
    )


def _to_clean(problem: Problem, task: Task, state: Begun, now: int) -> Task:
    """A part that is over but for its clean-down: continued now by another part, or cleaned up.

    Where its own hands are wanted elsewhere, it is cleaned up as soon as there are some.
    """
    set_up = problem.families[task.family or ""].set_up
    return replace(
        task,
        modes=_modes(task, state, 1),
        when=(),
        earliest=now - set_up - 1,
        latest=now if state.stays else None,
        reason="",
    )


def _modes(task: Task, state: Begun, minutes: int) -> tuple[Mode, ...]:
    return tuple(
        Mode(mode.id, minutes, mode.demands)
        for mode in task.modes
        if mode.id == state.mode or not state.stays
    )


# ---- lags and budgets --------------------------------------------------------------------------


@dataclass(frozen=True)
class _Anchors:
    """Which anchors are known by now."""

    begun: Mapping[str, Begun]
    now: int

    def since(self, task: str, anchor: Anchor) -> int | None:
        """Minutes from an anchor that is past until now; None where it is still to come."""
        state = self.begun.get(task)
        if state is None or (anchor == "end" and not state.over):
            return None
        return self.now - (state.start if anchor == "start" else state.end)


def _lags(
    lags: Iterable[Lag],
    anchors: _Anchors,
    tasks: Collection[str],
    cleaning: Mapping[str, int],
    taken: Mapping[str, str],
) -> Iterator[Lag]:
    """The lags that still bind; what is past counts from now, by so much less.

    What was to wait for the clean-down after a part waits for it wherever it is done, so for those
    in ``cleaning``, with the minutes it takes, such a lag holds from there as well.
    """
    for lag in lags:
        since = anchors.since(lag.before, lag.origin)
        settled = anchors.since(lag.after, lag.to) is not None
        if settled or lag.after not in tasks or _shut(lag.when, taken):
            continue
        if since is None:
            if lag.before in tasks:
                yield lag
            continue
        yield replace(
            lag,
            before=NOW,
            origin="start",
            low=None if lag.low is None else lag.low - since,
            high=None if lag.high is None else lag.high - since,
            weight=0,
        )
        clean_down = cleaning.get(lag.before, 0)
        if clean_down and lag.origin == "end" and (lag.low or 0) >= clean_down:
            yield replace(lag, high=None, weight=0)
        if lag.weight:
            yield Lag(NOW, "start", lag.after, lag.to, None, None, lag.when, lag.weight)


def _budgets(
    budgets: Iterable[Budget], anchors: _Anchors, tasks: Collection[str]
) -> Iterator[Budget]:
    """What is left of each budget for the spans that are not over.

    The minutes so far of a span count as spent, also where what would end it need not be done; so
    a span should end with what is done whenever it has begun.
    """
    for budget in budgets:
        left = budget.limit
        spans = []
        for span in budget.spans:
            began = anchors.since(span.before, span.origin)
            ended = anchors.since(span.after, span.to)
            if ended is not None:
                left -= 0 if began is None else began - ended
            elif span.after not in tasks:
                continue
            elif began is not None:
                left -= began
                spans.append(Span(NOW, "start", span.after, span.to))
            elif span.before in tasks:
                spans.append(span)
        if spans:
            yield replace(budget, spans=tuple(spans), limit=left)


# ---- occupancies -------------------------------------------------------------------------------


def _occupancies(
    occupancies: Iterable[Occupancy],
    begun: Mapping[str, Begun],
    tasks: Collection[str],
    taken: Mapping[str, str],
) -> Iterator[Occupancy]:
    """Those still open, held from now on where a filler has begun, and those to come."""
    for each in occupancies:
        ended = each.until in begun and begun[each.until].over
        if ended or each.until not in tasks or _shut(each.when, taken):
            continue
        fillers = tuple(name for name in each.fillers if name in tasks)
        if any(name in begun for name in each.fillers):
            fillers = (NOW,)
        if fillers:
            yield replace(each, fillers=fillers)
