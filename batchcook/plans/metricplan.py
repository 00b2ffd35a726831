"""A plan in the words of a metric kitchen."""

from __future__ import annotations

from typing import Final

from batchcook.metricwords import metric_words
from batchcook.plan import Plan

__all__ = ["in_measures_of", "in_own_measures"]

_WORDS: Final = frozenset(
    {
        *("title", "label", "words", "amounts", "amount", "note", "notes", "reason", "late"),
        *("day_before", "tonight", "morning_after", "cautions", "finish"),
    }
)
"""Fields that a cook reads; ids, names of resources and containers, and the order are none."""

_READ_PARTS: Final = (
    *("tasks", "shared", "deadlines", "lags", "containers", "cooling", "freezing", "day_before"),
    *("tonight", "morning_after", "cautions", "replanned", "notes"),
)


def in_own_measures(plan: Plan) -> Plan:
    """The plan with all that is read in the measures of its kitchen.

    What is worked out before is told in degF and inches; amounts follow the system of the day
    from the beginning.
    """
    if plan.system != "metric":
        return plan
    whole = plan.model_dump(by_alias=True)
    told = {name: _told(whole[name], read=name in _WORDS) for name in _READ_PARTS}
    return Plan.model_validate(whole | told)


def in_measures_of(plan: Plan, text: str) -> str:
    """A text about a plan in the measures of its kitchen."""
    return metric_words(text) if plan.system == "metric" else text


def _told(value: object, *, read: bool) -> object:
    """The value with its words retold; a string is words where the field it stands in is."""
    if isinstance(value, str):
        return metric_words(value) if read else value
    if isinstance(value, list | tuple):
        return [_told(each, read=read) for each in value]
    if isinstance(value, dict):
        return {
            name: _told(each, read=read or name in _WORDS or _is_amounts(name, each))
            for name, each in value.items()
        }
    return value


def _is_amounts(name: str, value: object) -> bool:
    """Whether it is what each dish gets from a task."""
    return name == "dishes" and isinstance(value, dict)
