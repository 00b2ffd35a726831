"""How sure the finish is on the kitchen screen, beside what plan, paper and terminal say."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import pytest
from counter_day import at, counter_day
from playwright.sync_api import expect
from pressed_screen import Screen

from batchcook.follow.following import Following
from batchcook.pacing.surewords import sure_words
from batchcook.plan import AtRisk, Plan, Replanned, Sureness, read_plan
from batchcook.plans.network import minute_of
from batchcook.plans.progress import Mark

SAMPLE = Path(__file__).parents[2] / "output_samples" / "prep-day"

APART = 3
"""Minutes that 500 days of one source of chance and 10,000 of another may differ by, at nine of
ten: some two standard errors of the fewer."""


def _likely(screen: Screen) -> tuple[float, float]:
    half, most = screen.page.evaluate(
        "() => { const f = kitchenScreen.finishesFrom(kitchenScreen.minuteNow());"
        " return [f[249], f[449]]; }"
    )
    return half, most


def _told(plan: Plan, marks: list[Mark], now: datetime) -> tuple[float, float]:
    sure = Following(plan, marks, now).sure()
    return minute_of(plan, sure.half), minute_of(plan, sure.nine_of_ten)


def _is_close(seen: tuple[float, float], told: tuple[float, float]) -> bool:
    """Whether they agree; what is told is rounded up to five minutes."""
    return all(-APART <= said - found <= 5 + APART for found, said in zip(seen, told, strict=True))


@pytest.mark.parametrize("day", [counter_day(), read_plan(SAMPLE)], ids=["short", "sample"])
def test_it_is_as_sure_as_paper_and_terminal_are(shown: Callable[..., Screen], day: Plan) -> None:
    screen = shown(day)
    screen.begin()
    assert _is_close(_likely(screen), _told(day, [], day.start))


def test_it_moves_with_what_is_marked_and_with_the_clock(shown: Callable[..., Screen]) -> None:
    day = counter_day()
    screen = shown(day)
    screen.begin()
    screen.wait(1)
    line = screen.page.locator("#likely")
    first = line.text_content() or ""
    assert re.fullmatch(
        r"From here on: done by 09:\d\d in (half of all days, by 09:\d\d in nine of ten|"
        r"nine of ten days)\.",
        first,
    )
    screen.wait(39)
    marks = [Mark("start", at(0), "day/clear"), Mark("start", at(0), "soup/onion")]
    assert _is_close(_likely(screen), _told(day, marks, at(40)))
    assert line.text_content() != first


def test_it_says_nothing_more_once_all_is_done(screen: Screen) -> None:
    screen.follow_the_plan(90)
    expect(screen.page.locator("#likely")).to_be_hidden()


def test_before_the_day_begins_it_is_told_as_on_paper(shown: Callable[..., Screen]) -> None:
    sure = Sureness(
        half=at(95),
        nine_of_ten=at(110),
        at_risk=(
            AtRisk(dish="chicken-soup", words="Chicken soup: thigh out too long", share=0.04),
        ),
    )
    screen = shown(counter_day().model_copy(update={"sure": sure, "notes": ("Less salt.",)}))
    start = screen.page.locator("#start")
    expect(start).to_contain_text(sure_words(sure)[1:])
    expect(start).to_contain_text("Watch Chicken soup: thigh out too long on 4 days of 100.")
    expect(start).to_contain_text("Less salt.")
    expect(screen.page.locator("#likely")).to_be_hidden()


def test_dinner_and_the_days_after_stand_there_for_later(shown: Callable[..., Screen]) -> None:
    told = {"tonight": "Tonight: keep 4 portions of soup.", "morning_after": ("Stack it.",)}
    screen = shown(counter_day().model_copy(update=told))
    later = screen.page.get_by_role("region", name="For later")
    expect(later).to_contain_text("Tonight: keep 4 portions of soup.")
    expect(later).to_contain_text("Stack it.")


def test_what_a_new_plan_says_of_food_stands_on_top(shown: Callable[..., Screen]) -> None:
    anew = Replanned(
        at=at(20), finish_before=at(90), notes=("Without Ben.",), late=("Chicken: throw it out.",)
    )
    screen = shown(counter_day().model_copy(update={"replanned": anew}), minute=21)
    box = screen.page.get_by_role("region", name="Planned anew at 08:20")
    expect(box).to_contain_text("Chicken: throw it out.")
    expect(box).to_contain_text("Without Ben.")
    assert screen.faults == []
