"""A day planned into the folder of another, and what the other's progress comes to."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from shopping_days import dish, plan_with
from typer.testing import CliRunner

from batchcook.cli.main import app
from batchcook.complaints import InputFault
from batchcook.documents.render import NAMES, documents
from batchcook.plan import Plan, read_plan, write_plan
from batchcook.plans.dayfolder import (
    check_plan_folder,
    name_of_plan_before,
    plans_before,
    write_day,
)
from batchcook.plans.progress import FILE, Mark, append_marks, read_marks

KIT = "lemon-herb-chicken-kit"


def plan_on(day: dt.date) -> Plan:
    made = plan_with([], dishes=[dish("curry")])
    at = made.start.replace(year=day.year, month=day.month, day=day.day)
    return made.model_copy(update={"date": day, "start": at})


OLD, NEW = plan_on(dt.date(2027, 1, 9)), plan_on(dt.date(2027, 1, 16))
AT = dt.datetime.fromisoformat("2027-01-09T09:00")
MARK = Mark("start", AT, "x")


@pytest.fixture
def followed(tmp_path: Path) -> Path:
    """The folder of a day that was followed and planned anew once."""
    folder = tmp_path / "prep-day"
    folder.mkdir()
    (folder / "plan.json").write_text(write_plan(OLD), "utf-8")
    (folder / "plan-before-0905.json").write_text(write_plan(OLD), "utf-8")
    (folder / "notes.toml").write_text("", "utf-8")
    append_marks(folder, [MARK])
    return folder


def test_what_was_followed_is_set_aside_whole_and_read_as_before(followed: Path) -> None:
    aside = write_day(followed, {"plan.json": write_plan(NEW).encode()})
    assert aside == followed / "followed-2027-01-09"
    assert sorted(each.name for each in aside.iterdir()) == [
        "notes.toml",
        "plan-before-0905.json",
        "plan.json",
        FILE,
    ]
    assert (read_plan(aside), read_marks(aside, OLD.date)) == (OLD, (MARK,))
    assert read_plan(followed) == NEW
    assert read_marks(followed) == ()
    assert plans_before(followed) == ()
    assert (followed / "notes.toml").exists()


def test_a_day_followed_twice_is_set_aside_twice(followed: Path) -> None:
    files = {"plan.json": write_plan(OLD).encode()}
    write_day(followed, files)
    append_marks(followed, [MARK, MARK])
    assert write_day(followed, files) == followed / "followed-2027-01-09-2"
    assert read_marks(followed / "followed-2027-01-09") == (MARK,)
    assert read_marks(followed / "followed-2027-01-09-2") == (MARK, MARK)


def test_what_was_never_followed_is_replaced(tmp_path: Path) -> None:
    write_day(tmp_path, {"plan.json": write_plan(OLD).encode()})
    assert write_day(tmp_path, {"plan.json": write_plan(NEW).encode()}) is None
    assert [each.name for each in tmp_path.iterdir()] == ["plan.json"]


def test_a_folder_that_cannot_be_written_keeps_its_progress(
    followed: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = {each.name: each.read_bytes() for each in followed.iterdir()}
    replace = Path.replace

    def refused(self: Path, target: Path) -> Path:
        if target.parent == followed and self.parent.name != ".old":
            raise PermissionError(1, "Operation not permitted")
        return replace(self, target)

    monkeypatch.setattr(Path, "replace", refused)
    with pytest.raises(InputFault, match="cannot be written"):
        write_day(followed, {"plan.json": write_plan(NEW).encode()})
    assert {each.name: each.read_bytes() for each in followed.iterdir()} == before


def test_progress_of_another_day_is_refused_in_a_sentence(followed: Path) -> None:
    (followed / "plan.json").write_text(write_plan(NEW), "utf-8")
    for words in (["follow"], ["replan", "--at", "11:00"], ["pace", "learn"]):
        done = CliRunner().invoke(app, [*words, str(followed)])
        assert isinstance(done.exception, InputFault)
        (told,) = done.exception.complaints
        assert "is of 2027-01-09, and the plan is for 2027-01-16" in str(told)


def test_marks_after_midnight_belong_to_the_day_before(followed: Path) -> None:
    late = Mark("done", AT + dt.timedelta(hours=15, minutes=30), "x")
    append_marks(followed, [late])
    assert late.at.date() != OLD.date
    assert read_marks(followed, OLD.date) == (MARK, late)


def test_plans_before_have_names_of_their_own_in_their_order(tmp_path: Path) -> None:
    names = []
    for minute in [5] * 11 + [4]:
        names.append(name_of_plan_before(tmp_path, AT + dt.timedelta(minutes=minute)))
        (tmp_path / names[-1]).write_text("", "utf-8")
    (tmp_path / "plan-before-mine.json").write_text("", "utf-8")
    assert len(set(names)) == len(names)
    assert names[:2] == ["plan-before-0905.json", "plan-before-0905-2.json"]
    assert [file.name for file in plans_before(tmp_path)] == [names[-1], *names[:-1]]


def test_a_folder_of_others_is_not_written_over(tmp_path: Path) -> None:
    (tmp_path / "kitchen.toml").write_text("mine", "utf-8")
    check_plan_folder(tmp_path, NAMES)
    (tmp_path / "labels.pdf").write_text("mine", "utf-8")
    with pytest.raises(InputFault, match=r"is no plan folder, and would lose its labels\.pdf"):
        check_plan_folder(tmp_path, NAMES)
    (tmp_path / "plan.json").write_text(write_plan(OLD), "utf-8")
    check_plan_folder(tmp_path, NAMES)


def test_the_names_checked_are_those_that_are_written() -> None:
    assert set(documents(NEW)) == set(NAMES)


def test_planning_sets_aside_and_leaves_the_cooks_own_kitchen(
    followed: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    mine = CliRunner().invoke(app, ["kitchen", "template"]).stdout.replace("First cook", "Mara")
    (followed / "kitchen.toml").write_text(mine, "utf-8")
    monkeypatch.chdir(followed)
    words = ["plan", KIT, "--out", ".", "--date", "2027-01-16"]
    done = CliRunner().invoke(app, words, env={"COLUMNS": "200"})
    assert done.exit_code == 0, done.output
    assert "set aside, whole, in followed-2027-01-09." in done.output
    assert (followed / "kitchen.toml").read_text("utf-8") == mine
    assert read_marks(followed) == ()
    assert read_plan(followed / "followed-2027-01-09") == OLD


def test_what_is_in_the_way_is_told_before_the_search(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("batchcook.planning.plan_day", lambda *_, **__: pytest.fail("searched"))
    (tmp_path / "run-sheet.pdf").mkdir()
    done = CliRunner().invoke(app, ["plan", KIT, "--out", str(tmp_path)])
    assert isinstance(done.exception, InputFault)
    assert "is a folder" in str(done.exception)
