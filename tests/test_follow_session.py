"""What the live screen takes from outside: its clock, and a way to plan anew that never throws."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from unittest import mock

import pytest
from planned_days import planned

from batchcook.follow import session
from batchcook.follow.session import day_clock, plan_anew
from batchcook.plan import Plan, read_plan, write_plan

CHICAGO = dt.timezone(dt.timedelta(hours=-6))


@pytest.fixture
def plan() -> Plan:
    return planned(sausage_lentil_soup=1)


class Wall:
    """The real clock, set by a test."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch, now: str) -> None:
        self.now = dt.datetime.fromisoformat(now).replace(tzinfo=CHICAGO)
        monkeypatch.setattr(session, "_wall", lambda: self.now)

    def wait(self, **span: float) -> None:
        self.now += dt.timedelta(**span)


def instant(words: str) -> dt.datetime:
    return dt.datetime.fromisoformat(words)


@pytest.mark.parametrize("day", ["2027-01-16", "2027-03-03"])
def test_the_clock_goes_on_past_midnight(
    plan: Plan, monkeypatch: pytest.MonkeyPatch, day: str
) -> None:
    wall = Wall(monkeypatch, f"{day}T23:59:30")
    clock = day_clock(plan)
    assert clock() == instant("2027-01-16T23:59:30")
    wall.wait(minutes=1)
    assert clock() == instant("2027-01-17T00:00:30")


def test_a_time_to_begin_at_is_counted_from_the_instant_of_opening(
    plan: Plan, monkeypatch: pytest.MonkeyPatch
) -> None:
    wall = Wall(monkeypatch, "2027-03-03T23:59:30")
    clock = day_clock(plan, "08:00")
    wall.wait(minutes=90)
    assert clock() == instant("2027-01-16T09:30")


def test_opened_again_in_the_night_of_the_day_it_is_still_that_day(
    plan: Plan, monkeypatch: pytest.MonkeyPatch
) -> None:
    Wall(monkeypatch, "2027-01-17T00:20")
    assert day_clock(plan)() == instant("2027-01-17T00:20")
    Wall(monkeypatch, "2027-01-17T09:00")
    assert day_clock(plan)() == instant("2027-01-16T09:00")


@pytest.mark.parametrize(
    "rejecting", ["batchcook.scheduling.check.check", "batchcook.replan.replanning.replay"]
)
def test_a_new_plan_that_a_checker_rejects_is_told_and_withheld(
    tmp_path: Path, plan: Plan, rejecting: str
) -> None:
    (tmp_path / "plan.json").write_text(write_plan(plan))
    breach = mock.MagicMock(dish="soup", food="milk", what="out too long")
    # What was broken already before is known to it; only the new plan's breach is fresh.
    told = {"side_effect": [(), (breach,)]} if "replay" in rejecting else {"return_value": [breach]}
    with mock.patch(rejecting, **told):
        said = plan_anew(plan, tmp_path, "", plan.start + dt.timedelta(minutes=5))
    assert said.startswith("What was found did not pass its own check")
    assert said.endswith("go on as it is.")
    assert read_plan(tmp_path) == plan
    assert [each.name for each in tmp_path.iterdir()] == ["plan.json"]
