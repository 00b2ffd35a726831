"""A kitchen screen in a real browser, at a clock that the test turns."""

from __future__ import annotations

import datetime as dt
import shutil
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from counter_day import counter_day
from playwright.sync_api import Browser, Locator, Page, sync_playwright

from batchcook.documents.kitchenscreen import kitchen_screen_html
from batchcook.plan import Plan

_FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
_HERE = dt.timezone(dt.timedelta(hours=-6))
"""January in Chicago."""

_COUNT_RINGS = """
window.rings = 0;
const start = OscillatorNode.prototype.start;
OscillatorNode.prototype.start = function (...when) { window.rings += 1; return start.apply(this, when); };
"""

SIZES = {"phone": (390, 844), "tablet": (1024, 768)}


_SWITCHED_ON = 30
_OVEN = "Turn the oven to 375"
_AS_PLANNED = (
    (10, "Ann"),
    (15, "Ben"),
    (25, "Ann"),
    (25, "Ben"),
    (27, "Ben"),
    (30, "Ann"),
    (_SWITCHED_ON, _OVEN),
    (40, "Ann"),
    (42, _OVEN),
    (42, "Ben"),
    (70, "Simmer the soup"),
    (72, "Bake the pie"),
    (75, "Ann"),
    (75, "Ben"),
    (85, "Ben"),
    (90, "Ann"),
)


@dataclass
class Screen:
    """A page that shows a kitchen screen, and what went wrong on it.

    Attributes:
        faults: What the page complained of.
        asked_for: Addresses that it asked for besides its own.
    """

    page: Page
    faults: list[str]
    asked_for: list[str]

    def begin(self) -> None:
        """Press the first button of the day."""
        self.page.get_by_role("button", name="Begin the day").click()

    def wait(self, minutes: float) -> None:
        """Let time pass."""
        self.page.clock.run_for(round(minutes * 60_000))

    def cook(self, name: str) -> Locator:
        """What stands on the screen for a cook."""
        return self.page.get_by_role("article", name=name, exact=True)

    def done(self, name: str) -> None:
        """Mark what a cook is at as done; a moment later, as a second press at once is ignored."""
        self.cook(name).get_by_role("button", name="Done", exact=True).click()
        self.page.clock.run_for(1000)

    def follow_the_plan(self, until: int) -> None:
        """Mark everything of the short day as done at its minute, up to one."""
        for minute, what in _AS_PLANNED:
            if minute > until:
                return
            self.wait(minute - self.page.evaluate("kitchenScreen.minuteNow()"))
            if what in {"Ann", "Ben"}:
                self.done(what)
            elif minute == _SWITCHED_ON:
                self.page.get_by_role("button", name="It is on").click()
            else:
                self.timer(what).get_by_role("button", name="Done").click()
                self.page.clock.run_for(1000)

    def timer(self, title: str) -> Locator:
        """The card of something that cooks by itself."""
        return self.page.locator("#timers").get_by_role("article", name=title)

    def times(self) -> dict[str, list[int]]:
        """Start and end of every task as the page has it, in minutes."""
        found: dict[str, list[int]] = self.page.evaluate(
            "() => { const k = kitchenScreen; const times = k.timesAt(k.minuteNow());"
            " return Object.fromEntries(k.day.tasks.map((t, i) => [t.id, times[i]])); }"
        )
        return found


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    chromium = shutil.which("chromium") or shutil.which("chromium-browser")
    if chromium is None:
        pytest.skip("the kitchen screen is pressed in Chromium, which is not installed")
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=chromium, args=list(_FLAGS))
        yield opened
        opened.close()


@pytest.fixture
def shown(browser: Browser, tmp_path: Path) -> Iterator[Callable[..., Screen]]:
    """Shows a plan, on a phone or tablet, at some minute of its date."""
    contexts = []

    def show(plan: Plan | None = None, size: str = "tablet", minute: int = 0) -> Screen:
        width, height = SIZES[size]
        context = browser.new_context(
            viewport={"width": width, "height": height},
            timezone_id="America/Chicago",
            has_touch=True,
            accept_downloads=True,
        )
        contexts.append(context)
        context.add_init_script(_COUNT_RINGS)
        context.set_default_timeout(4000)
        page = context.new_page()
        screen = Screen(page, [], [])
        page.on("pageerror", lambda fault: screen.faults.append(str(fault)))
        page.on("console", lambda said: screen.faults.append(said.text))
        page.on("request", lambda asked: screen.asked_for.append(asked.url))
        day = plan or counter_day()
        opened = day.start.replace(tzinfo=_HERE) + dt.timedelta(minutes=minute)
        page.clock.install(time=opened)
        page.clock.pause_at(opened + dt.timedelta(seconds=1))
        file = tmp_path / "kitchen-screen.html"
        file.write_text(kitchen_screen_html(day), "utf-8")
        page.goto(file.as_uri())
        page.wait_for_selector("html[data-ready]")
        return screen

    yield show
    for context in contexts:
        context.close()


@pytest.fixture
def screen(shown: Callable[..., Screen]) -> Iterator[Screen]:
    """The short day on a tablet, begun; nothing may go wrong on it."""
    opened = shown()
    opened.begin()
    yield opened
    assert opened.faults == []


def state_of(screen: Screen) -> dict[str, Any]:
    """What the page keeps."""
    found: dict[str, Any] = screen.page.evaluate("() => kitchenScreen.state()")
    return found
