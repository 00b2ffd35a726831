"""What is saved by really pressing the page teaches the pace of the next plan."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from counter_day import at, counter_day
from pressed_screen import Screen

from batchcook.pacing.followed import followed_times
from batchcook.plan import Order, Replanned


def saved(screen: Screen, tmp_path: Path) -> Path:
    """The file that a press saves."""
    file = tmp_path / "saved.json"
    with screen.page.expect_download() as download:
        screen.page.get_by_role("button", name="Save what happened").click()
    download.value.save_as(file)
    return file


def test_a_pressed_day_is_learned_from(screen: Screen, tmp_path: Path) -> None:
    screen.wait(12)
    screen.done("Ann")
    screen.wait(6)
    screen.done("Ben")
    found = {each.technique: each for each in followed_times([saved(screen, tmp_path)])}
    assert {name: (each.planned, each.real) for name, each in found.items()} == {
        "clear": (10, 12),
        "onion": (15, 18),
    }
    assert {each.date for each in found.values()} == {counter_day().date}


def test_the_pad_of_the_plan_is_in_what_is_saved(
    shown: Callable[..., Screen], tmp_path: Path
) -> None:
    padded = counter_day().model_copy(update={"order": Order(day={"pad": 25}, recipes=())})
    screen = shown(padded)
    screen.begin()
    screen.wait(8)
    screen.done("Ann")
    (seen,) = followed_times([saved(screen, tmp_path)])
    assert seen.ratio == 8 * 1.25 / 10 == 1.0


def test_a_task_said_to_be_done_without_having_begun_teaches_nothing(
    screen: Screen, tmp_path: Path
) -> None:
    screen.page.get_by_role("button", name="More about Cube the chicken").click()
    screen.page.get_by_role("button", name="Done now").click()
    screen.wait(12)
    screen.done("Ann")
    assert [each.technique for each in followed_times([saved(screen, tmp_path)])] == ["clear"]


def test_what_was_done_before_the_day_was_planned_anew_is_not_taken_for_timed(
    shown: Callable[..., Screen], tmp_path: Path
) -> None:
    told = Replanned(at=at(41), finish_before=at(90))
    screen = shown(counter_day().model_copy(update={"replanned": told}), minute=41)
    assert followed_times([saved(screen, tmp_path)]) == ()
