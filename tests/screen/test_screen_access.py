"""The kitchen screen without a finger on it: with a keyboard, and read out."""

from __future__ import annotations

from playwright.sync_api import expect
from pressed_screen import Screen

_NAMELESS = """() => [...document.querySelectorAll(
  "button, a, input, summary, dialog, section, nav")]
  .filter((each) => !each.hidden && each.getClientRects().length)
  .filter((each) => !(each.textContent.trim() || each.getAttribute("aria-label")
    || each.getAttribute("aria-labelledby") || (each.labels && each.labels.length)))
  .map((each) => each.outerHTML)"""

_DANGLING = """() => [...document.querySelectorAll("[aria-labelledby], [aria-describedby]")]
  .flatMap((each) => [each.getAttribute("aria-labelledby"), each.getAttribute("aria-describedby")])
  .filter((id) => id && !document.getElementById(id))"""

_TWICE = """() => { const ids = [...document.querySelectorAll("[id]")].map((each) => each.id);
  return ids.filter((id, i) => ids.indexOf(id) !== i); }"""


def _tab_to(screen: Screen, name: str) -> None:
    for _ in range(40):
        screen.page.keyboard.press("Tab")
        said = "document.activeElement.ariaLabel || document.activeElement.textContent"
        if screen.page.evaluate(said) == name:
            return
    raise AssertionError(f"Tab never reaches {name!r}")


def test_a_task_is_done_with_tab_and_enter_and_the_focus_stays_for_the_next(
    screen: Screen,
) -> None:
    screen.wait(10)
    _tab_to(screen, "Done")
    screen.page.keyboard.press("Enter")
    expect(screen.cook("Ann").locator("h3").first).to_have_text("A Cube the chicken")
    expect(screen.cook("Ann").get_by_role("button", name="Done", exact=True)).to_be_focused()
    screen.wait(15)
    screen.page.keyboard.press("Space")
    expect(screen.cook("Ann").locator("h3").first).to_have_text("Wash and sanitize board and knife")


def test_the_focus_is_not_lost_when_a_timer_goes(screen: Screen) -> None:
    screen.follow_the_plan(40)
    done = screen.timer("Simmer the soup").get_by_role("button", name="Done")
    done.focus()
    screen.page.keyboard.press("Enter")
    assert screen.page.evaluate("document.activeElement.tagName") != "BODY"


def test_the_minute_does_not_take_the_focus_away(screen: Screen) -> None:
    screen.cook("Ben").get_by_role("button", name="5 more min").focus()
    screen.wait(3)
    expect(screen.cook("Ben").get_by_role("button", name="5 more min")).to_be_focused()


def test_the_panel_opens_closes_and_is_filled_in_by_keyboard_alone(screen: Screen) -> None:
    _tab_to(screen, "More about Clear the counters")
    screen.page.keyboard.press("Enter")
    dialog = screen.page.get_by_role("dialog", name="Clear the counters")
    expect(dialog).to_be_visible()
    screen.page.keyboard.press("Escape")
    expect(dialog).to_be_hidden()
    screen.page.keyboard.press("Enter")
    dialog.get_by_label("Needed").focus()
    screen.page.keyboard.press("Control+a")
    screen.page.keyboard.type("12")
    screen.page.keyboard.press("Enter")
    assert screen.times()["day/clear"] == [0, 22]


def test_regions_timers_and_live_parts_have_their_roles(screen: Screen) -> None:
    page = screen.page
    expect(page.get_by_role("heading", level=1)).to_have_text("Kitchen screen, Sat 16 Jan 2027")
    for name in ("Now and next", "Safe by", "For later"):
        expect(page.get_by_role("region", name=name)).to_be_visible()
    expect(page.get_by_role("main")).to_be_visible()
    expect(page.get_by_role("banner")).to_be_visible()
    expect(screen.cook("Ann").get_by_role("timer", name="time left")).to_be_visible()
    expect(page.get_by_role("button", name="Everyone")).to_have_attribute("aria-pressed", "true")
    expect(page.locator("[role=status][aria-live=polite]")).to_have_count(1)
    expect(page.locator("[role=alert]")).to_have_count(1)
    assert page.evaluate("document.documentElement.lang") == "en"


def test_the_done_button_says_what_it_is_for(screen: Screen) -> None:
    done = screen.cook("Ann").get_by_role("button", name="Done", exact=True)
    expect(done).to_have_accessible_description("Clear the counters")


def test_every_control_has_a_name_and_no_name_points_nowhere(screen: Screen) -> None:
    screen.follow_the_plan(40)
    screen.page.locator("#rest summary").click()
    screen.wait(80)
    assert screen.page.evaluate(_NAMELESS) == []
    assert screen.page.evaluate(_DANGLING) == []
    assert screen.page.evaluate(_TWICE) == []


def test_what_is_new_is_read_out_once(screen: Screen) -> None:
    screen.wait(10)
    screen.done("Ann")
    screen.wait(91)
    alert = screen.page.get_by_role("alert")
    expect(alert).to_contain_text("Chicken thigh: on the heat by 09:55")
    screen.page.evaluate("document.getElementById('called').textContent = ''")
    screen.wait(2)
    expect(alert).to_have_text("")
