"""What a label says, in order of need on the night, and how it is shortened on small stock."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from enum import IntEnum, auto
from typing import Final

from batchcook.foodsafety.thawing import ON_A_TRAY
from batchcook.metricwords import metric_words
from batchcook.plan import Container
from batchcook.wording import bound, day, degrees, short_day

__all__ = ["LabelWords", "Shortening", "label_words"]

_CAUTIONS: Final = (
    "Check with a thermometer. Follow current USDA FSIS guidance. "
    "The safety clock starts at thawing."
)
_SHORT_CAUTIONS: Final = "Check with a thermometer. Follow USDA FSIS guidance."


class Shortening(IntEnum):
    """How far a label is cut down; each step keeps what the steps before it gave up, given up.

    Directions go before cautions: these are only said in fewer words, on the smallest stock in
    the line with the temperature.
    """

    NOTHING = 0
    SHORT_CAUTIONS = auto()
    NO_SIZES_OR_NOTES = auto()
    SHORT_DATES = auto()
    FINISH_IN_FIGURES = auto()
    SHORT_WORDS = auto()
    NO_ADDITIONS = auto()
    NO_FINISH = auto()
    NO_NUMBER = auto()
    CAUTIONS_IN_THE_STATE = auto()
    NO_LINES_TO_WRITE_ON = auto()
    FEWEST_WORDS = auto()


@dataclass(frozen=True)
class LabelWords:
    """The texts of one label.

    Attributes:
        state: Raw or cooked, and the temperature to reach.
        night: Serves, and how it is thawed.
        finish: How it is finished, or empty.
        add: What is added on the night, or empty.
        dates: Captions with their dates; two where best by and use by are the same day.
        write: Captions of the lines to write on: the day it was moved and its last day, so many
            days later, thawing included. Empty where it is not thawed, or the days stand with
            how it is thawed.
        foot: Container n of m, allergens.
        small: The usual cautions in small print, or empty where the state line has them.
    """

    title: str
    code: str
    state: str
    night: str
    finish: str
    add: str
    dates: tuple[tuple[str, str], ...]
    write: tuple[str, ...]
    foot: str
    small: str


def label_words(container: Container, cut: Shortening) -> LabelWords:
    """What the label of a container says, shortened so far."""
    return LabelWords(
        title=container.title,
        code=container.code,
        state=_state(container, cut),
        night=_night(container, cut),
        finish=_finish(container, cut),
        add=_add(container, cut),
        dates=_dates(container, cut),
        write=_write(container) if cut < Shortening.NO_LINES_TO_WRITE_ON else (),
        foot=_foot(container, cut),
        small=_small(cut),
    )


def _small(cut: Shortening) -> str:
    if cut >= Shortening.CAUTIONS_IN_THE_STATE:
        return ""
    return _CAUTIONS if cut < Shortening.SHORT_CAUTIONS else _SHORT_CAUTIONS


def _state(container: Container, cut: Shortening) -> str:
    where = "" if cut >= Shortening.SHORT_WORDS else " in the center"
    if cut >= Shortening.CAUTIONS_IN_THE_STATE:
        where = " by thermometer"
    rest = f", rest {container.rest_minutes} min" if container.rest_minutes else ""
    if container.state == "raw-kit":
        cook = container.cook_to_degF
        to = f": COOK TO {_measured(container, f'{cook} degF')}" if cook else ""
        return degrees(f"RAW{to}{where if to else ''}{rest}")
    name = "PART-BAKED" if container.state == "part-baked" else "COOKED"
    heat = container.reheat_to_degF
    to = f": reheat to {_measured(container, f'{heat} degF')}" if heat else ""
    return degrees(f"{name}{to}{where if to else ''}{rest}")


def _measured(container: Container, text: str) -> str:
    """A text in the measures of the container's kitchen."""
    return metric_words(text) if container.system == "metric" else text


def _night(container: Container, cut: Shortening) -> str:
    days, keeps = _days(container.thaw_days), _keeps_thawed(container)
    if cut >= Shortening.FEWEST_WORDS and keeps is not None:
        return f"Serves {container.portions} · thaw {days}, {_verb(container)} in {_days(keeps)}"
    where = "" if cut >= Shortening.SHORT_WORDS else " in the refrigerator"
    if container.state == "raw-kit":
        where = f"{where}, {ON_A_TRAY}" if where else " on the lowest shelf"
    thaw = {
        "from-frozen": "cook from frozen",
        "refrigerator": f"thaw first, {days}{where}",
        "either": f"thaw {days}{where}, or from frozen",
    }.get(container.thaw, f"thaw {days}{where}")
    if cut >= Shortening.NO_LINES_TO_WRITE_ON and keeps is not None:
        thaw += f", then {_verb(container)} within {_days(keeps)}"
    return f"Serves {container.portions} · {thaw}"


def _verb(container: Container) -> str:
    """What must be done with it in time."""
    return "cook" if container.state == "raw-kit" else "eat"


def _write(container: Container) -> tuple[str, ...]:
    """The day it was moved, and its last day counted from then, as ``freezer thaw`` counts it."""
    keeps = _keeps_thawed(container)
    if keeps is None:
        return ()
    later = _days(container.thaw_days + keeps)
    return "To refrigerator", f"{_verb(container)} by ({later} later)"


def _keeps_thawed(container: Container) -> int | None:
    """Days it keeps once thawed; None where it is not thawed."""
    return None if container.thaw == "from-frozen" else container.keeps_thawed_days


def _days(count: int) -> str:
    return f"{count} day{'' if count == 1 else 's'}"


def _finish(container: Container, cut: Shortening) -> str:
    if cut >= Shortening.NO_FINISH:
        return ""
    figures = re.match(r"(Oven \d|\d+ min)[^.]*\.", container.finish)
    if cut >= Shortening.FINISH_IN_FIGURES:
        return degrees(figures[0]) if figures else ""
    return degrees(container.finish)


def _add(container: Container, cut: Shortening) -> str:
    if cut >= Shortening.NO_ADDITIONS or not container.add:
        return ""
    notes = cut < Shortening.NO_SIZES_OR_NOTES
    each = (
        f"{each.amount} ({each.note})" if notes and each.note else each.amount
        for each in container.add
    )
    return bound(f"Add: {'; '.join(each)}")


def _dates(container: Container, cut: Shortening) -> tuple[tuple[str, str], ...]:
    def said(on: date) -> str:
        return short_day(on) if cut >= Shortening.SHORT_DATES else day(on)

    packed = ("Packed", said(container.packed_on))
    if container.best_by == container.use_by:
        return packed, ("Best and use by (quality)", said(container.best_by))
    if cut >= Shortening.NO_LINES_TO_WRITE_ON:
        best = ("Quality: best by", said(container.best_by))
        return packed, best, ("use by", said(container.use_by))
    best = ("Best by (quality)", said(container.best_by))
    return packed, best, ("Use by (quality)", said(container.use_by))


def _foot(container: Container, cut: Shortening) -> str:
    known = ", ".join(container.allergens)
    told = [f"Contains {known}" if known else "No major allergens known"]
    if cut < Shortening.NO_SIZES_OR_NOTES:
        told.insert(0, _measured(container, container.holds))
    if cut < Shortening.NO_NUMBER:
        told.insert(0, f"{container.number} of {container.of}")
    return f"{' · '.join(told)}: check packages"
