"""A bake is told to end when the plan takes it out."""

from __future__ import annotations

import pytest
from planned_days import planned

from batchcook.documents.aside import asides
from batchcook.documents.columns import columns
from batchcook.documents.kitchenscreen import screen_day
from batchcook.plan import Plan
from batchcook.plans.milestones import milestones
from batchcook.plans.takenout import done_at


@pytest.fixture(scope="module")
def plan() -> Plan:
    return planned(turkey_meatballs=1, vegetable_egg_bake=2)


def test_every_paper_says_the_minute_at_which_it_is_taken_out(plan: Plan) -> None:
    tasks = {task.id: task for task in plan.tasks}
    bakes = [task for task in plan.tasks if task.station == "oven" and "/oven" in task.id]
    assert len(bakes) > 1
    ends = {each.name: each.at for each in milestones(plan)}
    screen = {each["id"]: each for each in screen_day(plan)["tasks"]}
    beside = {aside.task.id: aside for aside in asides(plan)}
    for bake in bakes:
        out = tasks[bake.id.replace("/oven", "/out")]
        assert bake.end > out.start
        assert done_at(plan, bake) == out.start
        assert beside[bake.id].until == out.start
        assert beside[bake.id].onward().startswith(f"By itself until {out.start:%H:%M}: ")
        assert ends[f"done/{bake.id}"] == out.start
        assert screen[bake.id]["early"] == (bake.end - out.start).total_seconds() / 60


def test_nobody_is_called_to_what_is_out_already_nor_told_to_keep_an_oven_on(plan: Plan) -> None:
    told = [entry.title for column in columns(plan) for entry in column.entries]
    assert not [title for title in told if title.startswith("Done: Bake")]


def test_what_has_no_taking_out_ends_with_its_task(plan: Plan) -> None:
    simmer = next(task for task in plan.tasks if task.technique == "simmer" and task.cook is None)
    assert done_at(plan, simmer) == simmer.end
