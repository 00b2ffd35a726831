"""The kitchen screen as a cook presses it, on a phone and on a tablet."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from datetime import datetime
from pathlib import Path

import pytest
from counter_day import at, counter_day
from playwright.sync_api import expect
from pressed_screen import Screen, state_of

from batchcook.documents.kitchenscreen import kitchen_screen_html
from batchcook.plan import Plan, Replanned, read_plan
from batchcook.plans.progress import Mark
from batchcook.plans.progress import state_of as marked

SAMPLE = Path(__file__).parents[2] / "output_samples" / "prep-day"

GREYS = """() => [...document.querySelectorAll("body *")].flatMap((each) => {
  const style = getComputedStyle(each);
  return ["color", "backgroundColor", "borderTopColor", "outlineColor"].map((name) => style[name]);
}).filter((color) => {
  const [red, green, blue] = color.match(/[\\d.]+/g).map(Number);
  return red !== green || green !== blue;
})"""


@pytest.fixture(params=["phone", "tablet"])
def pressed(request: pytest.FixtureRequest, shown: Callable[..., Screen]) -> Iterator[Screen]:
    opened = shown(size=request.param)
    opened.begin()
    yield opened
    assert opened.faults == []


def test_each_cook_sees_what_is_now_and_what_is_next(pressed: Screen) -> None:
    ann, ben = pressed.cook("Ann"), pressed.cook("Ben")
    expect(ann.locator("h3").first).to_have_text("Clear the counters")
    expect(ann.get_by_role("timer")).to_have_text("9:59 min")
    expect(ann.locator(".next li").first).to_contain_text("08:10")
    expect(ann.locator(".next li").first).to_contain_text("Cube the chicken, raw bowl")
    expect(ben.locator("h3").first).to_have_text("A Dice onions")
    expect(ben.locator(".amounts")).to_have_text("2\u00a0cups")
    expect(ben.locator(".bowl")).to_have_text("Into the soup bowl")
    expect(ben.locator(".words").first).to_be_hidden()
    expect(ben).to_contain_text("1 of 2 done together")


def test_the_time_left_counts_down_and_then_says_how_far_over(screen: Screen) -> None:
    left = screen.cook("Ann").get_by_role("timer")
    screen.wait(4)
    expect(left).to_have_text("5:59 min")
    screen.wait(9)
    expect(left).to_have_text("3 min over")
    expect(screen.cook("Ann")).to_contain_text("since 08:10")


def test_done_brings_up_the_next_task_and_says_so(pressed: Screen) -> None:
    pressed.wait(10)
    pressed.done("Ann")
    expect(pressed.cook("Ann").locator("h3").first).to_have_text("A Cube the chicken")
    expect(pressed.page.get_by_role("status")).to_have_text("Done: Clear the counters")
    expect(pressed.page.locator("#finish")).to_have_text("Done about 09:30, as planned")


def test_a_second_press_at_once_does_not_mark_what_came_up_under_it(screen: Screen) -> None:
    screen.wait(10)
    screen.cook("Ann").get_by_role("button", name="Done", exact=True).dblclick()
    expect(screen.cook("Ann").locator("h3").first).to_have_text("A Cube the chicken")


def test_a_late_day_says_by_how_much(screen: Screen) -> None:
    screen.wait(22)
    screen.done("Ann")
    expect(screen.page.locator("#finish")).to_have_text("Done about 09:42, 12 min late")


def test_undo_takes_the_last_press_back(screen: Screen) -> None:
    screen.wait(10)
    screen.done("Ann")
    screen.page.get_by_role("button", name="Undo: Done: Clear the counters").click()
    expect(screen.cook("Ann").locator("h3").first).to_have_text("Clear the counters")
    assert "0" not in state_of(screen)["ended"]


def test_progress_and_notes_survive_a_reload(pressed: Screen) -> None:
    pressed.wait(12)
    pressed.done("Ann")
    pressed.cook("Ben").get_by_role("button", name="5 more min").click()
    before, times = state_of(pressed), pressed.times()
    pressed.page.reload()
    pressed.page.wait_for_selector("html[data-ready]")
    assert state_of(pressed) == before
    assert pressed.times() == times
    expect(pressed.cook("Ann").locator("h3").first).to_have_text("A Cube the chicken")
    expect(pressed.page.locator("#notes")).to_contain_text("Dice onions: needed 5 more minutes")


def test_another_plan_does_not_find_the_progress_of_this_one(
    shown: Callable[..., Screen],
) -> None:
    one = shown()
    one.begin()
    other = counter_day().model_copy(update={"cautions": ("Another.",)})
    text = kitchen_screen_html(other)
    one.page.evaluate(
        "(text) => { document.open(); document.write(text); document.close(); }", text
    )
    expect(one.page.get_by_role("button", name="Begin the day")).to_be_visible()


def test_what_cooks_by_itself_gets_a_timer_that_rings_until_answered(pressed: Screen) -> None:
    pressed.follow_the_plan(42)
    simmer = pressed.timer("Simmer the soup")
    expect(simmer.get_by_role("timer")).to_have_text("27 min")
    expect(pressed.page.get_by_role("link", name="Simmer the soup")).to_be_visible()
    pressed.wait(27.5)
    pressed.page.evaluate("() => { window.rings = 0; }")
    pressed.wait(1)
    assert pressed.page.evaluate("window.rings") >= 3
    expect(pressed.page.get_by_role("alert")).to_contain_text("Time is up: Simmer the soup")
    expect(simmer).to_contain_text("Ann: look whether it is done.")
    simmer.get_by_role("button", name="Silence").click()
    pressed.page.evaluate("() => { window.rings = 0; }")
    pressed.wait(0.5)
    assert pressed.page.evaluate("window.rings") == 0
    simmer.get_by_role("button", name="Done").click()
    expect(pressed.cook("Ann").locator("h3").first).to_have_text("A Season the soup")


def test_more_minutes_for_a_pot_move_what_waits_for_it(screen: Screen) -> None:
    screen.follow_the_plan(40)
    before = screen.times()["soup/season"][0]
    screen.timer("Simmer the soup").get_by_role("button", name="5 more min").click()
    assert screen.times()["soup/season"][0] == before + 5


def test_the_oven_is_asked_for_and_waits_until_it_is_on(screen: Screen) -> None:
    screen.follow_the_plan(29)
    screen.wait(3)
    screen.done("Ann")
    card = screen.page.get_by_role("article", name="Turn the oven to 375\u00a0°F")
    expect(card).to_be_visible()
    assert "oven/to-375" not in [
        screen.page.evaluate("(i) => kitchenScreen.day.tasks[i].id", int(name))
        for name in state_of(screen)["started"]
    ]
    card.get_by_role("button", name="It is on").click()
    expect(screen.timer("Turn the oven to 375\u00a0°F").get_by_role("timer")).to_contain_text("min")


def test_notes_say_what_was_different(pressed: Screen) -> None:
    page = pressed.page
    pressed.wait(3)
    pressed.cook("Ben").get_by_role("button", name="More about Dice onions").first.click()
    dialog = page.get_by_role("dialog", name="Dice onions")
    dialog.get_by_label("Needed").fill("10")
    dialog.get_by_role("button", name="Add the minutes").click()
    page.locator("#rest summary").click()
    page.locator("#rest").get_by_role("button", name="More about Portion the soup").click()
    dialog = page.get_by_role("dialog", name="Portion the soup")
    expect(dialog.locator("#more-planned")).to_have_value("6")
    dialog.get_by_label("Made").fill("5")
    dialog.get_by_role("button", name="Note the number").click()
    page.locator("#rest").get_by_role("button", name="More about Season the soup").click()
    page.get_by_label("Note", exact=True).fill('Less <salt> & "pepper"')
    page.get_by_role("button", name="Keep the note").click()
    notes = page.locator("#notes li")
    expect(notes).to_have_text(
        [
            "08:03 Dice onions: needed 10 more minutes",
            "08:03 Portion the soup into 6 tubs: made 5, not 6",
            '08:03 Season the soup: Less <salt> & "pepper"',
        ]
    )
    assert pressed.times()["soup/onion"] == [0, 25]


def test_done_some_minutes_ago_and_not_done_after_all(screen: Screen) -> None:
    page = screen.page
    screen.wait(16)
    screen.cook("Ann").get_by_role("button", name="More about Clear the counters").click()
    page.get_by_role("dialog").get_by_label("Done already").fill("6")
    page.get_by_role("button", name="Mark as done").click()
    assert screen.times()["day/clear"] == [0, 10]
    assert screen.times()["soup/chicken"] == [10, 25]
    page.locator("#rest summary").click()
    page.locator("#rest").get_by_role("button", name="More about Clear the counters").click()
    page.get_by_role("button", name="Not done after all").click()
    assert screen.times()["day/clear"] == [0, 16]


def test_what_has_not_started_waits_until_it_is_started(pressed: Screen) -> None:
    pressed.wait(10)
    pressed.done("Ann")
    pressed.cook("Ann").get_by_role("button", name="More about Cube the chicken").click()
    pressed.page.get_by_role("button", name="Not started yet").click()
    pressed.wait(8)
    assert pressed.times()["soup/chicken"] == [18, 33]
    pressed.cook("Ann").get_by_role("button", name="Start now").click()
    pressed.wait(2)
    assert pressed.times()["soup/chicken"] == [18, 33]
    expect(pressed.cook("Ann").get_by_role("button", name="Done", exact=True)).to_be_visible()


def test_a_screen_that_slept_goes_on_where_the_clock_is(screen: Screen) -> None:
    screen.page.clock.fast_forward(13 * 60_000)
    screen.wait(0.1)
    expect(screen.cook("Ann").get_by_role("timer")).to_have_text("3 min over")
    assert screen.times()["soup/chicken"] == [13, 28]


def test_one_cook_alone_can_be_shown(screen: Screen) -> None:
    screen.page.get_by_role("button", name="Ben", exact=True).click()
    expect(screen.cook("Ann")).to_have_count(0)
    expect(screen.cook("Ben")).to_be_visible()
    expect(screen.page.get_by_role("button", name="Ben", exact=True)).to_be_focused()
    screen.page.get_by_role("button", name="Everyone").click()
    expect(screen.cook("Ann")).to_be_visible()


def test_what_happened_is_saved_as_json(screen: Screen) -> None:
    screen.wait(12)
    screen.done("Ann")
    screen.cook("Ben").get_by_role("button", name="5 more min").click()
    with screen.page.expect_download() as download:
        screen.page.get_by_role("button", name="Save what happened").click()
    assert download.value.suggested_filename == "day-2027-01-16.json"
    saved = json.loads(Path(download.value.path()).read_text("utf-8"))
    assert saved["format"] == "batchcook-day/1"
    assert saved["plan"].startswith("batchcook-2027-01-16-")
    clear = next(task for task in saved["tasks"] if task["id"] == "day/clear")
    assert (clear["planned_minutes"], clear["real_minutes"]) == (10, 12)
    assert (clear["started"], clear["ended"], clear["hands_on"]) == ("08:00", "08:12", True)
    assert [each["text"] for each in saved["notes"]] == ["needed 5 more minutes"]


def test_what_is_saved_reads_as_marks_of_the_day(screen: Screen) -> None:
    screen.wait(12)
    screen.done("Ann")
    screen.cook("Ben").get_by_role("button", name="5 more min").click()
    saved = screen.page.evaluate("kitchenScreen.whatHappened()")
    marks = [Mark(**(each | {"at": datetime.fromisoformat(each["at"])})) for each in saved["marks"]]
    day = marked(marks)
    assert day.ended == {"day/clear": at(12)}
    assert day.started == {"day/clear": at(0), "soup/onion": at(0), "soup/chicken": at(12)}
    assert day.late == {"soup/onion": 5}
    assert [each.words for each in day.notes] == ["needed 5 more minutes"]


def test_the_day_can_be_started_afresh_but_not_by_one_slip(screen: Screen) -> None:
    screen.wait(10)
    screen.done("Ann")
    screen.page.get_by_role("button", name="Start the day afresh").click()
    screen.page.get_by_role("button", name="Keep the day as it is").click()
    assert state_of(screen)["ended"]
    screen.page.get_by_role("button", name="Start the day afresh").click()
    screen.page.get_by_role("button", name="Forget it and start afresh").click()
    expect(screen.page.get_by_role("button", name="Begin the day")).to_be_visible()
    assert state_of(screen)["ended"] == {}


@pytest.mark.parametrize("size", ["phone", "tablet"])
def test_begun_late_the_clock_on_the_wall_counts_and_on_another_day_the_press(
    shown: Callable[..., Screen], size: str
) -> None:
    late = shown(size=size, minute=25)
    late.begin()
    assert late.times()["day/clear"] == [25, 35]
    expect(late.page.locator("#finish")).to_have_text("Done about 09:55, 25 min late")
    other_day = shown(size=size, minute=24 * 60 + 90)
    other_day.begin()
    assert other_day.times()["day/clear"] == [0, 10]
    expect(other_day.cook("Ann")).to_contain_text("until 09:40")
    assert late.faults == other_day.faults == []


@pytest.mark.parametrize("size", ["phone", "tablet"])
def test_nothing_is_loaded_and_nothing_sticks_out(shown: Callable[..., Screen], size: str) -> None:
    screen = shown(read_plan(SAMPLE), size)
    screen.begin()
    screen.wait(45)
    page = screen.page
    assert [
        address for address in screen.asked_for if not address.startswith(("file:", "data:"))
    ] == []
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
    assert screen.faults == []


def test_targets_are_large_and_what_matters_is_read_from_two_metres(pressed: Screen) -> None:
    done = pressed.cook("Ann").get_by_role("button", name="Done", exact=True).bounding_box()
    assert done is not None
    assert done["height"] >= 70
    assert done["width"] >= 150
    small = pressed.page.evaluate(
        "() => [...document.querySelectorAll('button, a, summary, label')].filter((b) =>"
        " b.offsetParent && (b.offsetHeight < 44 || b.offsetWidth < 44)).map((b) => b.textContent)"
    )
    assert small == []
    sizes = pressed.page.evaluate(
        "() => ['.now h3', '.left .count', '.wall'].map((each) =>"
        " parseFloat(getComputedStyle(document.querySelector(each)).fontSize))"
    )
    # Capitals of 0.7 em at 160 dots an inch: 3 mm is what good eyes need at two metres (from
    # memory: five minutes of arc).
    assert min(sizes) * 0.7 * 25.4 / 160 >= 3


def test_what_cooks_by_itself_has_its_name_and_room_for_a_finger_on_top(pressed: Screen) -> None:
    pressed.follow_the_plan(42)
    chip = pressed.page.locator("#strip a").filter(has_text="Simmer the soup")
    box, name = chip.bounding_box(), chip.locator(".name").bounding_box()
    assert box is not None
    assert name is not None
    assert box["height"] >= 44
    assert name["width"] >= 60


def test_it_is_black_and_white(screen: Screen) -> None:
    assert screen.page.evaluate(GREYS) == []


def test_a_page_holds_less_than_300_kb() -> None:
    assert len(kitchen_screen_html(read_plan(SAMPLE)).encode()) < 300_000


def test_words_of_a_plan_cannot_end_the_script_they_stand_in(shown: Callable[..., Screen]) -> None:
    day = counter_day()
    nasty = "</script><script>window.caught = 1</script> <b>salt</b>"
    tasks = (day.tasks[0].model_copy(update={"title": nasty}), *day.tasks[1:])
    screen = shown(day.model_copy(update={"tasks": tasks}))
    screen.begin()
    expect(screen.cook("Ann").locator("h3").first).to_have_text(nasty)
    assert screen.page.evaluate("window.caught") is None


def _planned_anew() -> Plan:
    """The short day, gone as planned for 41 minutes and planned anew then."""
    told = Replanned(at=at(41), finish_before=at(90))
    return counter_day().model_copy(update={"replanned": told})


@pytest.mark.parametrize("minute", [41, 46])
def test_a_day_planned_anew_goes_on_with_what_was_done(
    shown: Callable[..., Screen], minute: int
) -> None:
    screen = shown(_planned_anew(), minute=minute)
    expect(screen.page.get_by_role("button", name="Begin the day")).to_be_hidden()
    screen.page.get_by_text("Everything of the day").click()
    rest = screen.page.locator("#rest li")
    expect(rest.filter(has_text="Clear the counters")).to_contain_text("(done)")
    expect(rest.filter(has_text="Fill the pie")).to_contain_text("(now)")
    expect(screen.timer("Simmer the soup").get_by_role("timer")).to_contain_text(f"{69 - minute}")
    assert all(minute <= 41 for minute in state_of(screen)["ended"].values())
    assert screen.faults == []


def test_on_another_date_it_goes_on_from_the_minute_it_was_planned_anew(
    shown: Callable[..., Screen],
) -> None:
    screen = shown(_planned_anew(), minute=3 * 24 * 60)
    assert screen.page.evaluate("kitchenScreen.minuteNow()") == 41
    assert state_of(screen)["started"]
