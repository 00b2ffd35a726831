"""``batchcook replan``: what it writes, what it says, and how it refuses."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from pypdf import PdfReader
from typer.testing import CliRunner

from batchcook.cli.main import app
from batchcook.complaints import InputFault
from batchcook.cookbook import load_cookbook
from batchcook.day.prepday import PrepDay
from batchcook.day.solving import Effort
from batchcook.kitchens.kitchen import default_kitchen
from batchcook.plan import Plan, read_plan, write_plan
from batchcook.planning import plan_day
from batchcook.plans.progress import Mark, append_marks, read_marks


@pytest.fixture(scope="module")
def plan() -> Plan:
    day = PrepDay(
        date=dt.date(2027, 1, 16),
        start=dt.time(8),
        orders={"sausage-lentil-soup": 1},
        kitchen=default_kitchen(),
    )
    return plan_day(day, load_cookbook(), Effort(8.0))


@pytest.fixture
def folder(tmp_path: Path, plan: Plan) -> Path:
    (tmp_path / "plan.json").write_text(write_plan(plan))
    return tmp_path


def run(*words: str) -> tuple[int, str]:
    done = CliRunner().invoke(app, ["replan", *words], env={"COLUMNS": "200"})
    if isinstance(done.exception, InputFault):
        raise done.exception
    return done.exit_code, done.output


def test_the_plan_before_is_kept_beside_the_new_one(folder: Path, plan: Plan) -> None:
    code, said = run(str(folder), "--at", "09:00", "--without", "cook=second-cook")
    assert code == 0
    assert "What changed" in said or "Nothing changes" in said
    assert read_plan(folder / "plan-before-0900.json") == plan
    replanned = read_plan(folder).replanned
    assert replanned is not None
    assert f"{replanned.at:%H:%M}" == "09:00"
    assert "Planned anew at 09:00" in (folder / "run-sheet.html").read_text()


def test_another_folder_leaves_the_plan_alone(folder: Path, plan: Plan, tmp_path: Path) -> None:
    out = tmp_path / "new"
    code, _ = run(str(folder), "--at", "09:00", "--out", str(out))
    assert code == 0
    assert read_plan(folder) == plan
    assert (out / "plan.json").exists()
    assert (out / "run-sheet.html").exists()


def test_what_is_said_to_run_is_kept_as_progress(folder: Path) -> None:
    simmer = "sausage-lentil-soup/simmer"
    code, said = run(str(folder), "--at", "10:10", "--running", f"{simmer}=10:00")
    assert code == 0
    assert "Taken as done" in said
    assert [(mark.kind, mark.task, f"{mark.at:%H:%M}") for mark in read_marks(folder)] == [
        ("start", simmer, "10:00")
    ]


def test_every_word_that_cannot_be_read_is_told(folder: Path) -> None:
    with pytest.raises(InputFault) as told:
        run(
            str(folder),
            "--at",
            "09:00",
            "--done",
            "sausage-lentil-soup/simer",
            "--without",
            "moon=1",
            "--without",
            "cook=nobody",
        )
    assert len(told.value.complaints) == 3
    assert "sausage-lentil-soup/simmer" in str(told.value.complaints[0])


def test_a_refusal_says_what_to_do_with_hot_food_and_writes_nothing(
    folder: Path, plan: Plan
) -> None:
    simmer = next(task for task in plan.tasks if task.id == "sausage-lentil-soup/simmer")
    at = simmer.start + dt.timedelta(minutes=10)
    before = sorted(each.name for each in folder.iterdir())
    code, said = run(str(folder), "--at", f"{at:%H:%M}", "--without", "burner=4")
    assert code == 1
    assert "140 degF" in said
    assert sorted(each.name for each in folder.iterdir()) == before


@pytest.mark.parametrize("amount", ["nine", "9", "0", "-1"])
def test_as_much_as_is_not_there_cannot_be_missing(folder: Path, amount: str) -> None:
    before = read_plan(folder)
    with pytest.raises(InputFault, match="cannot be missing; expected a number from 1 to 4"):
        run(str(folder), "--at", "09:00", "--without", f"burner={amount}")
    assert read_plan(folder) == before


@pytest.mark.parametrize(("said", "used"), [((), "a4"), (("--paper", "letter"), "letter")])
def test_the_new_papers_are_of_the_size_of_the_old(
    folder: Path, plan: Plan, said: tuple[str, ...], used: str
) -> None:
    on_a4 = plan.model_copy(update={"paper": "a4"})
    (folder / "plan.json").write_text(write_plan(on_a4))
    run(str(folder), "--at", "09:00", *said)
    assert read_plan(folder).paper == used
    width = {"a4": 595, "letter": 612}[used]
    assert round(PdfReader(folder / "run-sheet.pdf").pages[0].mediabox.width) == width


def test_planned_anew_twice_in_a_minute_every_plan_before_is_kept(folder: Path, plan: Plan) -> None:
    run(str(folder), "--at", "09:00", "--without", "burner=1")
    between = read_plan(folder)
    run(str(folder), "--at", "09:00", "--without", "burner=1")
    assert read_plan(folder / "plan-before-0900.json") == plan
    assert read_plan(folder / "plan-before-0900-2.json") == between


def test_marks_are_written_with_the_plan_or_not_at_all(
    folder: Path, plan: Plan, monkeypatch: pytest.MonkeyPatch
) -> None:
    words = (str(folder), "--at", "10:10", "--running", "sausage-lentil-soup/simmer=10:00")
    replace = Path.replace

    def refused(self: Path, target: Path) -> Path:
        if target.name == "plan.json":
            raise PermissionError(1, "Operation not permitted")
        return replace(self, target)

    with monkeypatch.context() as patched:
        patched.setattr(Path, "replace", refused)
        with pytest.raises(InputFault, match="cannot be written"):
            run(*words)
    assert read_marks(folder) == ()
    assert read_plan(folder) == plan


def test_another_folder_s_own_progress_is_set_aside(folder: Path, plan: Plan) -> None:
    out = folder / "new"
    out.mkdir()
    (out / "plan.json").write_text(write_plan(plan))
    old = Mark("start", plan.start, plan.tasks[0].id)
    append_marks(out, [old])
    run(str(folder), "--at", "10:10", "--out", str(out))
    assert read_marks(out) == ()
    assert read_marks(out / f"followed-{plan.date}") == (old,)


def test_after_the_day_s_end_nothing_is_left_to_plan(folder: Path, plan: Plan) -> None:
    later = plan.finish + dt.timedelta(minutes=20)
    with pytest.raises(InputFault) as told:
        run(str(folder), "--at", f"{later:%H:%M}")
    (complaint,) = told.value.complaints
    assert f"all was done by {plan.finish:%H:%M}" in str(complaint)
    assert [each.name for each in folder.iterdir()] == ["plan.json"]


def test_after_its_planned_end_a_day_that_runs_late_is_planned_anew(
    folder: Path, plan: Plan
) -> None:
    later = plan.finish + dt.timedelta(minutes=5)
    last = max(plan.tasks, key=lambda task: (task.end, task.start))
    code, _ = run(str(folder), "--at", f"{later:%H:%M}", "--running", f"{last.id}={later:%H:%M}")
    assert code == 0
    assert read_plan(folder).finish > later
