"""What the live screen needs from outside: the time, the room, a way to plan anew."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

from batchcook.complaints import InputFault
from batchcook.day.order import ordered
from batchcook.day.solving import Effort, NoAnswer
from batchcook.kitchens.kitchen import default_kitchen
from batchcook.kitchens.written import parse_clock
from batchcook.plan import Plan
from batchcook.plans.progress import Mark, append_marks, read_marks, state_of
from batchcook.quantities import Quantity
from batchcook.replan.daysofar import as_planned, but_for
from batchcook.replan.driftwords import Words, drift_of
from batchcook.replan.replanfolder import write_replanned
from batchcook.replan.replanning import Drift, NoContinuation, replan
from batchcook.withheld import Withheld

__all__ = ["day_clock", "mark_as_planned", "plan_anew", "room_of"]

_SECONDS = 10.0


def room_of(plan: Plan) -> Quantity:
    """How warm the kitchen is; an ordinary one where the plan does not say."""
    return default_kitchen().room if plan.order is None else ordered(plan.order)[0].kitchen.room


def day_clock(plan: Plan, at: str = "") -> Callable[[], dt.datetime]:
    """The time of day, on the plan's day; past midnight it goes on.

    Counted from the instant of opening, so that a day that runs late does not begin again.

    Args:
        plan: The plan.
        at: The time to begin at, as though it were now; the real time where empty.

    Raises:
        InputFault: ``at`` is no time of day.
    """
    opened = _wall()
    if at:
        begun = dt.datetime.combine(plan.date, parse_clock(at, "--at"))
    elif _is_its_night(plan, opened):
        begun = opened.replace(tzinfo=None)
    else:
        begun = dt.datetime.combine(plan.date, opened.time())
    return lambda: begun + (_wall() - opened)


def _wall() -> dt.datetime:
    """The real time; a name of its own so that a test can set it."""
    return dt.datetime.now().astimezone()


def _is_its_night(plan: Plan, now: dt.datetime) -> bool:
    """Whether it is past midnight after the plan's day, before work began on that."""
    return now.date() == plan.date + dt.timedelta(days=1) and now.time() < plan.start.time()


def mark_as_planned(plan: Plan, folder: Path, now: dt.datetime) -> None:
    """Mark everything that nothing was marked of as gone to the minute until now.

    Raises:
        InputFault: The folder cannot be written.
    """
    marked = state_of(read_marks(folder, plan.date))
    state = but_for(plan, as_planned(plan, now), marked)
    starts = [Mark("start", at, name, supposed=True) for name, at in state.started.items()]
    ends = [Mark("done", at, name, supposed=True) for name, at in state.ended.items()]
    known = {*(("start", name) for name in marked.started)}
    known |= {("done", name) for name in marked.ended}
    append_marks(folder, [each for each in starts + ends if (each.kind, each.task) not in known])


def plan_anew(plan: Plan, folder: Path, words: str, now: dt.datetime) -> str:
    """Plan the rest of the day anew and write it; says in a line what came of it.

    Args:
        plan: The plan so far.
        folder: Its folder.
        words: What changed: ``cook=NAME``, ``drop DISH``, or a resource as ``burner=1``.
        now: The instant.
    """
    from batchcook.documents.render import PdfUnavailable  # noqa: PLC0415 - loads jinja2

    parts = words.replace(",", " ").split()
    drops = [name for before, name in pairwise(parts) if before == "drop"]
    without = [part for part in parts if "=" in part]
    try:
        drift, _ = drift_of(plan, folder, Words(f"{now:%H:%M}", (), (), without, drops))
        state = state_of(read_marks(folder, plan.date))
        after = replan(
            plan, Drift(drift.at, state, drift.without, drift.cooks, drift.drop), Effort(_SECONDS)
        )
        write_replanned(folder, folder, plan, after, (), "")
    except InputFault as fault:
        return f"Not planned anew: {fault}"
    except NoContinuation as none:
        help_ = f" Without {' or '.join(none.without)} it can be done." if none.without else ""
        return " ".join(["Not possible:", "; ".join(none.why) + ".", *none.what_to_do]) + help_
    except Withheld as fault:
        return f"{fault.told} Until then go on as it is."
    except NoAnswer:
        return "Nothing was found in time; go on as it is, or drop a dish."
    except PdfUnavailable as missing:
        return str(missing)
    told = after.replanned
    changes = "" if told is None else f", {len(told.changes)} changes"
    late = "" if told is None else " ".join(["", *told.late, *told.notes])
    return f"Planned anew: done at {after.finish:%H:%M}{changes}.{late}"
