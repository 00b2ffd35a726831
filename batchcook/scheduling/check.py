"""Re-verifies a schedule, minute by minute, in plain Python; shares no code with the solver.

Each rule is a small function that returns what breaks it, as values, so that all are shown.
"""

from __future__ import annotations

from batchcook.scheduling.breach import Breach
from batchcook.scheduling.check_choices import (
    choices_are_taken,
    conditions_hold,
    modes_are_open,
    names_are_known,
)
from batchcook.scheduling.check_resources import (
    capacities_suffice,
    occupancies_end,
    units_are_named,
    units_serve_once,
)
from batchcook.scheduling.check_settings import settings_agree, warm_ups_fit, warmth_is_there
from batchcook.scheduling.check_times import (
    budgets_hold,
    lags_hold,
    runs_are_tight,
    times_add_up,
    windows_hold,
)
from batchcook.scheduling.problem import Problem
from batchcook.scheduling.schedule import Schedule

__all__ = ["Breach", "check"]

_RULES = (
    choices_are_taken,
    conditions_hold,
    modes_are_open,
    times_add_up,
    runs_are_tight,
    windows_hold,
    lags_hold,
    budgets_hold,
    occupancies_end,
    capacities_suffice,
    units_are_named,
    units_serve_once,
    settings_agree,
    warm_ups_fit,
    warmth_is_there,
)


def check(problem: Problem, schedule: Schedule) -> list[Breach]:
    """Every breach of every rule; an empty list where the schedule is sound.

    Args:
        problem: What was to be scheduled.
        schedule: A schedule from anywhere.

    Returns:
        The breaches, rule by rule. Where names are unknown only those are reported, since the
        other rules cannot be read then.
    """
    unknown = list(names_are_known(problem, schedule))
    if unknown:
        return unknown
    return [breach for rule in _RULES for breach in rule(problem, schedule)]
