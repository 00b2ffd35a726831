"""Days that go wrong in ways drawn from a seed, planned anew, and looked over."""

from __future__ import annotations

import datetime as dt
import json
import random

from plan_oracle import breaches

from batchcook.complaints import InputFault
from batchcook.day.solving import Effort, NoAnswer
from batchcook.plan import Plan, write_plan
from batchcook.plans.network import minute_of, network_of_plan
from batchcook.replan.daysofar import so_far
from batchcook.replan.progress import DayState
from batchcook.replan.replanning import Drift, NoContinuation, replan
from batchcook.scheduling.retiming import retime

__all__ = ["disturbed", "drifted"]

_CHANGES = ("drifted only", "a cook leaves", "a burner less", "a dish less")


def drifted(plan: Plan, rng: random.Random) -> tuple[DayState, dt.datetime]:
    """A day that went along in the plan's order, each task shorter or longer, up to some minute."""
    network = network_of_plan(plan)
    lasting = {
        name: max(1, round(step.minutes * rng.lognormvariate(0.0, 0.2)))
        for name, step in network.steps.items()
        if step.minutes > 0
    }
    times = retime(network, lasting, as_scheduled=True)
    last = max(end for _, end in times.values())
    now = rng.randint(5, max(6, last - 5))
    at = plan.start + dt.timedelta(minutes=now)
    begin = {name: plan.start + dt.timedelta(minutes=start) for name, (start, _) in times.items()}
    end = {name: plan.start + dt.timedelta(minutes=stop) for name, (_, stop) in times.items()}
    return (
        DayState(
            started={name: begin[name] for name in times if begin[name] < at},
            ended={name: end[name] for name in times if begin[name] < at and end[name] <= at},
        ),
        at,
    )


def disturbed(plan: Plan, seed: int, seconds: float, limit: int) -> tuple[str, list[str]]:
    """Disturb a day and plan the rest anew.

    Returns:
        How it ended, with what was changed; and what is wrong with the outcome.
    """
    rng = random.Random(seed)  # noqa: S311 - a mishap, not a secret
    state, at = drifted(plan, rng)
    change = rng.choice(_CHANGES)
    drift = Drift(
        at,
        state,
        without={"burner": 1} if change == "a burner less" else {},
        cooks=(rng.choice(plan.cooks).id,) if change == "a cook leaves" else (),
        drop=(rng.choice(plan.dishes).id,)
        if change == "a dish less" and len(plan.dishes) > 1
        else (),
    )
    try:
        after = replan(plan, drift, Effort(seconds))
    except NoContinuation as none:
        return f"refused, {change}", [] if none.why else ["refused without a word"]
    except NoAnswer:
        return f"no answer, {change}", []
    except InputFault as fault:
        said = [str(each) for each in fault.complaints]
        return f"fault, {change}", [each for each in said if "packed already" not in each]
    return f"planned, {change}", _wrong(plan, after, drift, limit)


def _wrong(plan: Plan, after: Plan, drift: Drift, limit: int) -> list[str]:
    """What is wrong with a new plan: the past changed, or a limit broken that is not told."""
    found = []
    far = so_far(plan, drift.state or DayState(), drift.at)
    tasks = {task.id: task for task in after.tasks}
    for name, stand in far.stands.items():
        if stand.over and (tasks[name].start, tasks[name].end) != (stand.start, stand.end):
            found.append(f"{name} was otherwise")
    for task in after.tasks:
        if task.id not in far.stands and task.start < drift.at:
            found.append(f"{task.id} begins in the past")
        if task.cook in drift.cooks and task.end > drift.at:
            found.append(f"{task.id} is left to a cook who is gone")
    told = after.replanned
    food = [each for each in breaches(json.loads(write_plan(after)), limit) if _of_food(each)]
    if food and (told is None or not told.late):
        found += food
    if minute_of(after, after.finish) <= 0:
        found.append("over before it began")
    return found


def _of_food(breach: str) -> bool:
    """Whether a breach is of what happens to food; the past may be out of step in other ways."""
    return breach.startswith(("clock", "straight-on", "freezing", "raw"))
