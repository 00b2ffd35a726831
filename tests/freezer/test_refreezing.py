"""Thawed food that is frozen again.

USDA FSIS, The Big Thaw: what thawed in the refrigerator may be frozen again; what thawed in cold
water or a microwave is cooked first. FDA Food Code 3-501.17 guidance: days add up.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from freezer_process import soup

from batchcook.complaints import InputFault
from batchcook.freezer.changes import Moment, add
from batchcook.freezer.stock import Stored, stock_of
from batchcook.freezer.store import read_journal
from batchcook.freezer.thawing import refreeze, thaw
from batchcook.freezer.undoing import undo

NOW = dt.datetime(2026, 6, 1, 12, tzinfo=dt.UTC)


def at(day: int, month: int = 2) -> Moment:
    return Moment(NOW, dt.date(2026, month, day))


@pytest.fixture
def place(tmp_path: Path) -> Path:
    """A soup that keeps 3 to 4 days once thawed."""
    file = tmp_path / "freezer.sqlite"
    add(file, soup(packed_on=dt.date(2026, 1, 10)), 1, at(10, 1))
    return file


def there(place: Path) -> Stored:
    (found,) = stock_of(read_journal(place)).here.values()
    return found


def test_each_thaw_gives_only_what_the_ones_before_left(place: Path) -> None:
    thaw(place, ["Z1"], at(1))
    (again,) = refreeze(place, ["Z1"], at(3))
    assert (again.keeps_thawed_days, again.keeps_thawed_at_most) == (1, 2)
    assert there(place) == again
    thaw(place, ["Z1"], at(10))
    assert there(place).eat_by == dt.date(2026, 2, 12)
    (again,) = refreeze(place, ["Z1"], at(11))
    assert (again.keeps_thawed_days, again.keeps_thawed_at_most) == (0, 1)


def test_thawing_and_freezing_over_and_over_comes_to_an_end(place: Path) -> None:
    for number in range(4):
        thaw(place, ["Z1"], at(1 + 3 * number))
        refreeze(place, ["Z1"], at(2 + 3 * number))
    thaw(place, ["Z1"], at(20))
    with pytest.raises(InputFault, match="no day left for another thaw"):
        refreeze(place, ["Z1"], at(21))


def test_what_was_kept_too_long_is_thrown_out_and_not_frozen(place: Path) -> None:
    thaw(place, ["Z1"], at(1))
    with pytest.raises(InputFault, match="kept too long: its last day was Fri 6 Feb 2026"):
        refreeze(place, ["Z1"], at(7))
    assert there(place).place == "refrigerator"


def test_only_what_thawed_can_be_frozen_again_and_not_before_it_did(place: Path) -> None:
    with pytest.raises(InputFault, match="is in the freezer"):
        refreeze(place, ["Z1"], at(3))
    thaw(place, ["Z1"], at(3))
    with pytest.raises(InputFault, match="--on: Z1 was moved on Tue 3 Feb 2026"):
        refreeze(place, ["Z1"], at(2))
    refreeze(place, ["Z1"], at(4))
    with pytest.raises(InputFault, match="went into the freezer on Wed 4 Feb 2026"):
        thaw(place, ["Z1"], at(3))


def test_freezing_again_is_undone_like_any_step(place: Path) -> None:
    thaw(place, ["Z1"], at(1))
    before = there(place)
    refreeze(place, ["Z1"], at(3))
    assert undo(place, None, now=NOW) == "step 3: Z1 frozen again"
    assert there(place) == before


def test_a_book_that_has_raw_food_as_cooked_lists_it_as_raw(place: Path) -> None:
    made = soup(packed_on=dt.date(2026, 1, 10))
    written = {**made, "storage_rows": ["raw-ground-meat-fsis"], "state": "cooked"}
    add(place, written, 1, at(1), "R1")
    found = {each.code: each for each in stock_of(read_journal(place)).here.values()}
    assert found["R1"].raw
    assert not found["Z1"].raw
