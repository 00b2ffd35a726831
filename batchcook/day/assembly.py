"""A schedule read as a day in the kitchen: what ``plan.json`` says of times, hands and vessels."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence

from batchcook import plan
from batchcook.day.formulation import Formulation
from batchcook.day.prepday import Busy
from batchcook.day.resources import SOMEBODY, wanted
from batchcook.dishwork.rawhands import is_raw_work
from batchcook.dishwork.streams import allowed, spells_of
from batchcook.dishwork.work import Job, Moment, Stream
from batchcook.kitchens.kitchen import Kitchen
from batchcook.scheduling.problem import Condition, Problem
from batchcook.scheduling.schedule import Done, Schedule

__all__ = [
    "budgets",
    "deadlines",
    "events",
    "lags",
    "occupancies",
    "resources",
    "runs_of",
    "settings",
    "tasks",
]


def runs_of(formulation: Formulation, schedule: Schedule) -> dict[str, tuple[str, ...]]:
    """Run id to its parts in order: parts of one family that follow each other without a gap."""
    following = {done.follows: id_ for id_, done in schedule.tasks.items() if done.follows}
    firsts = [id_ for id_, done in schedule.tasks.items() if done.follows is None]
    jobs = {job.id: job for job in formulation.work.jobs}
    runs = {}
    number: dict[str, int] = defaultdict(int)
    for first in sorted(firsts, key=lambda id_: (schedule.tasks[id_].start, id_)):
        family = jobs[first].family
        parts = [first]
        while parts[-1] in following:
            parts.append(following[parts[-1]])
        served = {dish for part in parts for dish in jobs[part].dishes}
        if family is None or is_raw_work(family) or max(len(served), len(parts)) == 1:
            continue
        number[family] += 1
        runs[f"{family.replace(' ', '-')}-{number[family]}"] = tuple(parts)
    return runs


def resources(
    formulation: Formulation, kitchen: Kitchen, busy: Sequence[Busy] = ()
) -> tuple[plan.Resource, ...]:
    """The kitchen's means as the plan lists them, each cook by name.

    Args:
        formulation: The day.
        kitchen: Who cooks, and with what.
        busy: What of it is wanted elsewhere for a while, and why.
    """
    clock, problem = formulation.clock, formulation.problem
    found = []
    for cook in kitchen.cooks:
        away = tuple(
            plan.Absence(
                from_=clock.instant(max(0, clock.minute(each.start))),
                to=clock.instant(clock.minute(each.end)),
                amount=1,
                why=each.why,
            )
            for each in cook.away
            if clock.minute(each.end) > 0
        )
        found.append(plan.Resource(id=f"cook:{cook.id}", capacity=1, away=away))
    for resource in problem.resources.values():
        if resource.units or resource.id == SOMEBODY:
            continue
        away = tuple(
            plan.Absence(
                from_=clock.instant(each.start),
                to=clock.instant(each.end),
                amount=each.amount,
                why=next(
                    (
                        said.why
                        for said in busy
                        if said.what == resource.id
                        and wanted(resource, said) == each.amount
                        and max(0, clock.minute(said.start)) == each.start
                        and min(clock.horizon, clock.minute(said.end)) == each.end
                    ),
                    "",
                ),
            )
            for each in resource.absences
        )
        found.append(plan.Resource(id=resource.id, capacity=resource.capacity, away=away))
    return tuple(found)


def tasks(
    formulation: Formulation, schedule: Schedule, runs: Mapping[str, tuple[str, ...]]
) -> tuple[plan.Task, ...]:
    """Every task that is done, in order of time: work, clean-downs, and bringing ovens to heat."""
    run_of = {part: run for run, parts in runs.items() for part in parts}
    found = []
    for job in formulation.work.jobs:
        done = schedule.tasks.get(job.id)
        if done is None:
            continue
        found.append(_task(formulation, job, done, run_of.get(job.id)))
        if done.release > done.end:
            found.append(_clean_down(formulation, job, done, run_of.get(job.id)))
    found += _warm_ups(formulation, schedule)
    return tuple(sorted(found, key=lambda task: (task.start, task.end, task.id)))


def _uses(problem: Problem, job: str, done: Done) -> dict[str, int]:
    """What a task holds, each cook by name."""
    mode = next(mode for mode in problem.tasks[job].modes if mode.id == done.mode)
    uses: dict[str, int] = {}
    for resource, amount in mode.demands.items():
        if resource == SOMEBODY:
            continue
        if problem.resources[resource].units:
            uses |= dict.fromkeys(done.units[resource], 1)
        else:
            uses[resource] = amount
    return uses


def _cook(uses: Mapping[str, int]) -> str | None:
    return next((each.removeprefix("cook:") for each in uses if each.startswith("cook:")), None)


def _task(formulation: Formulation, job: Job, done: Done, run: str | None) -> plan.Task:
    clock = formulation.clock
    uses = _uses(formulation.problem, job.id, done)
    title = job.title
    if done.setting is not None:
        title = f"{title.rsplit(' at ', 1)[0]} at {done.setting} degF"
    words = job.words
    if job.oven is not None and done.setting is not None and done.setting != job.oven.own:
        words += f"; alone it would have {job.oven.own} degF: go by its color"
    return plan.Task(
        id=job.id,
        title=title,
        technique=job.technique,
        dishes=dict(job.dishes),
        run=run,
        start=clock.instant(done.start),
        end=clock.instant(done.end),
        cook=_cook(uses),
        uses=uses,
        words=words,
        amounts=job.amounts,
        bowl=job.bowl,
        station=job.station,
        label=job.label,
    )


def _clean_down(formulation: Formulation, job: Job, done: Done, run: str | None) -> plan.Task:
    clock = formulation.clock
    uses = _uses(formulation.problem, job.id, done)
    raw = "raw meat" in (job.hands or ())
    what = {"skillet": "skillet and spatula", "board": "board and knife"}.get(
        job.station, "counter and tools"
    )
    title = f"Wash and sanitize {what}, wash hands 20 seconds" if raw else f"Wash {what}"
    if job.technique == "measure":
        title = "Put the jars away, wash the spoons"
    return plan.Task(
        id=f"{job.id}/clean-down",
        title=title,
        technique="clean-down",
        dishes=dict.fromkeys(job.dishes, ""),
        run=run,
        start=clock.instant(done.end),
        end=clock.instant(done.release),
        cook=_cook(uses),
        uses=uses,
        station=job.station,
        label="Clean down",
    )


def _warm_ups(formulation: Formulation, schedule: Schedule) -> list[plan.Task]:
    """Turning an oven to a temperature; nobody's hands, but the whole oven."""
    clock, problem = formulation.clock, formulation.problem
    return [
        plan.Task(
            id=f"{each.resource}/to-{each.setting}-{number}",
            title=f"Turn the {each.resource.replace(':', ' ')} to {each.setting} degF",
            technique="preheat",
            start=clock.instant(each.start),
            end=clock.instant(each.end),
            uses={each.resource: problem.resources[each.resource].capacity},
            station="oven",
            label=f"Heat to {each.setting} degF",
        )
        for number, each in enumerate(sorted(schedule.warm_ups, key=lambda each: each.start), 1)
    ]


