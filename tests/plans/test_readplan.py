"""A plan.json that was damaged is refused with one message, wherever it is read."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from planned_days import planned, written

from batchcook.complaints import InputFault
from batchcook.follow.session import room_of
from batchcook.plan import read_plan, write_plan


def _set(place: str, key: str, value: object) -> Callable[[dict[str, Any]], None]:
    def change(plan: dict[str, Any]) -> None:
        inside = plan if not place else plan[place]
        (inside[0] if isinstance(inside, list) else inside)[key] = value

    return change


_TIME = "expected a day and time such as 2027-01-16T08:00"


@pytest.mark.parametrize(
    ("change", "expected"),
    [
        (_set("tasks", "start", -5), f"tasks.0.start: -5 does not fit here; {_TIME}"),
        (_set("tasks", "start", "1700000000"), f"'1700000000' does not fit here; {_TIME}"),
        (_set("", "finish", "2027-01-16T12:00Z"), _TIME),
        (_set("tasks", "end", "2027-01-16T07:00"), "ends at 2027-01-16T07:00, before it begins"),
        (_set("summary", "makespan_minutes", "90"), "expected a whole number"),
        (
            _set("tasks", "cook", "first-cok"),
            "unknown cook 'first-cok'; expected one of the plan's",
        ),
        (_set("events", "task", "day/clean-u"), "events.0: unknown task 'day/clean-u'"),
        (_set("", "date", 7), "date: 7 does not fit here; expected a date"),
    ],
)
def test_a_damaged_plan_is_refused_with_its_place(
    tmp_path: Path, change: Callable[[dict[str, Any]], None], expected: str
) -> None:
    plan = copy.deepcopy(dict(written(sausage_lentil_soup=1)))
    change(plan)
    file = tmp_path / "plan.json"
    file.write_text(json.dumps(plan), "utf-8")
    with pytest.raises(InputFault) as fault:
        read_plan(tmp_path)
    (complaint,) = fault.value.complaints
    assert expected in str(complaint)
    assert str(complaint).startswith(str(file))


def test_a_plan_comes_back_as_it_was_written(tmp_path: Path) -> None:
    plan = planned(sausage_lentil_soup=1)
    (tmp_path / "plan.json").write_text(write_plan(plan), "utf-8")
    assert read_plan(tmp_path) == plan


def test_a_task_that_stands_there_twice_is_told(tmp_path: Path) -> None:
    plan = written(sausage_lentil_soup=1)
    twice = {**plan, "tasks": [*plan["tasks"], plan["tasks"][0]]}
    (tmp_path / "plan.json").write_text(json.dumps(twice), "utf-8")
    with pytest.raises(InputFault, match="stands there 2 times"):
        read_plan(tmp_path)


def test_an_order_of_another_shape_is_told_wherever_it_is_needed() -> None:
    plan = planned(sausage_lentil_soup=1)
    assert plan.order is not None
    for key, value in (("kitchen", None), ("pad", "much")):
        changed = plan.order.model_copy(update={"day": {**plan.order.day, key: value}})
        with pytest.raises(InputFault, match="carries an order that cannot be read"):
            room_of(plan.model_copy(update={"order": changed}))
