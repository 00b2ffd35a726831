"""What was shared, in the words of the run sheet, and what it saved."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from batchcook import plan
from batchcook.day.formulation import Formulation
from batchcook.dishwork.work import Job
from batchcook.foods import load_foods
from batchcook.kitchens.techniques import CUTS, load_techniques
from batchcook.quantities import say, ureg
from batchcook.scheduling.problem import Family
from batchcook.scheduling.schedule import Schedule

__all__ = ["shared_runs"]


def shared_runs(
    formulation: Formulation,
    schedule: Schedule,
    runs: Mapping[str, tuple[str, ...]],
    system: str,
    *,
    proved: bool,
) -> tuple[plan.SharedRun, ...]:
    """Each run with its bowls in the order in which they are filled.

    Args:
        formulation: The day.
        schedule: When everything is done.
        runs: Run id to its parts in order.
        system: us or metric.
        proved: Whether the day is proved shortest with the fewest hands-on minutes, so that a run
            is split only where one run would make the day longer.
    """
    jobs = {job.id: job for job in formulation.work.jobs}
    reason = (
        "because in one the day would be longer"
        if proved
        else "because no day as short was found with one"
    )
    split = _split_families(runs, jobs, reason)
    found = []
    for run, parts in runs.items():
        first, last = jobs[parts[0]], jobs[parts[-1]]
        family = formulation.work.families[str(first.family)]
        done = schedule.tasks[parts[0]]
        grams = sum(jobs[part].grams for part in parts)
        weight = say(ureg.Quantity(grams, "gram"), system, weigh=True)
        cook = next(unit for units in done.units.values() for unit in units)
        found.append(
            plan.SharedRun(
                id=run,
                title=_title(first, weight) if grams else first.title,
                technique=first.technique,
                food=first.food,
                cook=cook.removeprefix("cook:"),
                start=formulation.clock.instant(done.start),
                end=formulation.clock.instant(schedule.tasks[last.id].release),
                bowls=tuple(
                    plan.Bowl(
                        name=jobs[part].bowls.get(dish, jobs[part].bowl),
                        dish=dish,
                        amount=amount,
                        task=part,
                        ready=formulation.clock.instant(schedule.tasks[part].end),
                    )
                    for part in parts
                    for dish, amount in jobs[part].dishes.items()
                ),
                minutes_saved=_saved([jobs[part] for part in parts], family),
                note=split.get(str(first.family), ""),
            )
        )
    return tuple(sorted(found, key=lambda run: run.start))


def _saved(parts: Sequence[Job], family: Family) -> int:
    """Hands-on minutes less than if each dish had done its own: set-ups, and shared skillets."""
    dishes = {dish for part in parts for dish in part.dishes}
    return (len(dishes) - 1) * (family.set_up + family.clean_down) + sum(
        part.saves for part in parts
    )


def _title(job: Job, weight: str) -> str:
    """The verb, how much in all, and of what."""
    food = load_foods().get(job.food)
    what = f"{weight} {food.plural if food else job.food}"
    if job.technique in CUTS:
        return CUTS[job.technique].say(what)
    return f"{load_techniques()[job.technique].title} {what}"


def _split_families(
    runs: Mapping[str, tuple[str, ...]], jobs: Mapping[str, Job], reason: str
) -> dict[str, str]:
    """Families done in more than one run, with the reason."""
    count: dict[str, int] = {}
    for parts in runs.values():
        family = str(jobs[parts[0]].family)
        count[family] = count.get(family, 0) + 1
    return {
        family: f"done in {number} goes, {reason}" for family, number in count.items() if number > 1
    }
