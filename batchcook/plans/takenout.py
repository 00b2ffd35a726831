"""When what cooks by itself is done, which for a bake is before its oven is free."""

from __future__ import annotations

from datetime import datetime

from batchcook.plan import Plan, Task

__all__ = ["done_at"]


def done_at(plan: Plan, task: Task) -> datetime:
    """The minute at which to be there: the end of a task, or when a bake is taken out.

    A bake keeps its oven until it is out and its center is checked; taking it out is the task by
    hand that waits so long from the bake's start.
    """
    if task.station != "oven" or task.cook is not None:
        return task.end
    after = {
        lag.after
        for lag in plan.lags
        if (lag.before, lag.from_) == (task.id, "start") and lag.max_minutes
    }
    outs = [each.start for each in plan.tasks if each.id in after and each.cook is not None]
    return min([task.end, *outs])
