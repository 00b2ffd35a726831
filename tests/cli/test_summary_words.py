"""What the summaries say of hands-on time and of the finish."""

from __future__ import annotations

import datetime as dt

import pytest

from batchcook.cli.replanned import finish_words
from batchcook.cli.summary import hands_on_words
from batchcook.plan import Summary


@pytest.mark.parametrize(
    ("proved", "bound", "expected"),
    [
        (True, 342, "5 h 42 min, proved: no plan as short has less"),
        (False, 310, "5 h 42 min, not proved; none as short has less than 5 h 10 min"),
        (False, None, "5 h 42 min, not proved"),
        (False, 0, "5 h 42 min, not proved"),
        (False, -3, "5 h 42 min, not proved"),
    ],
)
def test_hands_on_time_is_told_proved_or_with_how_far_off_it_may_be(
    proved: bool, bound: int | None, expected: str
) -> None:
    summary = Summary(
        makespan_minutes=240,
        best_bound_minutes=230,
        proved_shortest=False,
        one_after_another_minutes=500,
        hands_on_minutes=342,
        hands_on_proved=proved,
        hands_on_bound_minutes=bound,
    )
    assert hands_on_words(summary) == expected


def test_a_finish_that_did_not_move_is_no_instead_of() -> None:
    at = dt.datetime.combine(dt.date(2027, 1, 16), dt.time(12, 24))
    assert finish_words(at, at) == "done at 12:24 as before"
    assert finish_words(at, at - dt.timedelta(minutes=4)) == "done at 12:24 instead of 12:20"
