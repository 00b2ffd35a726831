"""A day as it is being followed: what each cook is at, what is next, what runs by itself.

A task begins when it is marked so, or by the clock once its time has come and all that leads to it
is done; it ends only when somebody marks it. Times of what is to come follow from the network
behind the plan.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from batchcook.pacing.sureness import how_sure
from batchcook.plan import Plan, Sureness, Task
from batchcook.plans.network import minute_of, network_of_plan
from batchcook.plans.progress import DayState, Mark, state_of
from batchcook.replan.daysofar import SoFar, so_far
from batchcook.scheduling.flownetwork import FlowNetwork
from batchcook.scheduling.problem import Anchor
from batchcook.scheduling.retiming import Times, retime

__all__ = ["Following", "Lane", "Timed"]

_BY_CLOCK = "preheat"
"""What ends by the clock: an oven is hot when its time is up."""


@dataclass(frozen=True)
class Timed:
    """A task at the times it has now.

    Attributes:
        task: The task as planned.
        start: When it began, or is to begin.
        end: When it ended, or is to end.
        begun: Whether it has begun.
    """

    task: Task
    start: dt.datetime
    end: dt.datetime
    begun: bool


@dataclass(frozen=True)
class Lane:
    """What one cook is at, and what is next; cook None for what goes by itself."""

    cook: str | None
    name: str
    now: tuple[Timed, ...]
    next: tuple[Timed, ...]


class Following:
    """A plan with its marks at one minute. Marks are added by making another."""

    def __init__(
        self,
        plan: Plan,
        marks: Iterable[Mark],
        now: dt.datetime,
        network: FlowNetwork | None = None,
    ) -> None:
        """Follow a plan.

        Args:
            plan: The plan.
            marks: All that was marked so far.
            now: The instant.
            network: The network behind the plan, where it is at hand.

        Raises:
            InputFault: The marks do not fit the plan.
        """
        self.plan = plan
        self.marks = tuple(mark for mark in marks if mark.at <= now)
        self.now = now
        self.network = network or network_of_plan(plan)

    @cached_property
    def state(self) -> DayState:
        """The marks added up."""
        return state_of(self.marks)

    @cached_property
    def far(self) -> SoFar:
        """How far the day is."""
        return so_far(self.plan, self.state, self.now)

    @cached_property
    def tasks(self) -> Mapping[str, Task]:
        """The plan's tasks by id."""
        return {task.id: task for task in self.plan.tasks}

    @cached_property
    def times(self) -> Times:
        """Start and end of every task in minutes from the plan's start."""
        fixed: dict[str, tuple[int, int | None]] = {}
        for name, stand in self.far.stands.items():
            end = minute_of(self.plan, stand.end)
            fixed[name] = (minute_of(self.plan, stand.start), end)
        return retime(
            self.network,
            self.lasting,
            fixed=fixed,
            now=minute_of(self.plan, self.now),
            as_scheduled=True,
        )

    def _planned_minutes(self, name: str) -> int:
        task = self.tasks[name]
        return int((task.end - task.start).total_seconds() // 60)

    @property
    def finish(self) -> dt.datetime:
        """When the day will be over."""
        return max((self.timed(name).end for name in self.times), default=self.plan.finish)

    def timed(self, name: str) -> Timed:
        """A task at its times by now."""
        start, end = (self.plan.start + dt.timedelta(minutes=m) for m in self.times[name])
        return Timed(self.tasks[name], start, end, name in self.far.stands)

    def is_over(self, name: str) -> bool:
        """Whether a task is done."""
        stand = self.far.stands.get(name)
        return stand is not None and stand.over

    def has_come(self, name: str, anchor: Anchor) -> bool:
        """Whether a task has begun, or ended."""
        return self.is_over(name) if anchor == "end" else name in self.far.stands

    @cached_property
    def lasting(self) -> Mapping[str, int]:
        """Minutes of the tasks that are known to take longer than planned."""
        return {
            name: self._planned_minutes(name) + minutes
            for name, minutes in self.state.late.items()
            if name in self.tasks
        }

    def sure(self) -> Sureness:
        """How sure the finish is from here on; takes a fraction of a second."""
        return how_sure(
            self.plan,
            self.network,
            fixed={
                name: (
                    minute_of(self.plan, stand.start),
                    minute_of(self.plan, stand.end) if stand.over else None,
                )
                for name, stand in self.far.stands.items()
            },
            durations=self.lasting,
            now=minute_of(self.plan, self.now),
        )

    def lanes(self) -> tuple[Lane, ...]:
        """One for each cook, and one for what goes by itself."""
        cooks = [*((cook.id, cook.name) for cook in self.plan.cooks), (None, "By itself")]
        open_ = sorted(
            (self.timed(name) for name in self.tasks if not self.is_over(name)),
            key=lambda each: (each.start, each.end, each.task.id),
        )
        found = []
        for cook, name in cooks:
            own = [each for each in open_ if each.task.cook == cook]
            found.append(
                Lane(
                    cook,
                    name,
                    tuple(each for each in own if each.begun),
                    tuple(each for each in own if not each.begun),
                )
            )
        return tuple(found)

    # ---- marks ---------------------------------------------------------------------------------

    def by_the_clock(self) -> tuple[Mark, ...]:
        """The marks that are due by themselves at this minute."""
        busy = {each.task.cook for lane in self.lanes() for each in lane.now} - {None}
        found = []
        for name, stand in self.far.stands.items():
            task = self.tasks[name]
            if task.technique == _BY_CLOCK and not stand.over and self._is_up(task, stand.start):
                found.append(Mark("done", self.now, name, by_itself=True))
        for name in self.times:
            timed = self.timed(name)
            if timed.begun or timed.start > self.now or timed.task.cook in busy:
                continue
            if all(self.is_over(before) for before in self.leading(name)):
                found.append(Mark("start", self.now, name, by_itself=True))
                busy |= {timed.task.cook} - {None}
        return tuple(found)

    def _is_up(self, task: Task, start: dt.datetime) -> bool:
        return start + (task.end - task.start) <= self.now

    def leading(self, name: str) -> list[str]:
        """The tasks that must end before one may start."""
        return [
            arc.before
            for arc in self.network.arcs
            if arc.after == name and arc.origin == "end" and arc.to == "start" and arc.least >= 0
        ]

    def start(self, name: str) -> tuple[Mark, ...]:
        """The marks of starting a task now; what runs by itself and leads to it is over."""
        return (*self._over_before(name), Mark("start", self.now, name))

    def done(self, name: str) -> tuple[Mark, ...]:
        """The marks of a task done now, begun before or not."""
        before = () if name in self.far.stands else self._over_before(name)
        return (*before, Mark("done", self.now, name))

    def _over_before(self, name: str) -> tuple[Mark, ...]:
        """What led to a task must be over, though nobody marked it."""
        fringe, found = [name], dict[str, Mark]()
        while fringe:
            for each in self.leading(fringe.pop()):
                if not self.is_over(each) and each not in found and self._is_needed(each):
                    found[each] = Mark("done", self.now, each, by_itself=True)
                    fringe.append(each)
        return tuple(reversed(found.values()))

    def _is_needed(self, name: str) -> bool:
        """Whether a task that leads on is under way; what has not begun is not made up."""
        return name in self.far.stands
