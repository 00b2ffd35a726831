"""The run sheet: the day at a glance, the day before, a column for each cook, what follows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil
from typing import Final

from batchcook.documents.columns import Column, columns
from batchcook.documents.dishkeys import DishKey, dish_keys
from batchcook.documents.environment import render
from batchcook.documents.pages import paged
from batchcook.documents.pdf import Paper, check_paper, to_pdf
from batchcook.documents.picture import Picture, picture
from batchcook.documents.textwidth import wrap
from batchcook.foodsafety.thawing import ON_A_TRAY
from batchcook.pacing.surewords import often_lost_lines, sure_lines
from batchcook.plan import Container, Plan

__all__ = ["run_sheet_html", "run_sheet_pdf"]

_COLUMNS_A_PAGE: Final = 3
_UPRIGHT: Final = 2
_LONGEST_BAR: Final = 150.0
_FIRST_PAGE: Final[Mapping[Paper, float]] = {"letter": 712.0, "a4": 760.0}
_GLANCE: Final = 160.0
_BESIDE_FIGURES: Final = 290.0
"""Width in points."""

_LOWEST_PICTURE, _HIGHEST_PICTURE = 300.0, 520.0
"""Heights in points."""

_CROWDED: Final = 0.33
"""Share of the jobs without words from which on the picture gets the page for itself: a choice of
ours."""


def run_sheet_html(plan: Plan, paper: Paper = "letter") -> str:
    """The run sheet as one page of HTML that needs nothing else.

    Args:
        plan: The day.
        paper: What it is printed on, if it is.
    """
    cooks = columns(plan)
    wide = len(cooks) > _UPRIGHT
    keys = dish_keys(plan.dishes)
    drawn, read_before = _picture(plan, cooks, keys, paper)
    groups = [
        cooks[first : first + _COLUMNS_A_PAGE] for first in range(0, len(cooks), _COLUMNS_A_PAGE)
    ]
    return render(
        "run-sheet.html",
        plan=plan,
        keys=keys,
        picture=drawn,
        read_before=read_before,
        cooks=cooks,
        groups=[(group, paged(group, wide=wide, paper=paper)) for group in groups],
        wide=wide,
        glance=_glance(plan),
        sure=sure_lines(plan),
        often_lost=often_lost_lines(plan),
        bars=_bars(plan),
        later=_later(plan),
        cooled=_said_once({each.dish: each.reason for each in plan.cooling}),
    )


def run_sheet_pdf(plan: Plan, paper: str = "letter", *, html: str | None = None) -> bytes:
    """The run sheet as PDF.

    Args:
        plan: The day.
        paper: letter or a4.
        html: The page, where it is made already.

    Raises:
        InputFault: There is no such paper.
        PdfUnavailable: Pango is missing.
    """
    size = check_paper(paper)
    return to_pdf(html or run_sheet_html(plan, size), size, created=plan.date)


@dataclass(frozen=True)
class _Said:
    """What holds alike for several dishes, said once."""

    dishes: tuple[str, ...]
    words: str


def _said_once(words: Mapping[str, str]) -> list[_Said]:
    """Dishes of equal words together, in order of the first of each."""
    found: dict[str, tuple[str, ...]] = {}
    for dish, text in words.items():
        found[text] = (*found.get(text, ()), dish)
    return [_Said(dishes, text) for text, dishes in found.items()]


def _later(plan: Plan) -> list[_Said]:
    """How to thaw each dish, the quick way for the forgetful, and whether it freezes twice."""
    words: dict[str, str] = {}
    for each in plan.containers:
        words.setdefault(each.dish, _thaw_words(each))
    return _said_once(words)


def _thaw_words(container: Container) -> str:
    """The ways out of the freezer that a container has."""
    lines = []
    if container.thaw != "from-frozen":
        days = f"{container.thaw_days} day{'' if container.thaw_days == 1 else 's'}"
        where = f", {ON_A_TRAY}" if container.state == "raw-kit" else ""
        lines.append(f"In the refrigerator {days} ahead{where}.")
        if container.cold_water_minutes is not None and container.cold_water_in:
            minutes = 5 * ceil(container.cold_water_minutes / 5)
            lines.append(
                f"Forgotten: in cold water, {container.cold_water_in}, the water changed every 30 "
                f"min, about {minutes} min, and cooked at once."
            )
    if container.from_frozen:
        takes = f" in {container.from_frozen_takes}" if container.from_frozen_takes else ""
        lines.append(f"Straight from the freezer{takes}; no slow cooker.")
    return " ".join([*lines, *(text for text in (container.note, container.refreeze) if text)])


def _bars(plan: Plan) -> dict[str, float]:
    """For each change in the kitchen, how long its bar is in points."""
    most = max((abs(each.minutes or 0) for each in plan.what_if), default=0) or 1
    return {each.change: _LONGEST_BAR * abs(each.minutes or 0) / most for each in plan.what_if}


def _picture(
    plan: Plan, cooks: Sequence[Column], keys: Mapping[str, DishKey], paper: Paper
) -> tuple[Picture, bool]:
    """The picture as high as the first page leaves it, notes above and the day before below it.

    Returns:
        The picture, and whether the day before begins a page of its own, since below a picture of
        so many short jobs nothing else has room.
    """
    lines = sum(len(wrap(each, 500.0, 10.0)) for each in plan.day_before)
    before = 32.0 + 13.0 * lines + 3.0 * len(plan.day_before) if lines else 0.0
    noted = sum(len(wrap(each, 500.0, 10.0)) for each in plan.notes)
    above = 28.0 + 13.0 * noted + 1.5 * len(plan.notes) if noted else 0.0
    warned = sum(len(wrap(each, 500.0, 12.0, bold=True)) for each in often_lost_lines(plan))
    above += 14.0 + 16.0 * warned if warned else 0.0
    sure = sum(len(wrap(each, _BESIDE_FIGURES, 11.0)) for each in sure_lines(plan))
    glance = max(_GLANCE, 16.5 * (len(plan.dishes) + sure) + 16.0)
    room = _FIRST_PAGE[paper] - glance - above
    whole, beside = (
        picture(plan, cooks, keys, min(_HIGHEST_PICTURE, max(_LOWEST_PICTURE, height)))
        for height in (room, room - before)
    )
    crowded = before > 0 and beside.untold > _CROWDED
    return (whole, True) if crowded else (beside, False)


@dataclass(frozen=True)
class _Glance:
    """The day in a few figures, minutes throughout."""

    length: int
    saved: int
    longer_at_most: int


def _glance(plan: Plan) -> _Glance:
    summary = plan.summary
    length = int((plan.finish - plan.start).total_seconds() // 60)
    slack = 0 if summary.proved_shortest else summary.makespan_minutes - summary.best_bound_minutes
    apart = summary.one_after_another_minutes
    return _Glance(
        length=length,
        saved=0 if apart is None else max(0, apart - summary.makespan_minutes),
        longer_at_most=slack,
    )
