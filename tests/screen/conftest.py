"""A kitchen screen in a real browser, at a clock that the test turns."""

from __future__ import annotations

import datetime as dt
import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from counter_day import counter_day
from playwright.sync_api import Browser, sync_playwright
from pressed_screen import SIZES, Screen

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
OscillatorNode.prototype.start = function (...when) {
  window.rings += 1;
  return start.apply(this, when);
};
"""


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    chromium = shutil.which("chromium") or shutil.which("chromium-browser")
    if chromium is None and os.environ.get("CI"):
        pytest.fail("CI installs Chromium, and it is not there")
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
