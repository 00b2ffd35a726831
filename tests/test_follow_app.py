"""The live screen, pressed by a pilot: what is marked is on disk before anything else."""

from __future__ import annotations

import asyncio
import datetime as dt
from collections.abc import Awaitable, Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from unittest import mock

import pytest
from planned_days import planned
from textual.pilot import Pilot
from textual.widgets import Static

from batchcook.complaints import Complaint, InputFault
from batchcook.follow.app import FollowApp
from batchcook.follow.following import Following
from batchcook.follow.lanebox import LaneBox
from batchcook.follow.session import plan_anew
from batchcook.plan import Plan, read_plan, write_plan
from batchcook.plans.dayfolder import write_day
from batchcook.plans.progress import Mark, append_marks, read_marks, state_of
from batchcook.quantities import ureg

ROOM = ureg.Quantity(72, "degF")


class Clock:
    """A clock that a test sets."""

    def __init__(self, now: dt.datetime) -> None:
        self.now = now

    def __call__(self) -> dt.datetime:
        return self.now


@pytest.fixture
def plan() -> Plan:
    return planned(sausage_lentil_soup=1, salmon_potato_cakes=1)


@pytest.fixture
def folder(tmp_path: Path, plan: Plan) -> Path:
    (tmp_path / "plan.json").write_text(write_plan(plan))
    return tmp_path


def driven(
    folder: Path,
    clock: Clock,
    press: Callable[[FollowApp, Pilot[None]], Awaitable[None]],
    size: tuple[int, int] = (140, 44),
) -> None:
    """Run the app while a test presses its keys."""

    async def run() -> None:
        app = FollowApp(folder, ROOM, clock, plan_anew)
        async with app.run_test(size=size) as pilot:
            await pilot.pause()
            await press(app, pilot)

    # A thread of its own: another test's browser may have left a loop running in this one.
    with ThreadPoolExecutor(max_workers=1) as apart:
        apart.submit(asyncio.run, run()).result()


def shown(app: FollowApp, name: str) -> str:
    return str(app.query_one(name, Static).render())


def test_the_first_task_begins_by_the_clock_and_done_ends_it(folder: Path, plan: Plan) -> None:
    clock = Clock(plan.start)
    first = plan.tasks[0]

    async def press(_: FollowApp, pilot: Pilot[None]) -> None:
        lanes = [each.id for each in plan.cooks]
        for _place in range(lanes.index(str(first.cook))):
            await pilot.press("right")
        clock.now += dt.timedelta(minutes=6)
        await pilot.press("d")
        await pilot.pause()

    driven(folder, clock, press)
    state = state_of(read_marks(folder))
    assert state.started[first.id] == plan.start
    assert state.ended[first.id] == clock.now


def test_closing_the_lid_loses_nothing(folder: Path, plan: Plan) -> None:
    clock = Clock(plan.start)

    async def late(_: FollowApp, pilot: Pilot[None]) -> None:
        await pilot.press("l", "l")

    async def look(app: FollowApp, _: Pilot[None]) -> None:
        assert app.following().state.late == {plan.tasks[0].id: 10}

    cook = [each.id for each in plan.cooks].index(str(plan.tasks[0].cook))

    async def at_the_cook(app: FollowApp, pilot: Pilot[None]) -> None:
        for _ in range(cook):
            await pilot.press("right")
        await late(app, pilot)

    driven(folder, clock, at_the_cook)
    driven(folder, clock, look)


def test_undo_takes_the_last_mark_back(folder: Path, plan: Plan) -> None:
    clock = Clock(plan.start)

    async def press(_: FollowApp, pilot: Pilot[None]) -> None:
        await pilot.press("l")
        await pilot.press("u")

    driven(folder, clock, press)
    assert state_of(read_marks(folder)).late == {}


def test_a_late_task_moves_the_finish_on_the_head_line(folder: Path, plan: Plan) -> None:
    clock = Clock(plan.start)

    async def press(app: FollowApp, pilot: Pilot[None]) -> None:
        assert "as planned" in shown(app, "#head")
        clock.now = plan.start + dt.timedelta(minutes=60)
        app.tick()
        await pilot.pause()
        assert "min later" in shown(app, "#head")

    driven(folder, clock, press)


def test_a_note_is_kept_with_its_task(folder: Path, plan: Plan) -> None:
    clock = Clock(plan.start)

    async def press(_: FollowApp, pilot: Pilot[None]) -> None:
        await pilot.press("n")
        await pilot.press(*"made 5", "enter")
        await pilot.pause()

    driven(folder, clock, press)
    assert [mark.words for mark in state_of(read_marks(folder)).notes] == ["made 5"]


def test_replan_from_the_screen_writes_the_folder_anew(folder: Path, plan: Plan) -> None:
    clock = Clock(plan.start + dt.timedelta(minutes=1))

    async def press(app: FollowApp, pilot: Pilot[None]) -> None:
        await pilot.press("r")
        await pilot.press(*"drop salmon-potato-cakes", "enter")
        await app.workers.wait_for_complete()
        await pilot.pause()
        assert "Planned anew" in shown(app, "#said")

    driven(folder, clock, press)
    assert [dish.id for dish in read_plan(folder).dishes] == ["sausage-lentil-soup"]
    assert (folder / f"plan-before-{clock.now:%H%M}.json").exists()


