"""The same times on paper, on the kitchen screen, in the terminal and in the calendar."""

from __future__ import annotations

import datetime as dt
import re
from pathlib import Path

import pytest
from planned_days import planned

from batchcook.documents.aside import asides
from batchcook.documents.kitchenscreen import screen_day
from batchcook.documents.runsheet import run_sheet_html
from batchcook.follow.following import Following
from batchcook.follow.words import head_line
from batchcook.plan import Plan, read_plan
from batchcook.plans.milestones import milestones

SAMPLE = Path(__file__).parents[1] / "output_samples" / "prep-day"


@pytest.fixture(scope="module", params=["sample", "oven and pan", "bake"])
def plan(request: pytest.FixtureRequest) -> Plan:
    if request.param == "sample":
        return read_plan(SAMPLE)
    if request.param == "oven and pan":
        return planned(sausage_lentil_soup=1, salmon_potato_cakes=1)
    return planned(cottage_pie=1)


def _minute(plan: Plan, at: dt.datetime) -> int:
    return round((at - plan.start).total_seconds() / 60)


def _paper(plan: Plan) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", run_sheet_html(plan).partition("<body>")[2]).split())


def test_each_task_begins_and_ends_alike_on_screen_and_in_the_terminal(plan: Plan) -> None:
    day = screen_day(plan)
    steps = {
        task["id"]: tuple(step[:2])
        for task, step in zip(day["tasks"], day["network"]["steps"], strict=True)
    }
    terminal = Following(plan, [], plan.start)
    for task in plan.tasks:
        planned_for = (_minute(plan, task.start), _minute(plan, task.end))
        timed = terminal.timed(task.id)
        assert steps[task.id] == planned_for, task.id
        assert (timed.start, timed.end) == (task.start, task.end), task.id


def test_each_piece_of_work_stands_on_paper_at_the_time_it_begins_on_the_screen(
    plan: Plan,
) -> None:
    shown = _paper(plan)
    for task in plan.tasks:
        alone = task.run is None and task.technique != "clean-down"
        if task.cook is not None and alone:
            end = next(
                (
                    wash.end
                    for wash in plan.tasks
                    if wash.technique == "clean-down"
                    and wash.cook == task.cook
                    and wash.start == task.end
                ),
                task.end,
            )
            assert f"{task.start:%H:%M} to {end:%H:%M}" in shown, task.id


def test_what_goes_by_itself_is_done_at_one_time_everywhere(plan: Plan) -> None:
    shown = _paper(plan)
    calendar = {each.name: each for each in milestones(plan)}
    day = screen_day(plan)
    place = {task["id"]: number for number, task in enumerate(day["tasks"])}
    for aside in asides(plan):
        task = aside.task
        number = place[task.id]
        on_screen = day["network"]["steps"][number][1] - day["tasks"][number].get("early", 0)
        assert on_screen == _minute(plan, aside.until)
        if aside.begun_by is not None:
            assert f"By itself until {aside.until:%H:%M}: " in shown
        if f"done/{task.id}" in calendar:
            assert calendar[f"done/{task.id}"].at == aside.until
        if aside.to_switch_on:
            assert calendar[f"on/{task.id}"].at == task.start
            assert f"It is ready at {task.end:%H:%M}." in shown


def test_food_must_be_safe_by_one_time_everywhere(plan: Plan) -> None:
    shown = _paper(plan)
    clocks = {(clock["task"], clock["at"]) for clock in screen_day(plan)["clocks"]}
    place = {task["id"]: number for number, task in enumerate(screen_day(plan)["tasks"])}
    calendar = {each.name: each.at for each in milestones(plan)}
    first = {}
    for each in sorted(plan.deadlines, key=lambda each: each.at, reverse=True):
        first[each.task] = each
        assert (place[each.task], _minute(plan, each.at)) in clocks, each.words
        assert f"{each.at:%H:%M}" in each.words
        assert calendar.get(f"cold/{each.task}", each.at) == each.at
    runs = {task.id: task.run for task in plan.tasks}
    for each in first.values():
        if runs[each.task] is None:  # of work done together the earliest is told
            assert each.words in shown, each.words


def test_the_day_ends_at_one_time_everywhere(plan: Plan) -> None:
    assert f"{plan.start:%H:%M} to {plan.finish:%H:%M}" in _paper(plan)
    assert screen_day(plan)["finish"] == _minute(plan, plan.finish)
    (day,) = [each for each in milestones(plan) if each.name == "day"]
    assert (day.at, day.until) == (plan.start, plan.finish)
    head = head_line(Following(plan, [], plan.start)).plain
    assert f"done at {plan.finish:%H:%M}, as planned" in head


def test_the_freezer_is_called_at_one_time_everywhere(plan: Plan) -> None:
    evening = " ".join(plan.morning_after)
    shown = _paper(plan)
    for each in plan.freezing:
        assert f"{each.at:%H:%M}: " in evening
        assert f"{each.at:%H:%M}" in shown
        name = f"freeze/{each.dish}/{each.containers[0]}"
        assert [m.at for m in milestones(plan) if m.name == name] == [each.at]
