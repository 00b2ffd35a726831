"""A kitchen screen as a test presses it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from playwright.sync_api import Locator, Page

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


def state_of(screen: Screen) -> dict[str, Any]:
    """What the page keeps."""
    found: dict[str, Any] = screen.page.evaluate("() => kitchenScreen.state()")
    return found
