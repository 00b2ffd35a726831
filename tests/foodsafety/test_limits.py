"""Limits of time, temperature and handling."""

from __future__ import annotations

import pytest

from batchcook.complaints import InputFault
from batchcook.foodsafety import limits as named
from batchcook.foodsafety.limits import limit, limits, time_out_limit
from batchcook.quantities import ureg


@pytest.mark.parametrize(
    ("degF", "minutes"), [(72, 120), (89, 120), (90, 120), (90.5, 60), (91, 60), (105, 60)]
)
def test_time_out_is_two_hours_and_one_above_ninety(degF: float, minutes: int) -> None:  # noqa: N803 - the unit's own spelling
    assert time_out_limit(ureg.Quantity(degF, "degF")) == minutes


def test_time_out_reads_other_scales() -> None:
    assert time_out_limit(ureg.Quantity(35, "degC")) == 60
    assert time_out_limit(ureg.Quantity(30, "degC")) == 120


def test_every_limit_with_a_number_has_a_unit_that_can_be_read() -> None:
    for each in limits().values():
        assert (each.high is None) == (each.unit == "")
        if each.high is not None:
            assert each.quantity.magnitude == each.high
            assert each.lower.magnitude <= each.high


def test_every_limit_has_its_words_and_its_source() -> None:
    for each in limits().values():
        assert each.figure
        assert each.scope
        assert each.topic
        assert each.source.title


def test_a_rule_without_a_number_says_so_when_asked_for_one() -> None:
    with pytest.raises(ValueError, match="has no number"):
        _ = limit("past-time-out").quantity


def test_an_unknown_limit_is_refused_with_the_nearest_name() -> None:
    with pytest.raises(InputFault) as fault:
        limit("time-outt")
    assert fault.value.complaints[0].suggestion == "time-out"


def test_named_limits_are_the_tables() -> None:
    assert named.TIME_OUT_MINUTES == 120
    assert named.TIME_OUT_HOT_ROOM_MINUTES == 60
    assert pytest.approx((1 / 2, 2 / 3)) == named.SLOW_COOKER_FILL
    assert ureg.Quantity(2, "inch") == named.COOLING_DEPTH
    assert named.FREEZER_BEFORE_LOAD.magnitude == -10
