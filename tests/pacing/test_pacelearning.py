"""Real times of a followed day become the pace of the next plan."""

from __future__ import annotations

import datetime as dt
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path

import pytest
from planned_days import day_of, planned, starter

from batchcook.complaints import InputFault
from batchcook.day.workday import day_work, ordered_dishes
from batchcook.follow.session import mark_as_planned
from batchcook.pacing.learning import keep_times, observed, own_paces
from batchcook.pacing.ownpace import at_own_pace
from batchcook.pacing.pace import Observation, read_observations
from batchcook.plan import Plan, write_plan
from batchcook.plans.progress import Mark, append_marks, read_marks, state_of


def followed(plan: Plan, factor: float) -> list[Mark]:
    """Every hands-on task marked, each so many times as long as planned."""
    marks = []
    for task in plan.tasks:
        if task.cook is not None:
            marks.append(Mark("start", task.start, task.id))
            marks.append(Mark("done", task.start + factor * (task.end - task.start), task.id))
    return marks


def test_a_cook_who_is_slower_is_planned_slower(tmp_path: Path) -> None:
    plan = planned(salmon_potato_cakes=1)
    file = tmp_path / "pace.jsonl"
    seen = observed(plan, followed(plan, 1.5))
    assert {each.technique for each in seen.values()} >= {"portion", "cleanup"}
    keep_times(file, tuple(seen.values()))
    assert all(1.0 < factor < 1.5 for factor in (each.factor for each in own_paces(file).values()))


def test_a_day_learned_twice_counts_once(tmp_path: Path) -> None:
    plan = planned(salmon_potato_cakes=1)
    file = tmp_path / "pace.jsonl"
    once = keep_times(file, tuple(observed(plan, followed(plan, 1.2)).values()))
    again = tuple(observed(plan, followed(plan, 1.2)).values())
    assert keep_times(file, again) == once


def test_a_task_left_open_by_mistake_teaches_nothing() -> None:
    plan = planned(salmon_potato_cakes=1)
    assert observed(plan, followed(plan, 9.0)) == {}


def test_padding_lengthens_hands_on_work_and_nothing_else() -> None:
    day = day_of(cottage_pie=1)
    dishes = ordered_dishes(day, starter())
    plain = {job.id: job for job in day_work(dishes, day).jobs}
    padded = {job.id: job for job in day_work(dishes, replace(day, pad=25)).jobs}
    by_hand = [name for name, job in plain.items() if job.hands is not None]
    assert sum(padded[n].minutes for n in by_hand) > 1.15 * sum(plain[n].minutes for n in by_hand)
    assert all(
        padded[name].minutes == job.minutes for name, job in plain.items() if job.hands is None
    )


def test_a_pace_of_one_changes_nothing() -> None:
    day = day_of(cottage_pie=1)
    work = day_work(ordered_dishes(day, starter()), day)
    assert at_own_pace(work, {"portion": 1.0}) == work


def test_the_pace_already_planned_with_is_not_counted_twice() -> None:
    plan = planned(salmon_potato_cakes=1)
    assert plan.order is not None
    paced = plan.model_copy(
        update={"order": plan.order.model_copy(update={"day": {**plan.order.day, "pad": 20}})}
    )
    plain = {each.technique: each.ratio for each in observed(plan, followed(plan, 1.0)).values()}
    again = {each.technique: each.ratio for each in observed(paced, followed(plan, 1.0)).values()}
    assert again["portion"] == 1.2 * plain["portion"]


def test_what_nobody_saw_teaches_nothing(tmp_path: Path) -> None:
    plan = planned(salmon_potato_cakes=1)
    (tmp_path / "plan.json").write_text(write_plan(plan), "utf-8")
    mark_as_planned(plan, tmp_path, plan.finish)
    assert state_of(read_marks(tmp_path)).ended
    assert observed(plan, read_marks(tmp_path)) == {}
    seen = next(task for task in observed(plan, followed(plan, 1.2)))
    (task,) = (each for each in plan.tasks if each.id == seen)
    append_marks(tmp_path, [Mark("start", task.start, seen), Mark("done", task.end, seen)])
    assert observed(plan, read_marks(tmp_path)).keys() == {seen}
    append_marks(tmp_path, [Mark("done", task.end, seen, by_itself=True)])
    assert observed(plan, read_marks(tmp_path)) == {}


def test_days_learned_at_once_are_all_kept(tmp_path: Path) -> None:
    file = tmp_path / "pace.jsonl"
    days = [
        Observation(date=dt.date(2027, 1, day), technique="diced", planned=4, real=5, pace=1)
        for day in range(1, 25)
    ]
    with ThreadPoolExecutor(max_workers=8) as together:
        list(together.map(lambda each: keep_times(file, [each]), days))
    assert {each.date for each in read_observations(file)} == {each.date for each in days}


def test_a_place_that_cannot_be_made_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    with pytest.raises(InputFault, match="cannot be made"):
        keep_times(tmp_path / "file" / "below" / "pace.jsonl", ())
