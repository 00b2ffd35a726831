"""An oven that is turned to another temperature while it still heats."""

from __future__ import annotations

import datetime as dt

from batchcook.plan import Task
from batchcook.replan.newplan import turned_once


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
