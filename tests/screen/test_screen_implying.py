"""What must have happened, as something that can only come after it has; one alarm a vessel."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from counter_day import at, counter_day
from playwright.sync_api import Locator, expect
from pressed_screen import Screen, state_of

from batchcook.plan import Event, Plan

_MILK = (
    ("dairy", "out", 27, "pie/fill"),
    ("dairy", "on-heat", 42, "pie/bake"),
    ("cooked", "off-heat", 75, "pie/out"),
    ("cooked", "refrigerated", 85, "pie/cool"),
)
_DEADLINES = (
    (135, "pie/bake", "Onion pie: on the heat by 10:15, or throw it out"),
    (147, "pie/bake", "Milk: on the heat by 10:27, or throw it out"),
    (195, "pie/cool", "Onion pie: cold by 11:15, or throw it out"),
)
_BEFORE_THE_PIE = ((10, "Ann"), (15, "Ben"), (25, "Ann"), (25, "Ben"), (27, "Ben"), (30, "Ann"))


def _pie_day() -> Plan:
    """Milk goes into the pie from 27, which bakes from 42 and is cold at 85."""
    day = counter_day()
    events = tuple(
        Event.model_validate(
            {
                "dish": "onion-pie",
                "food": "milk",
                "kind": kind,
                "event": event,
                "at": at(minute),
                "task": task,
            }
        )
        for kind, event, minute, task in _MILK
    )
    deadlines = tuple(
        day.deadlines[0].model_copy(
            update={"dish": "onion-pie", "task": task, "at": at(minute), "words": words}
        )
        for minute, task, words in _DEADLINES
    )
    close = next(task for task in day.tasks if task.id == "day/close")
    chill = {"id": "pie/cool", "title": "Chill the pie", "dishes": {"onion-pie": "2 batches"}}
    tasks = tuple(task.model_copy(update=chill) if task is close else task for task in day.tasks)
    lag = next(each for each in day.lags if each.after == "pie/out")
    after = lag.model_copy(update={"before": "pie/out", "after": "pie/cool", "max_minutes": None})
    return day.model_copy(
        update={
            "events": events,
            "deadlines": deadlines,
            "tasks": tasks,
            "lags": (*day.lags, after),
        }
    )


@pytest.fixture
def screen(shown: Callable[..., Screen]) -> Screen:
    """That day, begun."""
    opened = shown(_pie_day())
    opened.begin()
    return opened


def _safety(screen: Screen) -> Locator:
    return screen.page.get_by_role("region", name="Safe by")


def _cards(screen: Screen) -> Locator:
    return screen.page.get_by_role("region", name="Do this now").get_by_role("article")


def _task(screen: Screen, name: str) -> str:
    """The number of a task on the page, as its state has it."""
    find = "(id) => String(kitchenScreen.day.tasks.findIndex((task) => task.id === id))"
    found: str = screen.page.evaluate(find, name)
    return found


def _press(screen: Screen, task: str, words: str) -> None:
    """Open a task in the list of the whole day and press what is offered there."""
    screen.page.locator("#rest").evaluate("(list) => { list.open = true; }")
    screen.page.locator(f"#all-{_task(screen, task)}").click()
    screen.page.get_by_role("button", name=words, exact=True).click()


def _until(screen: Screen, minute: int) -> None:
    screen.wait(minute - screen.page.evaluate("kitchenScreen.minuteNow()"))


def _until_the_pie_is_filled(screen: Screen) -> None:
    """The oven is switched on and all is marked up to 42, but not that the oven is hot."""
    for minute, who in _BEFORE_THE_PIE:
        _until(screen, minute)
        screen.done(who)
    screen.page.get_by_role("button", name="It is on").click()
    _until(screen, 42)
    screen.done("Ben")


def test_an_oven_whose_time_is_up_is_hot_once_the_food_is_in(screen: Screen) -> None:
    _until_the_pie_is_filled(screen)
    assert screen.times()["pie/bake"][0] == 42
    assert _task(screen, "pie/bake") in state_of(screen)["started"]
    expect(_safety(screen)).not_to_contain_text("on the heat by")
    assert screen.faults == []


def test_what_is_marked_done_ends_what_it_can_only_come_after(screen: Screen) -> None:
    """Nobody pressed that the oven was hot, nor that the pie was baked."""
    _until_the_pie_is_filled(screen)
    screen.wait(33)
    _press(screen, "pie/out", "Done now")
    state = state_of(screen)
    for name in ("oven/to-375", "pie/bake", "pie/out"):
        assert _task(screen, name) in state["ended"], name
    assert state["started"][_task(screen, "pie/bake")] == 42
    assert state["ended"][_task(screen, "oven/to-375")] == 42
    screen.wait(90)
    expect(_cards(screen).filter(has_text="on the heat")).to_have_count(0)
    assert screen.faults == []


def test_a_later_step_ends_all_that_leads_to_it_though_nothing_was_pressed(
    screen: Screen,
) -> None:
    screen.wait(80)
    _press(screen, "pie/out", "Done now")
    ended = state_of(screen)["ended"]
    assert ended[_task(screen, "pie/bake")] <= 80
    for name in ("soup/onion", "pie/onion", "pie/fill", "oven/to-375", "pie/bake"):
        assert _task(screen, name) in ended, name
    for name in ("soup/chicken", "soup/fill", "day/clear"):
        assert _task(screen, name) not in ended, name
    timed = screen.page.evaluate("kitchenScreen.whatHappened()")["tasks"]
    assert not any(task["marked"] for task in timed)


def test_a_vessel_has_one_alarm_and_nothing_of_it_is_thrown_out_alone(
    screen: Screen,
) -> None:
    _until_the_pie_is_filled(screen)
    _press(screen, "pie/bake", "Not started yet")
    screen.wait(94)
    cards = _cards(screen)
    expect(cards.filter(has_text="Onion pie: not on the heat by 10:15")).to_have_count(1)
    screen.wait(15)
    expect(cards.filter(has_text="Milk")).to_have_count(0)
    expect(screen.page.get_by_role("button", name="go on without it")).to_have_count(0)
    card = cards.filter(has_text="Onion pie: not on the heat")
    card.get_by_role("button", name="It was").click()
    screen.wait(5)
    expect(cards.filter(has_text="Milk")).to_have_count(0)
    assert screen.faults == []


def test_what_is_not_mixed_in_yet_has_its_own_clock(screen: Screen) -> None:
    for minute, who in ((15, "Ben"), (25, "Ben"), (27, "Ben")):
        _until(screen, minute)
        screen.done(who)
    screen.wait(3)
    expect(_safety(screen)).to_contain_text("Milk: on the heat by 10:27")
