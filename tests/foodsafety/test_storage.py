"""Storage rows and the dates that follow from them."""

from __future__ import annotations

import datetime as dt

import pytest

from batchcook.complaints import InputFault
from batchcook.foodsafety.storage import (
    add_months,
    dates,
    refrigerator_life,
    rows_for,
    storage_row,
    storage_rows,
)

PACKED = dt.date(2027, 1, 16)


def names(*given: str, poultry: bool | None = None) -> set[str]:
    return {row.name for row in rows_for(given, poultry=poultry)}


@pytest.mark.parametrize(
    ("day", "months", "expected"),
    [
        (dt.date(2027, 1, 31), 1, dt.date(2027, 2, 28)),
        (dt.date(2028, 1, 31), 1, dt.date(2028, 2, 29)),
        (dt.date(2027, 1, 16), 2, dt.date(2027, 3, 16)),
        (dt.date(2027, 11, 30), 3, dt.date(2028, 2, 29)),
        (dt.date(2027, 12, 31), 12, dt.date(2028, 12, 31)),
        (dt.date(2028, 2, 29), 12, dt.date(2029, 2, 28)),
        (dt.date(2027, 8, 31), 1, dt.date(2027, 9, 30)),
    ],
)
def test_months_are_calendar_months_and_end_on_the_last_day_of_a_short_one(
    day: dt.date, months: int, expected: dt.date
) -> None:
    assert add_months(day, months) == expected


def test_a_soup_is_best_for_two_months_and_used_within_three() -> None:
    found = dates(rows_for(["soup-or-stew"]), PACKED)
    assert found.best_by == dt.date(2027, 3, 16)
    assert found.use_by == dt.date(2027, 4, 16)
    assert found.refrigerator_days_after_thaw == 3
    assert found.refrigerator_days_after_thaw_at_most == 4


def test_cooked_meat_carries_both_charts_and_keeps_the_stricter() -> None:
    assert names("cooked-meat-or-poultry", poultry=False) == {
        "cooked-meat-or-poultry",
        "cooked-meat-fsis",
    }
    found = dates(rows_for(["cooked-meat-or-poultry"], poultry=False), PACKED)
    assert (found.best_by, found.use_by) == (dt.date(2027, 3, 16), dt.date(2027, 4, 16))


def test_cooked_poultry_is_two_and_four_months() -> None:
    found = dates(rows_for(["cooked-meat-or-poultry"], poultry=True), PACKED)
    assert (found.best_by, found.use_by) == (dt.date(2027, 3, 16), dt.date(2027, 5, 16))


def test_naming_the_poultry_row_settles_which_meat_is_meant() -> None:
    assert names("cooked-poultry-fsis") == {"cooked-poultry-fsis", "cooked-meat-or-poultry"}


def test_meat_of_an_unknown_sort_takes_both_charts() -> None:
    assert names("cooked-meat-or-poultry") == {
        "cooked-meat-or-poultry",
        "cooked-meat-fsis",
        "cooked-poultry-fsis",
    }


def test_dates_count_other_charts_even_for_a_row_given_alone() -> None:
    alone = dates([storage_row("cooked-meat-or-poultry", "here")], PACKED)
    assert alone.use_by == dt.date(2027, 4, 16)


def test_the_shortest_ends_may_come_from_different_rows() -> None:
    found = dates(rows_for(["casserole", "cooked-sausage"]), PACKED)
    assert (found.best_by, found.use_by) == (dt.date(2027, 2, 16), dt.date(2027, 3, 16))
    assert found.refrigerator_days_after_thaw == 3


def test_days_before_freezing_count_against_the_days_after_thawing() -> None:
    rows = rows_for(["soup-or-stew"])
    assert dates(rows, PACKED, refrigerated_days_before=2).refrigerator_days_after_thaw == 1
    assert dates(rows, PACKED, refrigerated_days_before=4).refrigerator_days_after_thaw == 0


def test_longer_before_freezing_than_it_keeps_is_refused() -> None:
    with pytest.raises(InputFault, match="longer than it keeps"):
        dates(rows_for(["soup-or-stew"]), PACKED, refrigerated_days_before=5)


def test_negative_days_before_freezing_are_refused() -> None:
    with pytest.raises(InputFault, match="negative"):
        dates(rows_for(["soup-or-stew"]), PACKED, refrigerated_days_before=-1)


def test_a_food_that_does_not_freeze_has_no_dates() -> None:
    with pytest.raises(InputFault, match="does not freeze well"):
        dates(rows_for(["mixed-salads"]), PACKED)


def test_no_rows_are_refused() -> None:
    with pytest.raises(InputFault, match="none given"):
        dates([], PACKED)


def test_an_unknown_row_is_refused_with_the_nearest_name() -> None:
    with pytest.raises(InputFault) as fault:
        storage_row("soup-or-stews", "stew.toml: storage")
    assert fault.value.complaints[0].suggestion == "soup-or-stew"
    assert fault.value.complaints[0].where == "stew.toml: storage"


def test_every_unknown_row_is_named_at_once() -> None:
    with pytest.raises(InputFault) as fault:
        rows_for(["casserol", "soup-or-stew", "gravvy"])
    assert [complaint.suggestion for complaint in fault.value.complaints] == ["casserole", "gravy"]


def test_raw_rows_of_the_freezer_chart_take_their_days_from_the_other_chart() -> None:
    assert refrigerator_life([storage_row("raw-ground-meat-fsis", "here")]) == (1, 2)


def test_every_row_of_a_chart_has_its_scope_its_source_and_some_figure() -> None:
    for row in storage_rows().values():
        assert row.scope
        assert row.source.title
        assert row.refrigerator_days or row.freezer_months
        assert (row.freezer_months is None) == bool(row.not_frozen)


def test_where_another_publisher_is_recorded_the_row_itself_is_the_stricter() -> None:
    recorded = [row for row in storage_rows().values() if row.elsewhere]
    assert [row.name for row in recorded] == ["cooked-fish"]
    for row in recorded:
        assert row.elsewhere is not None
        assert row.freezer_months is not None
        assert row.freezer_months[0] <= row.elsewhere[0][0]
        assert row.freezer_months[1] <= row.elsewhere[0][1]
