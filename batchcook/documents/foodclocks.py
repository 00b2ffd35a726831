"""The clocks of food out of the refrigerator, in a form that a screen can follow.

Each deadline of a plan is told again as what starts and stops its clock: the events of every food
it stands for, each at the start or end of its task. On a day that goes as planned a clock runs out
at the minute of the printed deadline; where food comes out later or waits longer, it moves.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final, Literal

from batchcook.foodsafety.kinds import KEEPS_IN_THE_CUPBOARD, RAW_MEAT
from batchcook.foodsafety.limits import STRAIGHT_ON_MINUTES
from batchcook.plan import Deadline, Event, Plan, Task

__all__ = ["FoodClock", "Moment", "Track", "food_clocks"]

_PUT_AWAY: Final = frozenset({"refrigerated", "frozen"})


@dataclass(frozen=True)
class Moment:
    """An event, so many minutes after the start or end of a task, and not before the last one."""

    task: str
    anchor: Literal["start", "end"]
    offset: int


@dataclass(frozen=True)
class Track:
    """One food until its clock must stop.

    Attributes:
        moments: Its events in order.
        spells: Places of the moments between which it is out; the last is the one to watch.
        budget: Minutes that the spells may add up to.
    """

    moments: tuple[Moment, ...]
    spells: tuple[tuple[int, int], ...]
    budget: int


@dataclass(frozen=True)
class FoodClock:
    """A time by which food must be somewhere safe.

    Attributes:
        what: The food, or the dish.
        dish: Id of the dish.
        task: The task that makes it safe.
        where: Where it must be: on the heat, or cold.
        state: cold where it came from the refrigerator, browned where it is not cooked through,
            hot where it is and so may be held hot.
        at: When the clock runs out if all goes as planned.
        tracks: What it follows; empty where the plan tells no events, and then ``at`` stands.
    """

    what: str
    dish: str
    task: str
    where: Literal["heat", "cold"]
    state: Literal["cold", "browned", "hot"]
    at: datetime
    tracks: tuple[Track, ...]


def food_clocks(plan: Plan) -> tuple[FoodClock, ...]:
    """The clocks of a plan in the order in which they run out."""
    tasks = {task.id: task for task in plan.tasks}
    chains: dict[tuple[str, str], list[Event]] = defaultdict(list)
    for event in plan.events:
        if event.task in tasks:
            chains[event.dish, event.food].append(event)
    followed = [_Chain.of(chain, tasks) for chain in chains.values()]
    clocks = [_clock(each, followed) for each in plan.deadlines if each.task in tasks]
    clocks += _straight_on(followed)
    return tuple(sorted(clocks, key=lambda clock: (clock.at, clock.dish, clock.task)))


@dataclass(frozen=True)
class _Chain:
    """One food's events, where they are anchored, and between which of them it is out."""

    events: tuple[Event, ...]
    moments: tuple[Moment, ...]
    spells: tuple[tuple[int, int], ...]

    @classmethod
    def of(cls, events: Sequence[Event], tasks: dict[str, Task]) -> _Chain:
        before: datetime | None = None
        moments = []
        for event in events:
            moments.append(_moment(event, tasks[event.task], before))
            before = event.at
        return cls(tuple(events), tuple(moments), tuple(_spells(events)))

    def minutes(self, spell: tuple[int, int]) -> int:
        return _minutes(self.events[spell[1]].at - self.events[spell[0]].at)

    def until(self, spell: tuple[int, int], budget: int) -> Track:
        """What leads to the end of a spell."""
        spells = self.spells[: self.spells.index(spell) + 1]
        return Track(self.moments[: spell[1] + 1], spells, budget)


def _moment(event: Event, task: Task, before: datetime | None) -> Moment:
    """Where an event is anchored; one that only waited for the event before it has no offset."""
    early = event.at < task.end
    waited = event.at == before and event.at > task.end
    offset = 0 if waited else _minutes(event.at - (task.start if early else task.end))
    return Moment(task.id, "start" if early else "end", offset)


def _spells(events: Sequence[Event]) -> Iterator[tuple[int, int]]:
    """Places of the events between which the clock runs."""
    since: int | None = None
    heated = False
    for place, event in enumerate(events):
        if since is not None:
            yield since, place
            since = None
        heated = heated or event.event in {"on-heat", "off-heat"}
        perishable = heated or event.kind not in KEEPS_IN_THE_CUPBOARD
        if event.event in {"out", "off-heat"} and perishable:
            since = place


def _clock(deadline: Deadline, chains: Sequence[_Chain]) -> FoodClock:
    what = deadline.words.partition(": ")[0]
    ending = [
        (chain, spell)
        for chain in chains
        if chain.events[0].dish == deadline.dish
        for spell in chain.spells[::-1]
        if chain.events[spell[1]].task == deadline.task
    ]
    named = [each for each in ending if _name(each[0].events[0]) == what]
    followed = named or ending
    tracks = dict.fromkeys(_track(deadline, chain, spell) for chain, spell in followed)
    last = [(chain.events[spell[0]], chain.events[spell[1]]) for chain, spell in followed[:1]]
    cold = "cold by" in deadline.words.lower()
    state: Literal["cold", "browned", "hot"] = "hot" if cold else "cold"
    for opening, closing in last:
        cold = closing.event in _PUT_AWAY
        state = _state(opening)
    return FoodClock(
        what=what if ": " in deadline.words else "",
        dish=deadline.dish,
        task=deadline.task,
        where="cold" if cold else "heat",
        state=state,
        at=deadline.at,
        tracks=tuple(tracks),
    )


def _track(deadline: Deadline, chain: _Chain, spell: tuple[int, int]) -> Track:
    """A chain that runs out at the deadline when its day goes as planned."""
    earlier = sum(chain.minutes(each) for each in chain.spells[: chain.spells.index(spell)])
    return chain.until(spell, earlier + _minutes(deadline.at - chain.events[spell[0]].at))


def _name(event: Event) -> str:
    """A food without the load it is cooked in, as a deadline names it."""
    return event.food.partition(", load")[0].capitalize()


def _state(opening: Event) -> Literal["cold", "browned", "hot"]:
    if opening.event == "out":
        return "cold"
    return "browned" if opening.kind in RAW_MEAT else "hot"


def _straight_on(chains: Sequence[_Chain]) -> list[FoodClock]:
    """What was browned goes on to its final cooking: a clock of its own for each such spell."""
    found: dict[tuple[str, str, str, str], FoodClock] = {}
    for chain in chains:
        for spell in chain.spells:
            opening, closing = chain.events[spell[0]], chain.events[spell[1]]
            if _state(opening) != "browned" or closing.event != "on-heat":
                continue
            what = _name(opening)
            track = Track(
                chain.moments[: spell[1] + 1],
                (spell,),
                STRAIGHT_ON_MINUTES,
            )
            key = (opening.dish, what, opening.task, closing.task)
            found.setdefault(
                key,
                FoodClock(
                    what=what,
                    dish=opening.dish,
                    task=closing.task,
                    where="heat",
                    state="browned",
                    at=opening.at + timedelta(minutes=STRAIGHT_ON_MINUTES),
                    tracks=(track,),
                ),
            )
    return list(found.values())


def _minutes(spell: timedelta) -> int:
    return int(spell.total_seconds() // 60)
