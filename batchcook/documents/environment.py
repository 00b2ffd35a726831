"""The templates, and what they may call."""

from __future__ import annotations

from functools import cache

from jinja2 import Environment, PackageLoader, StrictUndefined

from batchcook.buying.linewords import food_words
from batchcook.documents.textwidth import FONTS, SVG_FONTS
from batchcook.wording import (
    bound,
    change_notes,
    change_words,
    clock,
    day,
    day_of_month,
    degrees,
    hours,
    short_day,
    with_time,
)

__all__ = ["render"]


def render(template: str, **values: object) -> str:
    """A template filled in; values are escaped, and a missing one is an error."""
    return _environment().get_template(template).render(values)


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=PackageLoader("batchcook.documents"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.globals["fonts"] = FONTS
    environment.globals["svg_fonts"] = SVG_FONTS
    environment.filters |= {
        "bound": bound,
        "change": change_words,
        "change_notes": change_notes,
        "clock": clock,
        "day": day,
        "day_of_month": day_of_month,
        "short_day": short_day,
        "hours": hours,
        "degrees": degrees,
        "food_words": food_words,
        "with_time": with_time,
    }
    return environment
