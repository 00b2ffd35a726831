"""An oven that is turned to another temperature while it still heats."""

from __future__ import annotations

import datetime as dt

from batchcook.plan import Task
from batchcook.replan.newplan import turned_as_before, turned_once


def _heating(name: str, oven: str, start: int, end: int) -> Task:
    noon = dt.datetime.combine(dt.date(2027, 1, 16), dt.time(12))
    return Task(
        id=name,
        title="Turn the oven on",
        technique="preheat",
        dishes={},
        run=None,
        start=noon + dt.timedelta(minutes=start),
        end=noon + dt.timedelta(minutes=end),
        cook=None,
        uses={oven: 4},
    )


def test_it_heats_to_the_first_only_until_it_is_turned_to_the_second() -> None:
    first, second = _heating("to 375", "oven", 21, 33), _heating("to 350", "oven", 25, 37)
    cut, kept = turned_once([first, second])
    assert cut.end == second.start
    assert kept == second


def test_ovens_and_heatings_that_have_nothing_to_do_with_each_other_stay_as_they_are() -> None:
    apart = [
        _heating("to 375", "oven", 0, 12),
        _heating("to 350", "oven", 12, 24),
        _heating("to 400", "oven:2", 5, 17),
    ]
    assert list(turned_once(apart)) == apart


def test_a_turn_to_come_keeps_its_id_though_the_new_schedule_numbers_it_otherwise() -> None:
    over, to_come = (
        _heating("oven/to-350-1", "oven", 0, 12),
        _heating("oven/to-350-2", "oven", 60, 72),
    )
    (same,) = turned_as_before(
        [_heating("oven/to-350-1", "oven", 61, 73)], [over, to_come], {over.id}
    )
    assert same == to_come.model_copy(update={"start": same.start, "end": same.end})
    assert same.start == to_come.start + dt.timedelta(minutes=1)


def test_one_more_turn_has_an_id_that_none_before_it_had() -> None:
    over, to_come = (
        _heating("oven/to-350-1", "oven", 0, 12),
        _heating("oven/to-350-2", "oven", 60, 72),
    )
    turns = [_heating("oven/to-350-1", "oven", 60, 72), _heating("oven/to-350-2", "oven", 90, 102)]
    ids = [each.id for each in turned_as_before(turns, [over, to_come], {over.id})]
    assert ids[0] == "oven/to-350-2"
    assert ids[1] not in {over.id, to_come.id}