def lags(formulation: Formulation, schedule: Schedule) -> tuple[plan.Lag, ...]:
    """The time lags that bind tasks which are done."""
    return tuple(
        plan.Lag(
            before=lag.before,
            from_=lag.origin,
            after=lag.after,
            to=lag.to,
            min_minutes=lag.low,
            max_minutes=lag.high,
            reason=lag.reason,
        )
        for lag in formulation.problem.lags
        if lag.before in schedule.tasks
        and lag.after in schedule.tasks
        and (lag.low is not None or lag.high is not None)
        and _holds(schedule, lag.when)
    )


def budgets(formulation: Formulation, schedule: Schedule, limit: int) -> tuple[plan.Budget, ...]:
    """How long each food may be out in all, for those ways whose tasks are done.

    Args:
        formulation: The day.
        schedule: When everything is done.
        limit: Minutes that food may spend between 40 and 140 degF in all.
    """
    found: dict[object, plan.Budget] = {}
    for stream in formulation.work.streams:
        spells = spells_of(stream)
        if not spells or any(moment.job not in schedule.tasks for moment in stream.moments):
            continue
        left = allowed(stream, limit)
        spans = tuple(
            plan.Span(before=each.before, from_=each.origin, after=each.after, to=each.to)
            for each in spells
        )
        found.setdefault(
            (spells, left),
            plan.Budget(dish=stream.dish, food=stream.food, spans=spans, limit_minutes=left),
        )
    return tuple(found.values())


