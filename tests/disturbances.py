"""Days that go wrong in ways drawn from a seed, planned anew, and looked over."""

from __future__ import annotations

import datetime as dt
import json
import random

from oracle_of_food import clock, straight_on
from plan_oracle import breaches
from retimed import retimed_plan

from batchcook.complaints import InputFault
from batchcook.day.solving import Effort, NoAnswer
from batchcook.follow.following import Following
from batchcook.follow.worries import worries
from batchcook.plan import Plan, write_plan
from batchcook.plans.network import minute_of, network_of_plan
from batchcook.plans.progress import DayState, Mark
from batchcook.quantities import Quantity, ureg
from batchcook.replan.daysofar import so_far
from batchcook.replan.foodrescue import food_out, past_events
from batchcook.replan.replanning import Drift, NoContinuation, replan
from batchcook.scheduling.retiming import retime

__all__ = ["broken", "disturbed", "drifted", "followed", "held_up", "untold"]

_ORDINARY = 120
"""Minutes that food may be out in a kitchen that is not hot."""

_SCATTERS = (0.2, 0.6)
"""How much jobs differ from their planned length: on a good day, and on a bad one."""

_CHANGES = ("drifted only", "a cook leaves", "a burner less", "a dish less", "held up")


def drifted(plan: Plan, rng: random.Random) -> tuple[DayState, dt.datetime]:
    """A day that went along in the plan's order, each task shorter or longer, up to some minute."""
    network = network_of_plan(plan)
    scatter = rng.choice(_SCATTERS)
    lasting = {
        name: max(1, round(step.minutes * rng.lognormvariate(0.0, scatter)))
        for name, step in network.steps.items()
        if step.minutes > 0
    }
    times = retime(network, lasting, as_scheduled=True)
    last = min(max(end for _, end in times.values()), _minutes_left(plan))
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


def _minutes_left(plan: Plan) -> int:
    """Minutes from the start of a plan to midnight, when nothing is planned anew any more."""
    midnight = dt.datetime.combine(plan.date, dt.time(23, 59))
    return int((midnight - plan.start).total_seconds() // 60)


def held_up(rng: random.Random) -> dt.timedelta:
    """How long nothing goes on."""
    return dt.timedelta(minutes=rng.randint(20, 120))


def broken(following: Following, limit: int) -> list[str]:
    """Limits of food that a day breaks as it is timed now.

    The times are replayed by the second checker, which knows only what happens to each food.
    """
    late = json.loads(write_plan(retimed_plan(following.plan, following.times)))
    return [*clock(late, limit), *straight_on(late)]


def untold(following: Following, limit: int) -> list[str]:
    """Those of them of which the screen says nothing."""
    plan = following.plan
    said = worries(following, _room(limit)).plain
    out = food_out(past_events(plan, following.far, following.now), following.now, _room(limit))
    lost = {each.dish for each in out if each.lost}
    told = {
        dish.id
        for dish in plan.dishes
        if dish.title in said or dish.id in lost or _mentioned(plan, dish.id, said)
    }
    return [
        f"timed anew at {following.now:%H:%M}, and not told: {each}"
        for each in broken(following, limit)
        if not any(f" of {dish}" in each for dish in told)
    ]


def followed(plan: Plan, state: DayState, at: dt.datetime) -> Following:
    """The day as the screen follows it."""
    marks = [Mark("start", when, name) for name, when in state.started.items()]
    marks += [Mark("done", when, name) for name, when in state.ended.items()]
    return Following(plan, marks, at)


def _mentioned(plan: Plan, dish: str, said: str) -> bool:
    """Whether what is said names a job of a dish."""
    return any(task.title in said for task in plan.tasks if dish in task.dishes)


def _room(limit: int) -> Quantity:
    """A kitchen in which food may be out for so many minutes."""
    return ureg.Quantity(95 if limit < _ORDINARY else 72, "degF")


def disturbed(plan: Plan, seed: int, seconds: float, limit: int) -> tuple[str, list[str]]:
    """Disturb a day, time it anew as it goes on, and plan the rest anew.

    Returns:
        How it ended, with what was changed; and what is wrong with the outcome.
    """
    rng = random.Random(seed)  # noqa: S311 - a mishap, not a secret
    state, at = drifted(plan, rng)
    change = rng.choice(_CHANGES)
    if change == "held up":  # a long call at the door: whatever was out goes on being out
        at = min(at + held_up(rng), plan.start + dt.timedelta(minutes=_minutes_left(plan)))
    drift = Drift(
        at,
        state,
        without={"burner": 1} if change == "a burner less" else {},
        cooks=(rng.choice(plan.cooks).id,) if change == "a cook leaves" else (),
        drop=(rng.choice(plan.dishes).id,)
        if change == "a dish less" and len(plan.dishes) > 1
        else (),
    )
    found = untold(followed(plan, state, at), limit)
    try:
        after = replan(plan, drift, Effort(seconds))
    except NoContinuation as none:
        return f"refused, {change}", [*found, *([] if none.why else ["refused without a word"])]
    except NoAnswer:
        return f"no answer, {change}", found
    except InputFault as fault:
        said = [str(each) for each in fault.complaints]
        return f"fault, {change}", [*found, *(x for x in said if "packed already" not in x)]
    return f"planned, {change}", [*found, *_wrong(plan, after, drift, limit)]


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
    over = [name for name, stand in far.stands.items() if stand.over]
    food = [
        each
        for each in breaches(json.loads(write_plan(after)), limit)
        # A cook who was called away from the raw board washes it first thing after.
        if _of_food(each) and not (each.startswith("raw") and any(name in each for name in over))
    ]
    if food and (told is None or not told.late):
        found += food
    if minute_of(after, after.finish) <= 0:
        found.append("over before it began")
    return found


def _of_food(breach: str) -> bool:
    """Whether a breach is of what happens to food; the past may be out of step in other ways."""
    return breach.startswith(("clock", "straight-on", "freezing", "raw"))