def test_a_plan_put_in_its_place_is_followed_and_gets_no_marks_of_the_old_one(
    folder: Path, plan: Plan
) -> None:
    clock = Clock(plan.start)
    after = planned(cider_pulled_pork=1)
    assert after.date == plan.date
    said = []

    async def press(app: FollowApp, pilot: Pilot[None]) -> None:
        await pilot.press("d")
        write_day(folder, {"plan.json": write_plan(after).encode()})
        await pilot.press("d")
        await pilot.pause()
        said.append(shown(app, "#said"))
        app.tick()
        await pilot.pause()
        said.append(str(app.query_one("#lane-0", LaneBox).entries[0].task.id))

    driven(folder, clock, press)
    assert said[0] == "The day was planned anew; this is the new plan."
    ids = {task.id for task in after.tasks}
    assert said[1] in ids
    marks = read_marks(folder)
    assert {mark.task for mark in marks} <= ids
    assert all(mark.by_itself for mark in marks)
    assert read_marks(folder / f"followed-{plan.date}")


def test_a_plan_of_another_day_in_its_place_ends_the_screen(folder: Path, plan: Plan) -> None:
    other = plan.date + dt.timedelta(days=1)
    text = write_plan(plan).replace(str(plan.date), str(other))
    ended = []

    async def press(app: FollowApp, pilot: Pilot[None]) -> None:
        await pilot.press("d")
        write_day(folder, {"plan.json": text.encode()})
        await pilot.press("d")
        await pilot.pause()
        ended.append(app.return_code)

    driven(folder, Clock(plan.start), press)
    assert ended == [0]
    assert not read_marks(folder)


def test_what_another_screen_marked_is_seen(folder: Path, plan: Plan) -> None:
    clock = Clock(plan.start)
    first = plan.tasks[0]
    seen = []

    async def press(app: FollowApp, _: Pilot[None]) -> None:
        append_marks(folder, [Mark("done", clock.now, first.id)])
        app.tick()
        seen.append(app.following().is_over(first.id))

    driven(folder, clock, press)
    assert seen == [True]


def test_what_is_not_kept_is_not_said_to_be_done(folder: Path, plan: Plan) -> None:
    said = []

    async def press(app: FollowApp, pilot: Pilot[None]) -> None:
        fault = InputFault(Complaint("progress.jsonl", "cannot be written (No space left)"))
        with mock.patch("batchcook.follow.app.append_marks", side_effect=fault):
            await pilot.press("d")
            await pilot.pause()
            said.append(shown(app, "#said"))

    driven(folder, Clock(plan.start), press)
    assert said[0].startswith("Not kept: progress.jsonl: cannot be written")


def test_how_sure_the_finish_is_stands_there_and_moves_with_what_is_marked(
    folder: Path, plan: Plan
) -> None:
    clock = Clock(plan.start)

    async def press(app: FollowApp, pilot: Pilot[None]) -> None:
        said = shown(app, "#sure")
        assert plan.sure is not None
        half, nine = f"{plan.sure.half:%H:%M}", f"{plan.sure.nine_of_ten:%H:%M}"
        assert said.startswith(f"From here on: done by {half} in half of all days, by {nine} in")
        clock.now += dt.timedelta(minutes=1)
        app.tick()
        assert shown(app, "#sure") == said
        lanes = [each.id for each in plan.cooks]
        for _ in range(lanes.index(str(plan.tasks[0].cook))):
            await pilot.press("right")
        await pilot.press(*"llllllllllll")
        await pilot.pause()
        assert shown(app, "#sure") != said

    driven(folder, clock, press)


def test_it_is_reckoned_anew_only_when_something_is_marked(folder: Path, plan: Plan) -> None:
    clock = Clock(plan.start)

    async def press(app: FollowApp, _: Pilot[None]) -> None:
        with mock.patch.object(
            Following, "sure", autospec=True, side_effect=Following.sure
        ) as told:
            for _second in range(20):
                clock.now += dt.timedelta(seconds=1)
                app.tick()
            assert told.call_count == 0
            app.action_late()
            assert told.call_count == 1

    driven(folder, clock, press)


def in_sight(app: FollowApp) -> list[str]:
    """The lines that the terminal shows."""
    strips = app.screen._compositor.render_strips()  # noqa: SLF001 - no public way to these
    return ["".join(segment.text for segment in strip) for strip in strips]


@pytest.mark.parametrize("size", [(80, 24), (60, 18)])
def test_what_is_chosen_is_always_in_sight(folder: Path, plan: Plan, size: tuple[int, int]) -> None:
    """A small terminal scrolls to the choice, so that no key marks what nobody sees."""
    task = max((each for each in plan.tasks if each.cook), key=lambda each: len(each.words))
    clock = Clock(task.start)
    append_marks(
        folder,
        [
            mark
            for each in plan.tasks
            if each.start < task.start
            for mark in (Mark("start", each.start, each.id), Mark("done", task.start, each.id))
        ],
    )

    async def press(app: FollowApp, pilot: Pilot[None]) -> None:
        await pilot.pause()
        assert any("> " in line for line in in_sight(app))
        for _ in range([cook.id for cook in plan.cooks].index(str(task.cook))):
            await pilot.press("right")
        box = app.focused
        assert isinstance(box, LaneBox)
        seen = []
        for key in ("", "down", "down", "down", "down", "up", "up", "up", "up"):
            if key:
                await pilot.press(key)
            await pilot.pause()
            assert box.entry is not None
            (line,) = (line for line in in_sight(app) if "> " in line)
            seen.append(box.entry.task.id)
            began = line.partition("> ")[2].split("\u2502")[0].split("\u2503")[0].split()
            assert began[:1] == [f"{box.entry.start:%H:%M}"] or box.entry.begun
        assert len(set(seen)) > 3
        assert seen[0] == seen[-1]

    driven(folder, clock, press, size)
