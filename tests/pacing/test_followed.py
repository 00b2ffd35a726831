"""Times are learned from the terminal's progress and from what the kitchen screen saves."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path
from typing import Any

import pytest
from planned_days import planned
from typer.testing import CliRunner

from batchcook.cli.main import app
from batchcook.complaints import InputFault
from batchcook.pacing.followed import followed_times
from batchcook.plan import Plan, Replanned, Task, write_plan
from batchcook.plans.progress import Mark, append_marks


@pytest.fixture(scope="module")
def plan() -> Plan:
    return planned(salmon_potato_cakes=1)


@pytest.fixture
def folder(tmp_path: Path, plan: Plan) -> Path:
    (tmp_path / "plan.json").write_text(write_plan(plan))
    return tmp_path


def by_hand(plan: Plan) -> list[Task]:
    return [task for task in plan.tasks if task.cook and task.technique != "clean-down"]


def saved(plan: Plan, **changes: object) -> dict[str, Any]:
    """What the page saves, in the shape that its script writes; each task half as long again."""
    tasks = [
        {
            "id": task.id,
            "technique": task.technique,
            "hands_on": True,
            "marked": True,
            "pace": 1,
            "planned_start_minute": 0,
            "planned_minutes": (task.end - task.start).total_seconds() / 60,
            "started": "08:00",
            "ended": "08:10",
            "start_minute": 0,
            "real_minutes": 1.5 * (task.end - task.start).total_seconds() / 60,
            "dropped": False,
        }
        | changes
        for task in by_hand(plan)
    ]
    date = str(plan.date)
    return {"format": "batchcook-day/1", "plan": "x", "date": date, "tasks": tasks, "notes": []}


def written(place: Path, content: object) -> Path:
    file = place / "day.json"
    file.write_text(json.dumps(content))
    return file


def test_a_saved_day_teaches_as_much_as_the_terminals_marks(folder: Path, plan: Plan) -> None:
    for task in by_hand(plan):
        end = task.start + 1.5 * (task.end - task.start)
        append_marks(folder, [Mark("start", task.start, task.id), Mark("done", end, task.id)])
    from_screen = followed_times([written(folder, saved(plan))])
    assert from_screen
    assert set(from_screen) == set(followed_times([folder]))
    assert set(followed_times([folder / "plan.json"])) == set(from_screen)
    assert all(each.ratio == pytest.approx(1.5) for each in from_screen)


def test_a_task_told_by_both_counts_once(folder: Path, plan: Plan) -> None:
    first = by_hand(plan)[0]
    append_marks(folder, [Mark("start", first.start, first.id), Mark("done", first.end, first.id)])
    file = written(folder, saved(plan))
    both = followed_times([folder, file])
    assert len(both) == len(followed_times([file]))
    assert both[0].ratio == 1.0


@pytest.mark.parametrize(
    "change",
    [{"marked": False}, {"hands_on": False}, {"real_minutes": None}, {"technique": "clean-down"}],
)
def test_what_was_not_timed_by_hand_teaches_nothing(
    folder: Path, plan: Plan, change: dict[str, object]
) -> None:
    assert followed_times([written(folder, saved(plan, **change))]) == ()


def test_a_pace_planned_with_is_not_counted_twice(folder: Path, plan: Plan) -> None:
    found = followed_times([written(folder, saved(plan, pace=1.2))])
    assert all(each.ratio == pytest.approx(1.8) for each in found)


def test_real_times_are_set_against_the_plan_before_they_were_known(
    folder: Path, plan: Plan
) -> None:
    """A plan made anew in the middle of its day holds the real times of what was over."""
    first = by_hand(plan)[0]
    took = first.end + (first.end - first.start)
    real = first.model_copy(update={"end": took})
    anew = plan.model_copy(
        update={
            "tasks": (real, *(task for task in plan.tasks if task.id != first.id)),
            "replanned": Replanned(at=took, finish_before=plan.finish),
        }
    )
    (folder / f"plan-before-{took:%H%M}.json").write_text(write_plan(plan))
    (folder / "plan.json").write_text(write_plan(anew))
    append_marks(folder, [Mark("start", first.start, first.id), Mark("done", took, first.id)])
    assert [each.ratio for each in followed_times([folder])] == [2.0]


@pytest.mark.parametrize(
    ("content", "what"),
    [
        ("not json", "is not JSON"),
        ("[1, 2]", "says no format"),
        ('{"format": "batchcook-month/1"}', "says format 'batchcook-month/1'"),
    ],
)
def test_a_file_that_is_neither_is_told_with_what_was_expected(
    tmp_path: Path, content: str, what: str
) -> None:
    file = tmp_path / "other.json"
    file.write_text(content)
    with pytest.raises(InputFault) as told:
        followed_times([file, tmp_path / "none.json"])
    first, second = map(str, told.value.complaints)
    assert what in first
    assert str(file) in first
    assert "Save what happened" in first
    assert "none.json: cannot be read" in second


def test_a_saved_file_that_was_tampered_with_is_told_by_place(folder: Path, plan: Plan) -> None:
    content = saved(plan)
    content["tasks"][1]["real_minutes"] = "long"
    file = written(folder, content)
    with pytest.raises(InputFault, match=r"day\.json, tasks\[2\]\.real_minutes"):
        followed_times([file])


def test_learn_keeps_what_the_screen_saved(folder: Path, plan: Plan) -> None:
    file, kept = written(folder, saved(plan)), folder / "pace.jsonl"
    done = CliRunner().invoke(app, ["pace", "learn", str(file), "--pace", str(kept)])
    assert done.exit_code == 0, done.output
    assert done.output == f"Kept the times of {len(by_hand(plan))} tasks.\n"
    lines = [json.loads(line) for line in kept.read_text().splitlines()]
    assert {dt.date.fromisoformat(line["date"]) for line in lines} == {plan.date}


def test_nothing_is_written_where_one_of_the_places_is_at_fault(folder: Path, plan: Plan) -> None:
    good, kept = written(folder, saved(plan)), folder / "pace.jsonl"
    words = ["pace", "learn", str(good), str(folder / "gone"), "--pace", str(kept)]
    done = CliRunner().invoke(app, words)
    assert isinstance(done.exception, InputFault)
    assert not kept.exists()


@pytest.mark.parametrize(
    ("length", "supposed", "why"),
    [
        (0.0, False, "1 hands-on task was marked begun and done at the same moment"),
        (9.0, False, "1 hands-on task was left open for more than 4 times"),
        (1.0, True, "1 hands-on task was only taken to have gone as planned"),
        (None, False, "1 hands-on task was marked begun or done, but not both"),
    ],
)
def test_the_real_reason_is_told_where_nothing_is_learned(
    folder: Path, plan: Plan, length: float | None, supposed: bool, why: str
) -> None:
    task = by_hand(plan)[0]
    marks = [Mark("start", task.start, task.id, supposed=supposed)]
    if length is not None:
        end = task.start + length * (task.end - task.start)
        marks.append(Mark("done", end, task.id, supposed=supposed))
    append_marks(folder, marks)
    told = CliRunner().invoke(app, ["pace", "learn", str(folder), "--pace", str(folder / "p")])
    assert told.exit_code == 1
    assert why in told.stderr
    assert not (folder / "p").exists()


def test_a_day_without_marks_says_so(folder: Path) -> None:
    told = CliRunner().invoke(app, ["pace", "learn", str(folder)])
    assert "no hands-on task was marked begun or done" in told.stderr