def occupancies(formulation: Formulation, schedule: Schedule) -> tuple[plan.Occupancy, ...]:
    """The vessels and burners kept across tasks, in the way that was chosen."""
    found = []
    for each in formulation.problem.occupancies:
        fillers = [filler for filler in each.fillers if filler in schedule.tasks]
        if not _holds(schedule, each.when) or not fillers or each.resource == SOMEBODY:
            continue
        first = min(fillers, key=lambda filler: (schedule.tasks[filler].start, filler))
        found.append(
            plan.Occupancy(
                resource=each.resource, amount=each.amount, from_task=first, to_task=each.until
            )
        )
    return tuple(found)


def _holds(schedule: Schedule, conditions: Iterable[Condition]) -> bool:
    """Whether the choices were taken so."""
    return all(schedule.choices[each.choice] in each.options for each in conditions)


def settings(schedule: Schedule, formulation: Formulation) -> tuple[plan.Setting, ...]:
    """The temperature of each bake."""
    return tuple(
        plan.Setting(resource=done.mode, task=id_, degF=done.setting)
        for id_, done in schedule.tasks.items()
        if done.setting is not None and formulation.problem.tasks[id_].settings
    )


def events(formulation: Formulation, schedule: Schedule) -> tuple[plan.Event, ...]:
    """What happens to each food and when, for those ways whose tasks are done."""
    done = [
        stream
        for stream in formulation.work.streams
        if all(moment.job in schedule.tasks for moment in stream.moments)
    ]
    ways: Counter[tuple[str, str]] = Counter((stream.dish, stream.food) for stream in done)
    seen: Counter[tuple[str, str]] = Counter()
    found: list[plan.Event] = []
    for stream in done:
        key = (stream.dish, stream.food)
        seen[key] += 1
        name = stream.food if ways[key] == 1 else f"{stream.food}, load {seen[key]}"
        found += _events_of(stream, name, formulation, schedule)
    return tuple(sorted(found, key=lambda event: event.at))


def _events_of(
    stream: Stream, name: str, formulation: Formulation, schedule: Schedule
) -> list[plan.Event]:
    """One food's events in order; two at one minute keep their order."""
    found: list[plan.Event] = []
    last = -1
    kind = stream.kind
    following = [*stream.moments[1:], None]
    for moment, after in zip(stream.moments, following, strict=True):
        if moment.event == "off-heat" and not (after is not None and after.straight):
            kind = "cooked"
        done = schedule.tasks[moment.job]
        at = max(last, done.start if moment.anchor == "start" else done.end)
        last = at
        found.append(
            plan.Event(
                dish=stream.dish,
                food=name,
                kind=kind,
                event=moment.event,
                at=formulation.clock.instant(at),
                task=moment.job,
            )
        )
    return found


def deadlines(
    formulation: Formulation, schedule: Schedule, titles: Mapping[str, str], limit: int
) -> tuple[plan.Deadline, ...]:
    """By when each food must be on heat, and each dish cold again; the tightest of each.

    Args:
        formulation: The day.
        schedule: When everything is done.
        titles: Dish id to its title.
        limit: Minutes that food may spend between 40 and 140 degF in all.
    """
    found: dict[tuple[str, str], plan.Deadline] = {}
    for stream in formulation.work.streams:
        if any(moment.job not in schedule.tasks for moment in stream.moments):
            continue
        spells = spells_of(stream)
        lengths = [
            _at(schedule, spell.after, spell.to) - _at(schedule, spell.before, spell.origin)
            for spell in spells
        ]
        left = allowed(stream, limit)
        for spell, length in zip(spells, lengths, strict=True):
            raw = Moment("out", spell.before, spell.origin) in stream.moments
            packed = (spell.after, spell.to) == (stream.moments[-1].job, "end")
            back = Moment("refrigerated", spell.after, spell.to) in stream.moments[:-1]
            what = stream.food.capitalize() if raw else titles[stream.dish]
            where = "in the cold again" if back else "cold" if packed else "on the heat"
            at = formulation.clock.instant(_at(schedule, spell.before, spell.origin) + left)
            left -= length
            words = f"{what}: {where} by {at:%H:%M}, or throw it out"
            key = (stream.dish, f"{what} {where}" if raw or packed else spell.after)
            if key not in found or at < found[key].at:
                found[key] = plan.Deadline(at=at, dish=stream.dish, task=spell.after, words=words)
    return tuple(sorted(found.values(), key=lambda each: (each.at, each.dish)))


def _at(schedule: Schedule, job: str, anchor: str) -> int:
    done = schedule.tasks[job]
    return done.start if anchor == "start" else done.end
