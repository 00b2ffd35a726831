"""Food that is out has a clock on the screen, and somebody is told what to do."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from counter_day import at, counter_day
from playwright.sync_api import Locator, expect
from pressed_screen import Screen, state_of

from batchcook.plan import Event, Plan


def _safety(screen: Screen) -> Locator:
    return screen.page.get_by_role("region", name="Safe by")


def _alarm(screen: Screen, name: str) -> Locator:
    """An alarm that has stood for a second; before, presses on it are taken for slips."""
    screen.page.clock.run_for(1000)
    return screen.page.get_by_role("region", name="Do this now").get_by_role("article", name=name)


def _chicken_out(screen: Screen) -> None:
    """The chicken leaves the refrigerator at 08:10 and nobody goes on with it."""
    screen.wait(10)
    screen.done("Ann")


def _soup_off_the_heat(screen: Screen) -> None:
    """All on time until the soup is seasoned, at 09:15."""
    screen.follow_the_plan(75)


def test_the_clock_of_food_that_is_out_counts_down_to_the_printed_minute(screen: Screen) -> None:
    expect(_safety(screen)).to_contain_text("Chicken thigh, once out of the refrigerator")
    _chicken_out(screen)
    expect(_safety(screen)).to_contain_text("Chicken thigh: on the heat by 09:55 1 h 44 min")


def test_food_that_comes_out_later_has_its_time_later(screen: Screen) -> None:
    screen.wait(30)
    screen.done("Ann")
    expect(_safety(screen)).to_contain_text("Chicken thigh: on the heat by 10:15")


def test_before_time_runs_out_it_says_what_to_do(screen: Screen) -> None:
    _chicken_out(screen)
    screen.wait(91)
    card = _alarm(screen, "Chicken thigh: on the heat by 09:55")
    expect(card).to_contain_text("Put it on the heat now, or back into the refrigerator now")
    expect(card).not_to_contain_text("keep it hot")
    expect(card.get_by_role("timer")).to_have_text("13 min")
    expect(screen.page.get_by_role("alert")).to_contain_text(
        "Chicken thigh: on the heat by 09:55. Put it on the heat now"
    )


def test_an_alarm_comes_into_view_and_a_press_as_it_comes_is_taken_for_a_slip(
    screen: Screen,
) -> None:
    _chicken_out(screen)
    screen.wait(103)
    screen.page.evaluate("window.scrollTo(0, 400)")
    for _ in range(240):
        if screen.page.get_by_role("button", name="It was safe in time").count():
            break
        screen.page.clock.run_for(500)
    screen.page.get_by_role("button", name="It was safe in time").click()
    card = screen.page.get_by_role("article", name="Chicken thigh: not on the heat by 09:55")
    expect(card).to_be_in_viewport()
    screen.page.clock.run_for(1000)
    screen.page.get_by_role("button", name="It was safe in time").click()
    expect(card).to_have_count(0)


def test_in_the_refrigerator_the_time_stands_still(screen: Screen) -> None:
    _chicken_out(screen)
    screen.wait(91)
    _alarm(screen, "Chicken thigh").get_by_role("button", name="Refrigerated now").click()
    screen.wait(60)
    expect(_alarm(screen, "Chicken thigh")).to_have_count(0)
    expect(_safety(screen)).to_contain_text("Chicken thigh: refrigerated; its time stands still")
    _safety(screen).get_by_role("button", name="Out again").click()
    expect(_safety(screen)).to_contain_text("Chicken thigh: on the heat by 10:55")


def test_once_its_time_is_up_it_says_to_throw_it_out(screen: Screen) -> None:
    _chicken_out(screen)
    screen.wait(106)
    card = _alarm(screen, "Chicken thigh: not on the heat by 09:55")
    expect(card).to_contain_text("Throw it out, unless it was back in the refrigerator")
    expect(card).to_contain_text("neither reheating nor freezing makes it safe")
    expect(screen.page.get_by_role("alert")).to_contain_text("Chicken thigh: time is up. Throw it")
    assert screen.page.evaluate("window.rings") > 0


@pytest.mark.parametrize(
    ("answer", "left"),
    [
        ("Thrown out; stop Chicken soup", "Fill the soup pot"),
        ("Thrown out; go on without it", None),
        ("It was safe in time", None),
    ],
)
def test_each_answer_is_kept_and_only_a_stopped_dish_is_not_done(
    screen: Screen, answer: str, left: str | None
) -> None:
    _chicken_out(screen)
    screen.wait(106)
    _alarm(screen, "Chicken thigh").get_by_role("button", name=answer).click()
    expect(_alarm(screen, "Chicken thigh: not")).to_have_count(0)
    dropped = [
        screen.page.evaluate("(i) => kitchenScreen.day.tasks[i].title", int(name))
        for name in state_of(screen)["dropped"]
    ]
    assert (left in dropped) == (left is not None)
    assert "Fill the pie" not in dropped
    assert state_of(screen)["notes"][-1]["what"] == "Chicken thigh"


def test_cooked_food_may_be_held_hot_and_is_told_so(screen: Screen) -> None:
    _soup_off_the_heat(screen)
    expect(_safety(screen)).to_contain_text("Chicken soup: in the refrigerator by 10:55")
    screen.wait(90)
    card = _alarm(screen, "Chicken soup: in the refrigerator by 10:55")
    expect(card).to_contain_text(
        "Into shallow containers and refrigerate it now; or keep it hot at 140\u00a0°F or above"
    )
    card.get_by_role("button", name="Held at 140\u00a0°F or above").click()
    expect(_safety(screen)).to_contain_text("Chicken soup: held hot; its time stands still")
    screen.wait(30)
    _safety(screen).get_by_role("button", name="Out again").click()
    expect(_safety(screen)).to_contain_text("Chicken soup: in the refrigerator by 11:25")


def test_cooked_food_that_missed_its_time_is_thrown_out_unless_it_was_hot_or_cold(
    screen: Screen,
) -> None:
    _soup_off_the_heat(screen)
    screen.wait(101)
    expect(_alarm(screen, "Chicken soup: not in the refrigerator by 10:55")).to_contain_text(
        "Throw it out, unless it was held at 140\u00a0°F or above, or in the refrigerator, in time."
    )


def test_food_put_away_in_time_has_no_clock_any_more(screen: Screen) -> None:
    _soup_off_the_heat(screen)
    screen.wait(15)
    screen.done("Ann")
    expect(_safety(screen)).to_contain_text("2 in time so far")
    screen.wait(120)
    expect(_alarm(screen, "Chicken soup")).to_have_count(0)


def test_a_pot_that_waits_too_long_for_its_next_step_is_called_out(screen: Screen) -> None:
    screen.follow_the_plan(70)
    screen.cook("Ann").get_by_role("button", name="More about Season the soup").click()
    screen.page.get_by_role("button", name="Not started yet").click()
    screen.wait(17)
    card = (
        screen.page.get_by_role("region", name="Do this now")
        .get_by_role("article")
        .filter(has_text="Season the soup by")
    )
    expect(card).to_contain_text("Go on with it now. If you cannot, keep hot food at 140\u00a0°F")


def test_a_dish_that_goes_raw_into_the_freezer_is_never_sent_to_the_heat(
    shown: Callable[..., Screen],
) -> None:
    day = counter_day()
    out, *_, put_away = day.events
    events = (out, put_away.model_copy(update={"kind": "raw-poultry"}))
    deadline = day.deadlines[1].model_copy(
        update={"at": at(130), "words": "Chicken soup: cold by 10:10, or throw it out"}
    )
    screen = shown(day.model_copy(update={"events": events, "deadlines": (deadline,)}))
    screen.begin()
    _chicken_out(screen)
    screen.wait(107)
    card = _alarm(screen, "Chicken soup: in the refrigerator by 10:10")
    expect(card).to_contain_text("Into the refrigerator now, packed or not")
    expect(card).not_to_contain_text("heat")
    screen.wait(14)
    expect(_alarm(screen, "Chicken soup: not in the refrigerator by 10:10")).to_contain_text(
        "Throw it out, unless it was back in the refrigerator in time."
    )


def _browned_first() -> Plan:
    """The chicken is browned from 30 to 40 and goes on when the soup simmers."""
    day = counter_day()
    browned = [
        ("raw-poultry", "out", 10, "soup/chicken"),
        ("raw-poultry", "on-heat", 30, "soup/fill"),
        ("raw-poultry", "off-heat", 40, "soup/fill"),
        ("raw-poultry", "on-heat", 40, "soup/simmer"),
        ("cooked", "off-heat", 75, "soup/season"),
        ("cooked", "refrigerated", 90, "soup/portion"),
    ]
    events = [
        Event.model_validate(
            {
                "dish": "chicken-soup",
                "food": "chicken thigh, load 1",
                "kind": kind,
                "event": event,
                "at": at(minute),
                "task": task,
            }
        )
        for kind, event, minute, task in browned
    ]
    simmer = next(task for task in day.tasks if task.id == "soup/simmer")
    by_hand = simmer.model_copy(update={"cook": "ann", "uses": {"cook:ann": 1}})
    tasks = tuple(by_hand if task is simmer else task for task in day.tasks)
    return day.model_copy(update={"events": tuple(events), "tasks": tasks})


def test_browned_and_not_cooked_through_goes_straight_on_or_out(
    shown: Callable[..., Screen],
) -> None:
    screen = shown(_browned_first())
    screen.begin()
    screen.follow_the_plan(40)
    screen.cook("Ann").get_by_role("button", name="More about Simmer the soup").click()
    screen.page.get_by_role("button", name="Not started yet").click()
    screen.wait(5)
    card = _alarm(screen, "Chicken thigh: on the heat by 08:50")
    expect(card).to_contain_text("on to its final cooking at once. It may not wait.")
    expect(card.get_by_role("button", name="Refrigerated now")).to_have_count(0)
    screen.wait(6)
    expect(_alarm(screen, "Chicken thigh: not on the heat by 08:50")).to_contain_text(
        "Throw it out, unless it went straight on in time."
    )


def test_a_plan_without_events_still_counts_down_to_its_deadlines(
    shown: Callable[..., Screen],
) -> None:
    screen = shown(counter_day().model_copy(update={"events": ()}))
    screen.begin()
    screen.follow_the_plan(30)
    expect(_safety(screen)).to_contain_text("Chicken thigh: on the heat by 09:55")
    assert screen.faults == []
