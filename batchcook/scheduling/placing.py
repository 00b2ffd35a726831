"""The state of a list schedule: what is placed, what resources have left, what is reserved."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from itertools import product

from batchcook.scheduling.classes import classes_of, missing
from batchcook.scheduling.conditions import hold, minute_of
from batchcook.scheduling.problem import Anchor, Mode, Occupancy, Problem, Resource, Task
from batchcook.scheduling.profile import Profile
from batchcook.scheduling.schedule import Done, Schedule, WarmUp

__all__ = ["Place", "Table"]

_Slot = tuple[str, int]  # a resource and a class of its units


@dataclass(frozen=True)
class Place:
    """Where a task could go.

    Attributes:
        done: Its times, mode and setting.
        taken: Amounts of each class of units.
        warmed: The resource that it warms up itself, if any.
        decided: Choices that placing it here takes.
    """

    done: Done
    taken: Mapping[_Slot, int]
    warmed: str | None = None
    decided: Mapping[str, str] = field(default_factory=dict)


@dataclass
class Table:
    """All that is placed so far, under the choices taken so far.

    A choice that only says which resource an occupancy keeps is taken when its first filler is
    placed; all others must be taken from the start.
    """

    problem: Problem
    choices: dict[str, str]
    placed: dict[str, Place] = field(default_factory=dict)
    profiles: dict[_Slot, Profile] = field(default_factory=dict)
    opened: dict[str, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Set up a profile for each class of units."""
        for resource in self.problem.resources.values():
            for rank, units in enumerate(classes_of(resource)):
                gaps = missing(units.absences, units.capacity)
                self.profiles[resource.id, rank] = Profile(
                    units.capacity, gaps, self.problem.horizon
                )
        self._filled: dict[str, list[Occupancy]] = {}
        self._ended: dict[str, list[Occupancy]] = {}
        for occupancy in self.problem.occupancies:
            self._ended.setdefault(occupancy.until, []).append(occupancy)
            for name in occupancy.fillers:
                self._filled.setdefault(name, []).append(occupancy)
        self._ranks = {name: rank for rank, name in enumerate(self.problem.tasks)}

    def schedule(self) -> Schedule:
        """What is placed, as a schedule without named units."""
        tasks = {name: self.placed[name].done for name in self.problem.tasks if name in self.placed}
        warm_ups = tuple(
            sorted(self._warm_ups(), key=lambda item: (item.start, item.resource, item.task))
        )
        # Nothing that is done depends on a choice that was never met.
        unmet = {name: choice.options[0] for name, choice in self.problem.choices.items()}
        return Schedule(tasks, unmet | self.choices, warm_ups)

    def shares(self) -> dict[tuple[str, str, int], int]:
        """What each task takes of each class, for resources with several."""
        several = {name for name, rank in self.profiles if rank > 0}
        return {
            (task, name, rank): place.taken.get((name, rank), 0)
            for task, place in self.placed.items()
            for name, rank in self.profiles
            if name in several and any(slot[0] == name for slot in place.taken)
        }

    def _warm_ups(self) -> Iterator[WarmUp]:
        for name, place in self.placed.items():
            if place.warmed is not None:
                length = self.problem.resources[place.warmed].warm_up or 0
                start = place.done.start
                setting = place.done.setting or 0
                yield WarmUp(place.warmed, start - length, start, setting, name)

    def put(self, name: str, place: Place) -> None:
        """Place a task; where it continues a run the part before loses its clean-down."""
        done = place.done
        if done.follows is not None:
            self._set_release(done.follows, self.placed[done.follows].done.end)
        self.choices.update(place.decided)
        # What is kept until this task, and was before it, is given back from its end on.
        kept = [item for item in self._ended.get(name, ()) if item.id in self.opened]
        self.placed[name] = place
        self._hold(place, 1)
        for occupancy in self._filled.get(name, ()):
            if hold(self.choices, occupancy.when):
                self._open(occupancy, done.start)
        for occupancy in kept:
            profile = self.profiles[occupancy.resource, 0]
            profile.take(done.end, self.problem.horizon, -occupancy.amount)

    def _open(self, occupancy: Occupancy, start: int) -> None:
        """Reserve a resource from a first start on, until its last use is placed."""
        end = self.opened.get(occupancy.id, self._end_of(occupancy))
        if start < end:
            self.profiles[occupancy.resource, 0].take(start, end, occupancy.amount)
            self.opened[occupancy.id] = start

    def _end_of(self, occupancy: Occupancy) -> int:
        until = self.placed.get(occupancy.until)
        return self.problem.horizon if until is None else until.done.end

    def _set_release(self, name: str, release: int) -> None:
        place = self.placed[name]
        self._hold(place, -1)
        old = place.done
        done = Done(old.start, old.work, old.end, release, old.mode, old.follows, old.setting)
        self.placed[name] = Place(done, place.taken, place.warmed)
        self._hold(self.placed[name], 1)

    def _hold(self, place: Place, sign: int) -> None:
        """Take what a task demands, or give it back."""
        done = place.done
        for slot, amount in place.taken.items():
            self.profiles[slot].take(done.start, done.release, sign * amount)
        if place.warmed is not None:
            resource = self.problem.resources[place.warmed]
            start = done.start - (resource.warm_up or 0)
            for name in (resource.id, *resource.warming):
                amount = sign * resource.warm_up_takes(name)
                self.profiles[name, 0].take(start, done.start, amount)

    def fresh(self, task: Task, mode: Mode, earliest: int) -> Place | None:
        """The first place from a minute on for a task that begins a run of its own."""
        found = []
        for decided in self._open_options(task):
            place = self._first(task, mode, earliest, decided)
            if place is not None:
                found.append(place)
        return min(found, key=lambda place: place.done.end, default=None)

    def _open_options(self, task: Task) -> list[dict[str, str]]:
        """The ways to take the choices that placing a task takes; one empty way where none."""
        open_choices = sorted(
            {
                condition.choice
                for occupancy in self._filled.get(task.id, ())
                if not self._ruled_out(occupancy)
                for condition in occupancy.when
                if condition.choice not in self.choices
            }
        )
        ways = product(*(self.problem.choices[name].options for name in open_choices))
        return [dict(zip(open_choices, way, strict=True)) for way in ways]

    def _ruled_out(self, occupancy: Occupancy) -> bool:
        """Whether the choices taken so far rule an occupancy out."""
        return any(
            item.choice in self.choices and self.choices[item.choice] not in item.options
            for item in occupancy.when
        )

    def _first(
        self, task: Task, mode: Mode, earliest: int, decided: dict[str, str]
    ) -> Place | None:
        """The first place under choices decided with it."""
        family = self.problem.families.get(task.family or "")
        set_up, clean_down = (family.set_up, family.clean_down) if family else (0, 0)
        length = set_up + mode.duration
        start = max(earliest, 0)
        while start + length + clean_down <= self.problem.horizon:
            work, end = start + set_up, start + length
            done = Done(start, work, end, end + clean_down, mode.id)
            retry, place = self._try(task, mode, done, decided)
            if place is not None:
                return replace(place, decided=decided)
            start = retry
        return None

    def _try(
        self, task: Task, mode: Mode, done: Done, decided: dict[str, str]
    ) -> tuple[int, Place | None]:
        """A place at just these times, or the next start to try."""
        retry = self._blocked(task, mode, done, decided)
        if retry is not None:
            return max(retry, done.start + 1), None
        taken = self._taken(mode, done)
        if taken is None:
            return done.start + 1, None
        for name in mode.demands:
            resource = self.problem.resources[name]
            if resource.warm_up is not None:
                place = self._warm(task, resource, done, taken)
                return done.start + 1, place
        setting = task.settings[0] if task.settings else None
        return 0, Place(_at_setting(done, setting), taken)

    def _blocked(self, task: Task, mode: Mode, done: Done, decided: dict[str, str]) -> int | None:
        """The next start to try where a resource lacks, of those that no classes divide."""
        tries = []
        for name, amount in mode.demands.items():
            if (name, 1) not in self.profiles:
                profile = self.profiles[name, 0]
                tries.append(profile.retry(done.start, done.release, amount))
        taken = {**self.choices, **decided}
        for occupancy in self._filled.get(task.id, ()):
            if not hold(taken, occupancy.when):
                continue
            profile = self.profiles[occupancy.resource, 0]
            end = self.opened.get(occupancy.id, self._end_of(occupancy))
            own = mode.demands.get(occupancy.resource, 0)
            tries.append(profile.retry(done.start, end, occupancy.amount))
            tries.append(profile.retry(done.start, min(end, done.release), occupancy.amount + own))
        return max((retry for retry in tries if retry is not None), default=None)

    def _taken(self, mode: Mode, done: Done) -> dict[_Slot, int] | None:
        """Amounts of each class of units, from the first classes that have some."""
        taken: dict[_Slot, int] = {}
        for name, amount in mode.demands.items():
            needed = amount
            rank = 0
            while needed and (name, rank) in self.profiles:
                least = self.profiles[name, rank].least(done.start, done.release)
                part = min(needed, max(least, 0))
                if part:
                    taken[name, rank] = part
                needed -= part
                rank += 1
            if needed:
                return None
        return taken

    def _warm(
        self, task: Task, resource: Resource, done: Done, taken: dict[_Slot, int]
    ) -> Place | None:
        """A place at a setting that is kept, or after a warm-up, beside none of another."""
        users = {
            name: place.done
            for name, place in self.placed.items()
            if (resource.id, 0) in place.taken
        }
        beside = {
            other.setting
            for other in users.values()
            if max(other.start, done.start) < min(other.release, done.release)
        }
        settings = [value for value in task.settings if beside <= {value}]
        for value in settings:
            if any(
                other.setting == value
                and (other.start, self._ranks[name]) < (done.start, self._ranks[task.id])
                and other.end >= done.start - resource.keeps
                for name, other in users.items()
            ):
                return Place(_at_setting(done, value), taken)
        start = done.start - (resource.warm_up or 0)
        lacking = any(
            self.profiles[name, 0].retry(start, done.start, resource.warm_up_takes(name))
            is not None
            for name in (resource.id, *resource.warming)
        )
        if start < 0 or lacking or not settings:
            return None
        return Place(_at_setting(done, settings[0]), taken, resource.id)

    def continued(self, task: Task, mode: Mode, earliest: int) -> Place | None:
        """The place right after a part of the same family that nothing follows yet."""
        followed = {place.done.follows for place in self.placed.values()}
        found = []
        for name, before in self.placed.items():
            other = self.problem.tasks[name]
            if (
                other.family != task.family
                or name in followed
                or before.done.mode != mode.id
                or before.done.end < earliest
                or self._demands(name) != dict(mode.demands)
            ):
                continue
            place = self._after(task, mode, name)
            if place is not None:
                found.append(place)
        return min(found, key=lambda place: place.done.end, default=None)

    def _demands(self, name: str) -> dict[str, int]:
        chosen = self.placed[name].done.mode
        modes = self.problem.tasks[name].modes
        return dict(next(mode for mode in modes if mode.id == chosen).demands)

    def _after(self, task: Task, mode: Mode, name: str) -> Place | None:
        before = self.placed[name]
        clean_down = self.problem.families[task.family or ""].clean_down
        start = before.done.end
        end = start + mode.duration
        done = Done(start, start, end, end + clean_down, mode.id, name)
        if done.release > self.problem.horizon or self._open_options(task) != [{}]:
            return None
        self._set_release(name, start)
        blocked = self._blocked(task, mode, done, {}) is not None or any(
            self.profiles[slot].retry(done.start, done.release, amount) is not None
            for slot, amount in before.taken.items()
        )
        self._set_release(name, before.done.release)
        setting = task.settings[0] if task.settings else None
        return None if blocked else Place(_at_setting(done, setting), before.taken)

    def anchored(self, name: str, anchor: Anchor) -> int:
        """The minute of an anchor of a placed task."""
        return minute_of(self.placed[name].done, anchor)


def _at_setting(done: Done, setting: int | None) -> Done:
    return Done(done.start, done.work, done.end, done.release, done.mode, done.follows, setting)
